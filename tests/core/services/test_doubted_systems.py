"""A marking of one TV system in a box of the other: warned of, asked, and priced both ways."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.cli import json_quotes, plain_answers
from core.model.deck_showing import Shown
from core.model.inventory import Inventory, TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.model.own_shop.settings_records import ShopSettings
from core.model.quote_records import Quote
from core.model.stations import Station
from core.papers.booking import quote_paper
from core.playtime import learning, possibilities, tape_doubts, tape_minutes
from core.playtime.explanations import Played
from core.playtime.habits import STARTING
from core.pricing import price_book
from core.promise import turnaround
from core.scheduling import plan_records
from core.services import deck_queue, quoting
from core.services.agreement import standing_quote, tape_changes
from core.services.own_shop import shop_settings as shops
from core.services.quoting import ShopSnapshot
from core.store import lookup
from tests.support import pdf
from tests.support.booked import Desk, line
from tests.support.shops import TUESDAY

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL
SHOP: ShopSettings = shops.new_shop()
SNAPSHOT = ShopSnapshot(
    SHOP, price_book.in_force(TUESDAY.date()), turnaround.load(SHOP, [], TUESDAY), TUESDAY
)


def tapes(marking: str, name: str = "vhs", **known: object) -> TapeLine:
    full = {"speed": Speed.SP, "fill": 1.0} | known
    return replace(TapeLine(3, FormatName(name), marking), **full)  # type: ignore[arg-type]


def quoted(line: TapeLine, box: TvSystem | None) -> Quote:
    return quoting.quote(Inventory((line,), tv=box), SNAPSHOT)


@pytest.fixture(scope="module")
def e_180() -> Quote:
    return quoted(tapes("E-180"), NTSC)


def test_a_pal_marking_in_an_ntsc_box_is_priced_both_ways(e_180: Quote) -> None:
    """E-180 by JVC VTG82063 §1 (2nd-hand): 183.6 minutes in PAL, 128.7 in NTSC."""
    minutes = e_180.tapes[0].minutes

    assert 128 < minutes.low < 131
    assert 183 < minutes.likely <= minutes.high < 189
    assert e_180.price.due.low < e_180.price.due.high


def test_it_is_warned_of_and_asked_before_anything_else(e_180: Quote) -> None:
    (warning,) = (each for each in e_180.warnings if "PAL" in each)
    question = e_180.questions[0]

    assert "184" in warning
    assert "129" in warning
    assert [answer.draft.tv for answer in question.answers] == [PAL, NTSC]
    assert "184 min" in question.answers[0].means
    assert "129 min" in question.answers[1].means
    assert sum("PAL" in each.text for each in e_180.questions) == 1


@pytest.mark.parametrize(("place", "minutes"), [(0, 184), (1, 129)])
def test_an_answer_settles_it_at_the_price_it_told(e_180: Quote, place: int, minutes: float) -> None:
    answer = e_180.questions[0].answers[place]
    settled = quoted(answer.draft, NTSC)

    assert settled.tapes[0].minutes.likely == pytest.approx(minutes, abs=1.5)
    assert SNAPSHOT.book.spelled(settled.price.due.likely) in answer.means
    assert not any("PAL" in each for each in settled.warnings)
    assert not any("PAL" in each.text for each in settled.questions)


def test_json_text_and_paper_ask_it(e_180: Quote) -> None:
    (first, *_) = json_quotes.quote(e_180)["questions"]  # type: ignore[misc]
    text = plain_answers.quote(e_180)

    assert [each["tape"]["tv"] for each in first["answers"]] == ["pal", "ntsc"]
    assert f"? {e_180.questions[0].text}" in text
    assert all(answer.means in text for answer in e_180.questions[0].answers)
    paper = pdf.words(quote_paper.render(e_180, SHOP.front))
    assert "E-180 is a PAL marking" in paper


@pytest.mark.parametrize(
    ("name", "marking", "box"),
    [
        ("vhs", "T-120", PAL),
        ("vhs", "E-200", NTSC),
        ("s-vhs", "SE-180", NTSC),
        ("vhs-c", "EC-45", NTSC),
        ("s-vhs-c", "STC-20", PAL),
        ("hi8", "P5-90", NTSC),
        ("video8", "P6-120", PAL),
    ],
)
def test_it_holds_for_every_format_whose_markings_tell_a_system(
    name: str, marking: str, box: TvSystem
) -> None:
    other = PAL if box is NTSC else NTSC
    assert possibilities.is_doubted(tapes(marking, name), box)
    assert possibilities.told_tv(tapes(marking, name), box) is None
    assert not possibilities.is_doubted(tapes(marking, name), other)
    assert not possibilities.is_doubted(tapes(marking, name, tv=box), box), "its own system is an answer"


@pytest.mark.parametrize(
    ("name", "marking", "known"),
    [
        ("betamax", "L-750", {}),  # feet of tape, sold everywhere
        ("digital8", "P5-90", {}),  # runs alike in both systems
        ("hi8", "P5-90", {"recorded_as": FormatName("digital8")}),
        ("vhs", "180 min", {}),  # told, not printed
        ("minidv", "DVM60", {}),
    ],
)
def test_where_the_marking_tells_no_system_or_it_does_not_matter_nobody_is_asked(
    name: str, marking: str, known: dict[str, object]
) -> None:
    for box in TvSystem:
        assert possibilities.told_tv(tapes(marking, name, **known), box) is box


def test_a_box_that_names_no_system_goes_by_the_marking() -> None:
    made = quoted(tapes("E-180"), None)
    assert made.tapes[0].minutes.likely == pytest.approx(184, abs=1.5)
    assert not any("marking" in each.text for each in made.questions)


def test_a_booked_tape_keeps_that_its_system_is_not_known(desk: Desk) -> None:
    job = desk.book(line(marking="E-180"), line(marking="T-120"))

    assert [(tape.draft.tv, tape.draft.box_tv) for tape in job.tapes] == [(None, NTSC), (NTSC, None)]


def test_both_systems_stay_in_plan_price_and_screens_until_somebody_answers(desk: Desk) -> None:
    """E-180 by JVC VTG82063 §1 (2nd-hand): 183.6 minutes in PAL, 128.7 in NTSC."""
    job = desk.book(replace(line(marking="E-180"), speed=Speed.SP, fill=1.0))
    (tape,) = job.tapes
    (queued,) = desk.shop.ask(deck_queue.waiting)
    quote = desk.shop.ask(
        lambda unit: standing_quote.of(unit, lookup.job_row(unit, job.number), job.quote.inventory)
    )

    for minutes in (tape.minutes, queued.minutes, quote.tapes[0].minutes):
        assert 128 < minutes.low < 131
        assert 183 < minutes.likely <= minutes.high < 189
    assert quote.price.due.low < quote.price.due.high
    assert queued.known is not None
    assert plan_records.drawn_as(queued.known, queued.habits, queued.minutes) is not None
    assert any("E-180 is a PAL marking" in each for each in tape_doubts.of_tape(tape))


def test_what_the_play_tells_settles_it_for_the_tapes_of_the_box() -> None:
    """A full tape that plays 183.6 minutes at SP cannot be NTSC; nobody need look at the deck for it."""
    known = possibilities.facts(possibilities.out_of_box(tapes("E-180"), NTSC))
    played = tuple(Played("box", known, minutes) for minutes in (184.0, 185.0, 184.0))
    before, after = (
        tape_minutes.belief_of(known, habits).range
        for habits in (STARTING, learning.of_box(played, STARTING))
    )

    assert known.box_tv is NTSC
    assert before.low < 131
    assert after.low > 183


def test_what_a_deck_showed_settles_it_for_the_tape(desk: Desk) -> None:
    job = desk.book(replace(line(marking="E-180"), speed=Speed.SP, fill=1.0))
    tape = desk.bring_to(job.tapes[0], Station.READY, minutes=129.0, shown=Shown(tv=NTSC))

    assert tape_doubts.of_tape(tape) == ()


def test_a_tape_booked_before_it_was_asked_keeps_its_system_when_the_order_is_amended() -> None:
    box = Inventory((tapes("E-180"),), tv=NTSC)
    booked = replace(box.lines[0], count=1, tv=NTSC)

    assert tape_changes.as_booked(box.lines[0], box, {booked}).tv is NTSC
    doubted = tape_changes.as_booked(box.lines[0], box, {replace(booked, tv=None, box_tv=NTSC)})
    assert (doubted.tv, doubted.box_tv) == (None, NTSC)
