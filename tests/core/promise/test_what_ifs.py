"""What would help is said with the days it gains, in the same scenarios."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from core.model.ranges import Range
from core.promise.what_ifs import WhatIf, helps
from tests.support.shops import TUESDAY, deck, fittings, queued, quoted

WIDE = Range(40, 120, 360)
SHOP = fittings(deck("VHS 1", "vhs"), deck("MiniDV", "minidv"))
QUEUE = [queued(n, minutes=WIDE, job=n // 4) for n in range(24)]
BOX = [quoted(n=n, minutes=WIDE) for n in range(1, 4)]


def found(**changes: object) -> dict[str, WhatIf]:
    shop = replace(SHOP, **changes)  # type: ignore[arg-type]  # the names are those of ShopSettings
    return {one.change: one for one in helps(shop, QUEUE, TUESDAY, BOX)}


def test_what_gains_most_days_comes_first() -> None:
    gained = [one.days_gained for one in helps(SHOP, QUEUE, TUESDAY, BOX)]
    assert None not in gained[:-1]
    assert gained[:-1] == sorted(gained[:-1], key=lambda days: -(days or 0))


def test_a_rush_box_and_another_deck_are_sooner_and_the_sentence_says_by_how_much() -> None:
    lines = found()
    rush, another = lines["as a rush box"], lines["with another deck like VHS 1"]
    assert rush.days_gained is not None
    assert another.days_gained is not None
    assert rush.days_gained >= another.days_gained > 3
    assert another.sentence.endswith(f", {another.days_gained} days sooner")


def test_an_hour_more_is_sooner() -> None:
    assert (found()["open an hour longer"].days_gained or 0) > 0
    assert (found()["letting tapes play an hour longer after closing"].days_gained or 0) >= 0


def test_the_only_deck_that_breaks_down_leaves_no_date() -> None:
    line = found()["if VHS 1 broke down"]
    assert line.day is None
    assert line.sentence == "if VHS 1 broke down: no date"


def test_decks_of_other_formats_are_not_spoken_of() -> None:
    assert not any("MiniDV" in change for change in found())


def test_a_change_that_changes_nothing_gains_nothing() -> None:
    shop = fittings(*[deck(f"VHS {n}", "vhs") for n in range(3)], people=4)
    lines = {one.change: one for one in helps(shop, [], TUESDAY, BOX[:1])}
    assert lines["with one more person"].days_gained == 0
    assert "no sooner" in lines["with one more person"].sentence


def test_what_would_help_a_cold_box_counts_its_rest() -> None:
    """Nothing that is changed in the shop warms a tape."""
    rested = helps(SHOP, [], TUESDAY, BOX, rests_hours=24 * 14)
    warm_on = TUESDAY.date() + timedelta(days=14)
    assert all(one.day >= warm_on for one in rested if one.day)
    assert any(one.day < warm_on for one in helps(SHOP, [], TUESDAY, BOX) if one.day)


def test_the_same_question_has_the_same_answer() -> None:
    assert helps(SHOP, QUEUE, TUESDAY, BOX) == helps(SHOP, QUEUE, TUESDAY, BOX)
