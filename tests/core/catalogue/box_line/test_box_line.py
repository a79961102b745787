"""The one line for an order: what a hundred phrases mean, nothing dropped, rows that read back the same."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.catalogue import condition, formats
from core.catalogue.box_line import line_told
from core.catalogue.box_line.line_offers import completions
from core.catalogue.box_line.line_reading import read
from core.catalogue.box_line.line_records import LineRow, Taken
from core.catalogue.box_line.line_words import shown, vocabulary
from core.catalogue.box_line.line_writing import written
from core.model.inventory import MOST_TAPES, TapeLine
from core.model.names import FormatName, Speed, TvSystem, finding_of
from core.wording import messages
from tests.support.box_lines.accounted import unaccounted, untold
from tests.support.box_lines.line_phrases import PHRASES, Meant


def _rows(meant: Meant) -> tuple[LineRow, ...]:
    return tuple(
        LineRow(
            count,
            FormatName(name) if name else None,
            told.get("marking"),
            FormatName(told["recorded_as"]) if "recorded_as" in told else None,
            Speed(told["speed"]) if "speed" in told else None,
            TvSystem(told["tv"]) if "tv" in told else None,
            tuple(finding_of(each) for each in told.get("findings", ())),
            told.get("label", ""),
        )
        for count, name, told in meant.rows
    )


def test_there_are_a_hundred_phrases() -> None:
    assert len({meant.said for meant in PHRASES}) == len(PHRASES) >= 100


@pytest.mark.parametrize("meant", PHRASES, ids=lambda meant: meant.said)
def test_a_phrase_means_its_rows(meant: Meant) -> None:
    reading = read(meant.said)
    assert tuple(replace(row, unread=()) for row in reading.rows) == _rows(meant)
    assert tuple(reading.words(each) for each in reading.unread) == meant.not_taken
    assert unaccounted(reading) == ""
    assert untold(reading) == []


def test_words_not_taken_stand_where_they_were_typed() -> None:
    reading = read("5 vsh t120, 2 bettamax mould")
    assert [(each.start, each.end, each.row) for each in reading.unread] == [(2, 5, 0), (14, 22, 1)]
    assert [each.offers[0] for each in reading.unread] == ["VHS", "Betamax"]
    assert line_told.not_understood(reading, reading.unread[0]).startswith(
        "“vsh” was not understood. Did you mean"
    )


def test_a_number_behind_its_format_is_offered_as_markings_and_never_taken() -> None:
    (left,) = read("5 vhs 120").unread
    assert left.offers[:2] == ("T-120", "E-120")


def test_the_reading_is_told_in_words() -> None:
    told = line_told.understood(read("5 vhs t120, hi8 snapped"))
    assert told == "6 tapes: 5 × VHS T-120 · Hi8, snapped"


# --- completion --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("5 vh", "VHS"),
        ("bet", "Betamax"),
        ("5 vhs t1", "T-120"),
        ("hi8 sna", "snapped"),
        ("vhs shell b", "shell broken"),
    ],
)
def test_what_is_half_typed_is_completed(typed: str, first: str) -> None:
    found = completions(read(typed), len(typed))
    assert found is not None
    assert first in found.words
    assert typed[: found.start] + first != typed


@pytest.mark.parametrize("typed", ["", "5 ", "5 vhs", "5 vhs, ", "5", "xyzzy"])
def test_nothing_is_offered_for_a_whole_word_or_none(typed: str) -> None:
    assert completions(read(typed), len(typed)) is None


# --- reads back as itself ----------------------------------------------------------------


@st.composite
def tape_lines(draw: st.DrawFn) -> TapeLine:
    form = draw(st.sampled_from(formats.catalogue().offered))
    recorded = draw(st.sampled_from((None, *form.systems)))
    system = formats.catalogue().format(recorded or form.name)
    tv = draw(st.sampled_from((None, *TvSystem)))
    possible = sorted(condition.possible(form.name), key=str)
    label = draw(st.text(st.characters(codec="utf-8", exclude_categories=("C", "Zl", "Zp")), max_size=30))
    return TapeLine(
        draw(st.integers(1, MOST_TAPES)),
        form.name,
        draw(st.sampled_from((None, *(marking.name for marking in form.markings)))),
        recorded,
        draw(st.sampled_from((None, *system.speeds_in(tv)))),
        tv,
        findings=tuple(draw(st.lists(st.sampled_from(possible), unique=True, max_size=4))),
        label=label.strip(),
    )


@given(st.lists(tape_lines(), max_size=6))
@settings(max_examples=150, deadline=None)
def test_rows_written_as_a_line_read_back_as_themselves(lines: list[TapeLine]) -> None:
    reading = read(written(lines))
    assert [row.tapes for row in reading.rows] == lines
    assert reading.is_whole


def test_every_marking_and_every_finding_reads_back() -> None:
    for form in formats.catalogue().offered:
        for marking in form.markings:
            (row,) = read(written([TapeLine(2, form.name, marking.name)])).rows
            assert row.tapes == TapeLine(2, form.name, marking.name)
    for phrase in shown():
        assert vocabulary()[next(key for key, each in vocabulary().items() if phrase in each)]


@pytest.mark.parametrize(
    "meant", [each for each in PHRASES if not each.not_taken], ids=lambda meant: meant.said
)
def test_what_was_accepted_reads_back_as_itself(meant: Meant) -> None:
    lines = [row.tapes for row in read(meant.said).rows]
    known = [line for line in lines if line is not None]
    assert [row.tapes for row in read(written(known)).rows] == known


# --- anything at all ---------------------------------------------------------------------


@given(
    st.text(max_size=80)
    | st.lists(st.sampled_from([each.said for each in PHRASES]), max_size=4).map(" ".join)
)
@settings(max_examples=150, deadline=None)
def test_every_character_is_taken_or_told(text: str) -> None:
    reading = read(text)
    assert unaccounted(reading) == ""
    assert untold(reading) == []


@pytest.mark.parametrize(
    ("said", "name", "phone"),
    [
        ("5 vhs, hi8; Ada Fenwick 607 555 0101", "Ada Fenwick", "607 555 0101"),
        ("5 vhs; Ada Fenwick, (607) 555-0101", "Ada Fenwick", "(607) 555-0101"),
        ("5 vhs; mold; ada fenwick +1 607 555 0101", "Ada Fenwick", "+1 607 555 0101"),
        ("vhs;fenw", "Fenw", ""),
        ("vhs; ludwig van beethoven", "Ludwig van Beethoven", ""),
        ("vhs; o’brien-smith", "O’Brien-Smith", ""),
        ("vhs; DeShawn mcRae", "DeShawn mcRae", ""),  # with a capital it is as it was typed
        ("vhs; Rip Torn", "Rip Torn", ""),  # one word of a tape in a name, one that is none
        ("vhs; 607 555 0101", "", "607 555 0101"),
    ],
)
def test_behind_the_last_semicolon_stands_who_brings_the_tapes(said: str, name: str, phone: str) -> None:
    reading = read(said)
    assert reading.customer is not None
    assert (reading.customer.name, reading.customer.phone) == (name, phone)
    assert reading.is_whole
    assert unaccounted(reading) == ""
    assert [reading.words(each) for each in reading.stretches if each.taken is Taken.CUSTOMER] == [
        said.rpartition(";")[2].strip()
    ]


@pytest.mark.parametrize(
    "said",
    [
        "3 vhs; 2 hi8",
        "5 vhs; snapped",
        "5 vhs; snaped",
        "5 vhs; 12",
        "vhs; all of them moldy",
        "vhs; ",
        "vhs Ada",
    ],
)
def test_what_may_be_said_of_the_tapes_is_no_customer(said: str) -> None:
    assert read(said).customer is None


def test_another_language_brings_its_own_words() -> None:
    """The pseudo-language stands in for one: the catalogue's names still count."""
    messages.use("xx")
    try:
        assert [row.tapes for row in read("5 vhs t120").rows] == [TapeLine(5, FormatName("vhs"), "T-120")]
        assert Taken.UNREAD not in {each.taken for each in read("2 × hi8 snapped").stretches}
    finally:
        messages.use(messages.BASE)
