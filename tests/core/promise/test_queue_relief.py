"""What would help the queue is said in days and in dates that would hold again."""

from __future__ import annotations

from dataclasses import replace

from core.model.names import JobNumber
from core.model.ranges import Range
from core.promise import turnaround
from core.promise.queue_relief import Relief, reliefs
from tests.support.shops import TUESDAY, deck, fittings, queued

WIDE = Range(40, 120, 360)
SHOP = fittings(deck("VHS 1", "vhs"), deck("MiniDV", "minidv"))
QUEUE = [queued(n % 4, minutes=WIDE, job=1 + n // 4) for n in range(24)]


def test_three_changes_at_most_and_the_best_first() -> None:
    found = reliefs(SHOP, QUEUE, TUESDAY, {})
    assert 1 <= len(found) <= 3
    days = [each.days for each in found]
    assert days == sorted(days, reverse=True)
    assert found[0].change == "with another deck like VHS 1"
    assert found[0].days > 1
    assert not any("MiniDV" in each.change or "broke" in each.change for each in found)


def test_dates_that_would_hold_again_are_counted() -> None:
    """A date that is safe with another deck, and one that is lost in any case."""
    first, last = (JobNumber(QUEUE[n].code[:6]) for n in (0, -1))
    another = replace(SHOP, decks=(*SHOP.decks, deck("VHS 2", "vhs")))
    safe = turnaround.standing(turnaround.load(another, QUEUE, TUESDAY), last)
    assert safe is not None
    lost = replace(safe, day=TUESDAY.date(), stated=1.0)
    (best, *_) = reliefs(SHOP, QUEUE, TUESDAY, {last: safe, first: lost})
    assert (best.change, best.saved, best.endangered) == ("with another deck like VHS 1", 1, 2)
    assert best.sentence.endswith("1 of 2 dates would hold")


def test_a_deck_that_is_out_would_help_if_it_came_back() -> None:
    shop = replace(SHOP, decks=(*SHOP.decks, deck("VHS 2", "vhs", in_service=False), deck("B", "betamax")))
    found = {each.change: each.days for each in reliefs(shop, QUEUE, TUESDAY, {})}
    assert found["with VHS 2 back in service"] == found["with another deck like VHS 1"]


def test_nothing_helps_an_empty_shop() -> None:
    assert reliefs(SHOP, [], TUESDAY, {}) == ()


def test_a_relief_is_said_in_one_line() -> None:
    assert Relief("with one more person", 1.04, 0, 0).sentence == (
        "with one more person: boxes ready 1 day sooner on average"
    )
    assert Relief("open an hour longer", 2.46, 2, 3).sentence == (
        "open an hour longer: boxes ready 2.5 days sooner on average; 2 of 3 dates would hold"
    )
    assert Relief("open longer", 1.0, 1, 1).sentence.endswith("; the endangered date would hold")
    assert "hold" not in Relief("open longer", 1.0, 0, 2).sentence
