"""A queue that outgrows the shop is noticed, a busy one is not, and dates behind it are the less sure."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.model.inventory import Inventory, TapeLine
from core.model.names import FormatName
from core.promise import backlogs, turnaround
from core.promise.backlogs import Backlog, ShopWeek
from core.scheduling.opening_hours import calendar
from core.services import quoting
from core.services.own_shop import shop_settings as shops
from core.wording.messages import say
from tests.support.shops import TUESDAY, deck, fittings, queued

TWO = fittings(deck("A", "vhs"), deck("B", "vhs"), deck("C", "hi8"), past_closing_minutes=0)
WEEK = 5 * 9 * 60.0
"""Minutes that the shop of the tests is open a week, 9 to 18."""
GROWING = Backlog("decks", 120, 90, 0.99, 8, 2, off=0.2)


def weeks(*vhs_hours: float, played: float | None = None, handling: float = 600) -> list[ShopWeek]:
    """Weeks in which so many hours of VHS came in; all of it was played unless told otherwise."""
    return [
        ShopWeek({(0, 1): 60 * hours, (2,): 300.0}, handling, 60 * (hours + 5 if played is None else played))
        for hours in vhs_hours
    ]


def test_the_hours_of_the_tests_are_those_of_the_shop() -> None:
    assert backlogs.found(weeks(*[1.02 * 2 * WEEK / 60] * 5), TWO) is not None
    assert backlogs.found(weeks(*[0.98 * 2 * WEEK / 60] * 5), TWO) is None


def test_more_than_the_decks_can_play_is_told_with_both_figures() -> None:
    found = backlogs.found(weeks(110, 130, 120, 115, 125), TWO)
    assert found is not None
    assert (found.by, found.decks, found.weeks) == ("decks", 2, 5)
    assert (round(found.coming), round(found.going)) == (120, 90)
    assert found.sentence == say("dates", "backlog-decks", decks=2, coming=120, going=90)


def test_what_the_people_cannot_handle_is_told_as_well() -> None:
    found = backlogs.found(weeks(*[40.0] * 5, handling=200 * 60), replace(TWO, people=1))
    assert found is not None
    assert (found.by, round(found.coming), round(found.going)) == ("people", 200, 45)


def test_a_shop_that_plays_less_than_comes_in_is_told_so_though_its_decks_could_do_more() -> None:
    found = backlogs.found(weeks(60, 64, 58, 66, 61, 63, played=50), TWO)
    assert found is not None
    assert (found.by, round(found.coming), round(found.going)) == ("shop", 67, 50)


def test_a_shop_that_reads_no_deck_is_not_told_that_nothing_is_played() -> None:
    assert backlogs.found(weeks(60, 64, 58, 66, played=0), TWO) is None


@pytest.mark.parametrize("few", [0, 1, 3])
def test_a_few_weeks_say_nothing_yet(few: int) -> None:
    assert backlogs.found(weeks(*[500.0] * few), TWO) is None


def test_steady_shops_hardly_ever_hear_of_it_and_outgrown_ones_mostly() -> None:
    """Boxes as they come (compound Poisson), eight weeks each; loads as shares of what the decks can play."""
    dice, alarms = np.random.default_rng(7), dict.fromkeys((0.7, 0.9, 1.3), 0)
    for load in alarms:
        for _ in range(200):
            boxes = dice.poisson(load * 30, 8)
            hours = [
                float(dice.gamma(2, 1.5, count).sum()) for count in boxes
            ]  # three hours a box on average
            alarms[load] += backlogs.found(weeks(*hours), TWO) is not None
    assert alarms[0.7] == 0
    assert alarms[0.9] <= 0.05 * 200
    assert alarms[1.3] >= 0.85 * 200


# --- dates -------------------------------------------------------------------------------------

DAYS = calendar(TWO, TUESDAY.date(), 400)
NOW = float(DAYS.opens[0])


def spread_of(weeks_off: float) -> tuple[float, float]:
    """Middle, and the distance from the 10th to the 90th percentile, in weeks of opening."""
    at = DAYS.when_worked(DAYS.worked(np.full(1000, NOW)) + weeks_off * WEEK)
    lead = (DAYS.worked(backlogs.spread(at, GROWING, DAYS, NOW)) - DAYS.worked(np.array([NOW]))[0]) / WEEK
    low, middle, high = np.quantile(lead, (0.1, 0.5, 0.9))
    return float(middle), float(high - low)


def test_a_date_is_the_less_sure_the_further_off_it_is_and_its_middle_stays() -> None:
    found = [spread_of(each) for each in (0.5, 1, 2, 4, 8, 16)]
    widths = [width for _, width in found]
    assert widths == sorted(widths)
    assert widths[-1] > 8 * widths[0]
    for (middle, _), off in zip(found, (0.5, 1, 2, 4, 8, 16), strict=True):
        assert middle == pytest.approx(off, rel=0.03)


def test_whoever_is_done_later_stays_later_in_every_scenario() -> None:
    leads = np.linspace(0.01, 20, 60) * WEEK
    begun = DAYS.worked(np.full(1000, NOW))
    moved = np.array(
        [
            backlogs.spread(DAYS.when_worked(begun + lead), replace(GROWING, off=0.5), DAYS, NOW)
            for lead in leads
        ]
    )
    assert (np.diff(moved, axis=0) >= 0).all()


def test_without_a_backlog_nothing_moves_and_never_stays_never() -> None:
    at = np.array([NOW + 60, np.inf])
    assert backlogs.spread(at, None, DAYS, NOW) is at
    assert np.isinf(backlogs.spread(at, GROWING, DAYS, NOW)[1])


def test_the_date_at_the_counter_says_so_first_and_is_set_no_earlier() -> None:
    shop = shops.new_shop()
    tapes = quoting.quoted_tapes(_box())
    queue = [queued(n) for n in range(60)]
    plain, growing = (
        turnaround.promise(turnaround.load(shop, queue, TUESDAY, backlog=each), tapes)
        for each in (None, GROWING)
    )
    assert growing.held_by[0] == GROWING.sentence
    assert growing.held_by[1:3] == plain.held_by[:2]
    assert plain.day is not None
    assert growing.day is not None
    assert growing.day >= plain.day
    assert growing.p50 == plain.p50
    empty = turnaround.promise(turnaround.load(shop, [], TUESDAY, backlog=GROWING), tapes)
    assert GROWING.sentence not in empty.held_by


def _box() -> Inventory:
    return Inventory((TapeLine(3, FormatName("vhs"), "T-120"),))
