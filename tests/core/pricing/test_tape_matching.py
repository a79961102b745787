"""Which cassette is which when an inventory is written anew: a code is on the cassette and never changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest

from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TapeCode, TvSystem
from core.pricing.tape_matching import KnownTape, MatchedTape, matched

VHS = TapeLine(1, FormatName("vhs"))
EIGHT = TapeLine(1, FormatName("video8"))
CHANGES: tuple[dict[str, Any], ...] = (
    {"marking": "T-120"},
    {"speed": Speed.LP},
    {"tv": TvSystem.NTSC},
    {"fill": 0.5},
    {"label": "Lakeside"},
)


def code(n: int) -> TapeCode:
    return TapeCode(f"000018{n:04}")


def known(n: int, draft: TapeLine = VHS, line: int = 1, progress: int = 0) -> KnownTape:
    return KnownTape(code(n), draft, line, progress)


def apart(draft: TapeLine, ways: int) -> TapeLine:
    """The same cassette described otherwise in so many ways."""
    return replace(draft, **{name: value for change in CHANGES[:ways] for name, value in change.items()})


def codes(found: Sequence[MatchedTape]) -> list[TapeCode | None]:
    return [tape.code for tape in found]


def test_an_inventory_written_the_same_keeps_every_code_where_it_was() -> None:
    lines = (replace(VHS, count=2), EIGHT)
    there = [known(1), known(2), known(3, EIGHT, line=2)]

    found = matched(there, lines)

    assert [(tape.line, tape.n, tape.code) for tape in found] == [
        (1, 1, code(1)),
        (1, 2, code(2)),
        (2, 1, code(3)),
    ]
    assert [tape.draft for tape in found] == [VHS, VHS, EIGHT]


def test_more_tapes_than_there_were_are_new() -> None:
    assert codes(matched([known(1)], [replace(VHS, count=3)])) == [code(1), None, None]


def test_a_cassette_of_another_format_is_another_cassette() -> None:
    assert codes(matched([known(1, EIGHT)], [VHS])) == [None]


def test_whatever_else_was_told_of_it_a_cassette_of_the_same_format_is_kept() -> None:
    assert codes(matched([known(1)], [apart(VHS, len(CHANGES))])) == [code(1)]


@pytest.mark.parametrize("ways", [1, 2, 3])
def test_a_cassette_goes_where_its_description_changed_least(ways: int) -> None:
    found = matched([known(1)], [apart(VHS, ways), apart(VHS, ways - 1)])

    assert codes(found) == [None, code(1)]


def test_a_line_takes_the_cassette_that_differs_least() -> None:
    there = [known(1, apart(VHS, 2)), known(2, apart(VHS, 1))]

    assert codes(matched(there, [VHS])) == [code(2)]


def test_of_cassettes_alike_those_that_got_furthest_are_kept_and_then_the_first() -> None:
    there = [known(1), known(2, progress=2), known(3, progress=1), known(4, progress=1)]

    assert codes(matched(there, [replace(VHS, count=2)])) == [code(2), code(3)]


def test_cassettes_alike_stay_on_their_lines_however_far_they_got() -> None:
    there = [known(2), known(1, line=2, progress=5)]

    assert codes(matched(there, [VHS, VHS])) == [code(2), code(1)]


def test_a_line_gets_the_codes_it_names_whatever_they_were_before() -> None:
    there = [known(1), known(2, EIGHT, line=2)]

    assert codes(matched(there, [VHS, VHS], [(code(2),), ()])) == [code(2), code(1)]


def test_a_line_that_names_all_its_cassettes_takes_no_more() -> None:
    there = [known(1), known(2)]

    assert codes(matched(there, [VHS, VHS], [(code(2),), ()])) == [code(2), code(1)]
    assert codes(matched(there, [VHS], [(code(2),)])) == [code(2)]


def test_a_code_is_given_once_and_only_where_the_order_has_it() -> None:
    found = matched([known(1)], [VHS, VHS], [(code(1),), (code(1), code(9))])

    assert codes(found) == [code(1), None]


def test_a_cassette_of_which_nothing_is_told_got_as_far_as_nothing() -> None:
    untold, told = (lambda n: KnownTape(code(n), VHS, 1)), (lambda n: known(n, progress=0))

    assert codes(matched([told(1), untold(2)], [VHS])) == [code(1)]
    assert codes(matched([untold(1), told(2)], [VHS])) == [code(1)]
