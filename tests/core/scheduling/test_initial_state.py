"""What a plan reckons with: rush boxes hold what comes in over the counter, not what decks are short of."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.model.names import FormatName
from core.model.own_shop.settings_records import Expected, ShopSettings
from core.playtime.possibilities import Facts
from core.playtime.tape_minutes import belief_of
from core.scheduling import initial_state, opening_hours
from core.scheduling.queued_tapes import QueuedTape, lined_up
from core.scheduling.simulated_shop import RushToCome
from core.services import event_counts
from tests.support.booked import Desk, line
from tests.support.shops import TUESDAY, deck, fittings, queued

SHOP = fittings(deck("VHS", "vhs"), deck("DV", "minidv"))
EXPECTED = Expected(rush_boxes_a_week=6.0, tapes_in_a_rush_box=4.0)
UNKNOWN = Facts(FormatName("vhs"), "T-120")
QUEUE = [replace(queued(n), known=UNKNOWN, minutes=belief_of(UNKNOWN).range) for n in range(20)]


def coming(shop: ShopSettings, queue: list[QueuedTape]) -> dict[tuple[int, ...], RushToCome]:
    calendar = opening_hours.calendar(shop, TUESDAY.date())
    ways, begun = initial_state.prepared(shop, calendar, calendar.at(TUESDAY), 400)
    _, others = lined_up(shop, queue, calendar)
    return {each.kind.decks: each for each in initial_state.rush_to_come(shop, begun, ways, others)}


def tapes(found: RushToCome) -> float:
    """On average in a scenario."""
    return float(np.isfinite(found.arrives).sum(axis=0).mean())


def test_formats_come_as_often_as_they_came_lately_though_only_one_is_queued() -> None:
    lately = ((FormatName("vhs"), 30), (FormatName("minidv"), 90))
    found = coming(replace(SHOP, expected=replace(EXPECTED, brought=lately)), QUEUE)
    assert set(found) == {(0,), (1,)}
    assert tapes(found[1,]) / tapes(found[0,]) == pytest.approx(3, rel=0.15)


def test_a_shop_that_has_counted_nothing_goes_by_its_queue() -> None:
    assert set(coming(replace(SHOP, expected=EXPECTED), QUEUE)) == {(0,)}
    assert set(coming(replace(SHOP, expected=EXPECTED), [])) == {(0,), (1,)}


def test_a_format_no_deck_plays_does_not_come() -> None:
    lately = ((FormatName("vhs"), 1), (FormatName("betamax"), 9))
    assert set(coming(replace(SHOP, expected=replace(EXPECTED, brought=lately)), [])) == {(0,)}


def test_rush_tapes_are_as_long_as_the_like_of_them_in_the_queue_and_no_smoother() -> None:
    """A tape that may be SP or EP is one or the other, and never what lies between."""
    points = np.array(belief_of(UNKNOWN).points)
    mean = float(points[:, 0] @ points[:, 1])
    found = coming(replace(SHOP, expected=EXPECTED), QUEUE)[0,].minutes
    assert found.mean() == pytest.approx(mean, rel=0.03)
    between = (points[:, 0] > 135) & (points[:, 0] < 180)
    share = float(points[between, 1].sum())
    assert float(((found > 135) & (found < 180)).mean()) == pytest.approx(share, abs=0.02)


def test_the_newest_tapes_are_counted_by_format(desk: Desk) -> None:
    desk.book(line(count=3), line("hi8", 2, marking="P6-120"))
    assert desk.shop.ask(event_counts.counted).brought == (("hi8", 2), ("vhs", 3))
    assert desk.shop.ask(event_counts.reckoned).expected.brought == (("hi8", 2), ("vhs", 3))
