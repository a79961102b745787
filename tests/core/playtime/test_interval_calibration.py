"""Ranges end where the shop's own tapes lay in what was believed of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.inventory import Inventory, TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import interval_calibration, learning, tape_minutes
from core.playtime.beliefs import HIGH, LOW, spread
from core.playtime.explanations import Played
from core.playtime.habits import ShopHabits
from core.playtime.interval_calibration import Conformity, IntervalLevels
from core.playtime.possibilities import Facts
from core.pricing import price_book
from core.promise import turnaround
from core.services import quoting
from core.services.own_shop import shop_settings
from core.services.quoting import ShopSnapshot
from tests.bench import playtime as bench
from tests.support.shops import TUESDAY
from tests.support.worlds import tape_world

NTSC = TvSystem.NTSC
COMPACT = Facts(FormatName("vhs-c"), "TC-30", tv=NTSC)
TEN = np.array([(float(n), 0.1) for n in range(1, 11)])
"""Ten play times believed equally likely."""
FORMATS = ("vhs", "vhs-c", "s-vhs", "betamax", "hi8", "video8", "minidv", "dvcam", "micromv", "u-matic")
"""Each has a habit of its own of how full it is."""


def strangers(levels: Sequence[tuple[float, float]]) -> list[Conformity]:
    """Tapes, each of a box of its own, at these levels."""
    return [Conformity(f"{n}", low, high, LOW <= low <= HIGH) for n, (low, high) in enumerate(levels)]


def spread_by(factor: float, n: int = 200) -> list[Conformity]:
    """Tapes so many times as far from the middle as the belief says, up to its ends."""
    levels = [0.5 + factor * ((k + 0.5) / n - 0.5) for k in range(n)]
    return strangers([(min(max(level, 0.0), 1.0),) * 2 for level in levels])


def taught(minutes: Sequence[float], boxes: int) -> ShopHabits:
    return learning.learned(
        tuple(Played(f"{n % boxes}", COMPACT, each, Speed.SP) for n, each in enumerate(minutes))
    )


def test_few_captures_leave_the_ends_at_a_tenth() -> None:
    assert taught([3.0] * 39, boxes=20).levels == IntervalLevels(0.1, 0.9, 0, 0)
    assert taught([3.0] * 40, boxes=20).levels.tapes == 40


def test_many_tapes_of_a_few_households_leave_the_ends_where_they_are() -> None:
    assert taught([3.0] * 60, boxes=9).levels == IntervalLevels()
    assert taught([3.0] * 60, boxes=10).levels.tapes == 60


def test_only_the_newest_captures_are_laid_beside_what_was_believed() -> None:
    assert taught([20.0] * 250, boxes=50).levels.tapes == 200


def test_ends_of_strangers_are_order_statistics_pulled_towards_a_tenth() -> None:
    """n = 99: the 10th smallest of the lows, the 90th of the highs, a worth of 99 against 100 (by hand)."""
    told = interval_calibration.calibrated(
        strangers([((k + 1) / 1000, 0.8 + (k + 1) / 1000) for k in range(99)])
    )
    assert told.low == pytest.approx(0.1 + 99 / 199 * (0.010 - 0.1))
    assert told.high == pytest.approx(0.9 + 99 / 199 * (0.890 - 0.9))


def test_tapes_of_one_box_count_for_less_than_strangers() -> None:
    """Ten of one box count 3 ÷ 12 each, 2.5 together; a tenth of 60 + 2.5 + 1, less one, is 5.35 (by hand).

    As strangers they would fill the lower tenth, (70 + 1) ÷ 10 − 1 = 6.1, by themselves.
    """
    others = [((k + 1) / 1000 + 0.1, 0.5) for k in range(60)]
    box = [Conformity("box", 0.01, 0.5, False)] * 10
    kin, apart = (
        interval_calibration.calibrated([*box, *strangers(others)]),
        interval_calibration.calibrated(strangers([(0.01, 0.5)] * 10 + others)),
    )
    assert kin.low == pytest.approx(0.1 + 62.5 / 162.5 * (0.103 - 0.1))
    assert apart.low == pytest.approx(0.1 + 70 / 170 * (0.01 - 0.1))


def test_a_shop_that_is_too_sure_gets_wider_ranges_and_one_too_careful_narrower() -> None:
    right, sure, careful = (interval_calibration.calibrated(spread_by(factor)) for factor in (1.0, 1.15, 0.7))

    assert (right.low, right.high) == pytest.approx((0.1, 0.9), abs=0.005)
    assert sure.low < 0.065
    assert sure.high > 0.935
    assert careful.low > 0.16
    assert careful.high < 0.84
    assert (right.outside, sure.outside, careful.outside) == (40, 60, 0)


def test_ends_stay_where_a_range_still_says_something() -> None:
    far, near = (
        interval_calibration.calibrated(strangers([(0.0, 2.0)] * 200)),
        interval_calibration.calibrated(strangers([(0.5, 0.5)] * 200)),
    )
    assert (far.low, far.high) == (0.1 - 200 / 300 * 0.1, 0.99)
    assert (near.low, near.high) == (0.25, 0.75)
    assert interval_calibration.calibrated(strangers([(0.0, 0.5)] * 1000)).low == 0.01


@given(st.floats(0.2, 11.0))
def test_the_levels_told_of_a_tape_are_those_that_hold_it(minutes: float) -> None:
    (reach,) = interval_calibration.conformities(TEN, [("box", minutes)])
    held, usual = spread(TEN, max(reach.low, 0.01), min(reach.high, 1.0)), spread(TEN)

    assert held.low <= minutes or reach.low == 0
    assert held.high >= minutes or reach.high == 2
    assert spread(TEN, reach.low + 0.01).low > minutes or reach.low > 0.99
    assert spread(TEN, high=max(reach.high - 0.11, 0.0)).high < minutes or reach.high < 0.12
    assert reach.is_inside is (usual.low <= minutes <= usual.high)


def test_ends_move_the_range_alone_and_the_likely_value_stays() -> None:
    shop = taught([20.0 + n % 30 for n in range(30)], boxes=15)
    wide, usual, close = (
        tape_minutes.belief_of(COMPACT, replace(shop, levels=ends))
        for ends in (IntervalLevels(0.01, 0.99), IntervalLevels(), IntervalLevels(0.25, 0.75))
    )

    assert wide.range.low < usual.range.low < close.range.low
    assert close.range.high < usual.range.high < wide.range.high
    for other in (wide, close):
        assert other.range.low <= other.range.likely == usual.range.likely <= other.range.high
        assert np.array_equal(other.points, usual.points)
        assert (other.full, other.speed_mm_s) == (usual.full, usual.speed_mm_s)


def test_the_hours_of_a_whole_box_end_where_the_ranges_of_its_tapes_do() -> None:
    fitted, book = shop_settings.new_shop(), price_book.in_force(TUESDAY.date())
    box = Inventory((TapeLine(6, FormatName("vhs"), "T-120"),), tv=NTSC)
    load = turnaround.load(fitted, [], TUESDAY)
    usual, wide = (
        quoting.quote(box, ShopSnapshot(fitted, book, load, TUESDAY, ShopHabits(levels=ends))).capture_hours
        for ends in (interval_calibration.NOMINAL, IntervalLevels(0.02, 0.98))
    )

    assert wide.low < usual.low < usual.likely == wide.likely < usual.high < wide.high


def test_a_box_inherits_the_ends_of_its_shop() -> None:
    shop = replace(taught([20.0] * 5, boxes=5), levels=IntervalLevels(0.05, 0.95))
    box = learning.of_box((Played("x", COMPACT, 80.0, Speed.EP),), shop)
    assert box is not shop
    assert box.levels == shop.levels


def test_a_tape_is_laid_beside_what_other_boxes_told_not_beside_its_own() -> None:
    """Each household alone brings its format and recorded a fifth of it: of that no other box told.

    At first nine in ten are believed to be recorded beyond that (starting beliefs); a box believed of from
    its own tapes too would look as if it had been expected.
    """
    played: list[Played] = []
    for name in FORMATS:
        shell = catalogue().format(FormatName(name))
        known = Facts(shell.name, shell.markings[0].name, shell.name, shell.speeds_in(NTSC)[0], NTSC)
        full = tape_minutes.belief_of(replace(known, fill=1.0)).range.likely
        played += [Played(name, known, full / 5)] * 8
    shop = learning.learned(tuple(played))
    assert shop.levels.outside == len(played) == 80
    own = [
        tape_minutes.belief_of(tape.known, replace(shop, levels=interval_calibration.NOMINAL)).range
        for tape in played
    ]
    assert all(each.low <= tape.minutes for each, tape in zip(own, played, strict=True))


def test_ranges_of_shops_nobody_looked_at_hold_as_often_as_they_say() -> None:
    """Twelve fresh shops of 250 tapes; with ends at a tenth such shops held some 76 to 78 in 100."""
    held: dict[str, list[bool]] = {"own": [], "tenth": []}
    for customers, dice in bench.invented("unlike", 12, bench.FRESH[0]):
        shop = bench.taught(customers, dice)
        tapes = tape_world.tapes(customers, 250, dice)
        for name, each in (("own", shop), ("tenth", replace(shop, levels=IntervalLevels()))):
            held[name] += [bench.loss(t.minutes, bench.believed(t, each))[1] for t in tapes]
    own, tenth = (float(np.mean(held[name])) for name in ("own", "tenth"))
    assert own == pytest.approx(0.8, abs=0.03)
    assert own > tenth + 0.01
