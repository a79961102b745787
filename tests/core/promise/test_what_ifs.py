"""What would help a box, or the queue, is said with the days it gains, in the same scenarios."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from core.model.names import JobNumber
from core.model.ranges import Range
from core.promise import turnaround
from core.promise.what_ifs import Relief, WhatIf, helps, reliefs
from core.wording.messages import say
from tests.support.shops import TUESDAY, deck, fittings, queued, quoted

WIDE = Range(40, 120, 360)
SHOP = fittings(deck("VHS 1", "vhs"), deck("MiniDV", "minidv"))
QUEUE = [queued(n, minutes=WIDE, job=n // 4) for n in range(24)]
WAITING = [queued(n % 4, minutes=WIDE, job=1 + n // 4) for n in range(24)]
BOX = [quoted(n=n, minutes=WIDE) for n in range(1, 4)]


def words(key: str, **blanks: str) -> str:
    return say("dates", key, **blanks)


def found(**changes: object) -> dict[str, WhatIf]:
    shop = replace(SHOP, **changes)  # type: ignore[arg-type]  # the names are those of ShopSettings
    return {one.change: one for one in helps(shop, QUEUE, TUESDAY, BOX)}


def test_what_gains_most_days_comes_first() -> None:
    gained = [one.days_gained for one in helps(SHOP, QUEUE, TUESDAY, BOX)]
    assert None not in gained[:-1]
    assert gained[:-1] == sorted(gained[:-1], key=lambda days: -(days or 0))


def test_a_rush_box_and_another_deck_are_sooner() -> None:
    lines = found()
    rush, another = lines[words("rush_order")], lines[words("another_deck", deck="VHS 1")]
    assert rush.days_gained is not None
    assert another.days_gained is not None
    assert rush.days_gained >= another.days_gained > 3


def test_an_hour_more_is_sooner() -> None:
    assert (found()[words("open_longer")].days_gained or 0) > 0
    assert (found()[words("play_longer")].days_gained or 0) >= 0


def test_the_only_deck_that_breaks_down_leaves_no_date() -> None:
    assert found()[words("deck_breaks_down", deck="VHS 1")].day is None


def test_decks_of_other_formats_are_not_spoken_of() -> None:
    assert not any("MiniDV" in change for change in found())


def test_a_change_that_changes_nothing_gains_nothing() -> None:
    shop = fittings(*[deck(f"VHS {n}", "vhs") for n in range(3)], people=4)
    lines = {one.change: one for one in helps(shop, [], TUESDAY, BOX[:1])}
    assert lines[words("one_more_person")].days_gained == 0


def test_what_would_help_a_cold_box_counts_its_rest() -> None:
    """Nothing that is changed in the shop warms a tape."""
    rested = helps(SHOP, [], TUESDAY, BOX, rests_hours=24 * 14)
    warm_on = TUESDAY.date() + timedelta(days=14)
    assert all(one.day >= warm_on for one in rested if one.day)
    assert any(one.day < warm_on for one in helps(SHOP, [], TUESDAY, BOX) if one.day)


def test_the_same_question_has_the_same_answer() -> None:
    assert helps(SHOP, QUEUE, TUESDAY, BOX) == helps(SHOP, QUEUE, TUESDAY, BOX)


# --- the whole queue ----------------------------------------------------------------------


def test_three_changes_at_most_and_the_best_first() -> None:
    found = reliefs(SHOP, WAITING, TUESDAY, {})
    assert 1 <= len(found) <= 3
    days = [each.days for each in found]
    assert days == sorted(days, reverse=True)
    assert found[0].change == words("another_deck", deck="VHS 1")
    assert found[0].days > 1
    assert not any(
        "MiniDV" in each.change or "breaks" in each.change or "broke" in each.change for each in found
    )


def test_dates_that_would_hold_again_are_counted() -> None:
    """A date that is safe with another deck, and one that is lost in any case."""
    first, last = (JobNumber(WAITING[n].code[:6]) for n in (0, -1))
    another = replace(SHOP, decks=(*SHOP.decks, deck("VHS 2", "vhs")))
    safe = turnaround.standing(turnaround.load(another, WAITING, TUESDAY), last)
    assert safe is not None
    lost = replace(safe, day=TUESDAY.date(), stated=1.0)
    (best, *_) = reliefs(SHOP, WAITING, TUESDAY, {last: safe, first: lost})
    assert (best.change, best.saved, best.endangered) == (words("another_deck", deck="VHS 1"), 1, 2)
    assert best.sentence.endswith("1 of 2 dates at risk would hold")


def test_a_deck_that_is_out_would_help_if_it_came_back() -> None:
    shop = replace(SHOP, decks=(*SHOP.decks, deck("VHS 2", "vhs", in_service=False), deck("B", "betamax")))
    found = {each.change: each.days for each in reliefs(shop, WAITING, TUESDAY, {})}
    assert found[words("deck_back", deck="VHS 2")] == found[words("another_deck", deck="VHS 1")]


def test_nothing_helps_an_empty_shop() -> None:
    assert reliefs(SHOP, [], TUESDAY, {}) == ()


def test_a_relief_is_said_in_one_line() -> None:
    assert Relief("with one more person", 1.04, 0, 0).sentence == (
        "with one more person: orders ready 1 day sooner on average"
    )
    assert Relief("open an hour longer", 2.46, 2, 3).sentence == (
        "open an hour longer: orders ready 2.5 days sooner on average; 2 of 3 dates at risk would hold"
    )
    assert Relief("open longer", 1.0, 1, 1).sentence.endswith("; the date at risk would hold")
    assert "hold" not in Relief("open longer", 1.0, 0, 2).sentence
