"""Tapes of one box are drawn together: each by itself as believed, all of them long or short together."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.model.inventory import TapeLine
from core.model.names import FillKnown, FormatName, Speed, TvSystem
from core.playtime import box_habits, learning, starting_beliefs, tape_minutes
from core.playtime.box_habits import Box
from core.playtime.explanations import Played
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import Facts, facts
from tests.core.playtime.test_tape_minutes import lines

VHS = Facts(FormatName("vhs"), "T-120", tv=TvSystem.NTSC)
BOX = Box(key=5, seed=7, scenarios=20_000)
_SURE = {
    group: {name: 1e6 * share for name, share in STARTING.weights(group).items()}
    for group in (("speed", "vhs-ntsc"), ("fill", "vhs"))
}
STRANGERS = replace(BOX, habits=ShopHabits(_SURE, dict.fromkeys(starting_beliefs.SHARED, 1e6)))
"""Tapes that share nothing: each follows a shop that is sure of itself, none the box."""


def drawn(tapes: Sequence[Facts], box: Box = BOX) -> np.ndarray:
    return box_habits.minutes_of_tapes(tapes, list(range(1, len(tapes) + 1)), box)


@settings(max_examples=25)
@given(lines())
def test_a_tape_by_itself_is_drawn_from_its_belief(line: TapeLine) -> None:
    known = facts(line)
    belief = tape_minutes.belief_of(known)
    (minutes,) = drawn([known])

    mean = sum(value * probability for value, probability in belief.points)
    deviation = np.sqrt(sum((value - mean) ** 2 * probability for value, probability in belief.points))
    assert minutes.mean() == pytest.approx(mean, abs=4.5 * deviation / np.sqrt(BOX.scenarios) + 1e-6)
    assert minutes.max() <= belief.longest + 1e-6
    below = [(minutes <= belief.quantile(p) * (1 + 1e-9)).mean() for p in (0.1, 0.5, 0.9)]
    least = [(minutes < belief.quantile(p) * 0.985).mean() for p in (0.1, 0.5, 0.9)]
    assert all(share >= p - 0.03 for share, p in zip(below, (0.1, 0.5, 0.9), strict=True))
    assert all(share <= p + 0.03 for share, p in zip(least, (0.1, 0.5, 0.9), strict=True))


def test_tapes_recorded_at_least_so_far_are_still_full_together() -> None:
    """What the packs leave open is what the box has its habit in."""
    unknown = replace(VHS, speed=Speed.SP)
    wound = replace(unknown, fill=0.3, fill_known=FillKnown.AT_LEAST)
    pair = drawn([wound, wound])

    assert np.corrcoef(pair)[0, 1] > 0.8 * np.corrcoef(drawn([unknown, unknown]))[0, 1] > 0.1
    assert pair.min() >= 0.3 * 122.9
    belief = tape_minutes.belief_of(wound)
    assert pair.mean() == pytest.approx(sum(m * p for m, p in belief.points), rel=0.01)


def test_what_a_box_has_played_counts_for_its_tapes_of_which_the_least_is_known() -> None:
    wound = replace(VHS, speed=Speed.SP, fill=0.3, fill_known=FillKnown.AT_LEAST)
    played = tuple(Played("box", replace(VHS, speed=Speed.SP), 124.0, Speed.SP) for _ in range(6))
    box = replace(BOX, habits=learning.of_box(played, STARTING))
    (before,), (after,) = drawn([wound]), drawn([wound], box)

    assert after.mean() > before.mean() + 5
    belief = tape_minutes.belief_of(wound, box.habits)
    assert after.mean() == pytest.approx(sum(m * p for m, p in belief.points), rel=0.01)


def test_tapes_of_one_box_are_long_together_and_strangers_are_not() -> None:
    assert np.corrcoef(drawn([VHS, VHS]))[0, 1] > 0.25
    assert abs(np.corrcoef(drawn([VHS, VHS], STRANGERS))[0, 1]) < 0.03


def test_sharing_a_habit_widens_the_hours_of_the_box_and_leaves_their_mean() -> None:
    together, apart = (drawn([VHS] * 12, box).sum(axis=0) for box in (BOX, STRANGERS))

    assert together.std() > 1.6 * apart.std()
    assert together.mean() == pytest.approx(apart.mean(), rel=0.02)
    wide, narrow = (box_habits.range_of(total) for total in (together, apart))
    assert wide.low < narrow.low < narrow.high < wide.high
    one = tape_minutes.belief_of(VHS).range
    assert 12 * one.low < wide.low
    assert wide.high < 12 * one.high


def test_a_tape_keeps_its_draws_whatever_lies_beside_it() -> None:
    alone = box_habits.minutes_of_tapes([VHS], [9], BOX)
    among = box_habits.minutes_of_tapes([replace(VHS, marking="T-60"), VHS], [3, 9], BOX)
    assert (alone[0] == among[1]).all()


def test_another_box_has_habits_of_its_own() -> None:
    mine, other = (drawn([VHS], replace(BOX, key=key))[0] for key in (5, 6))
    assert np.corrcoef(mine, other)[0, 1] < 0.9


SEEN = ShopHabits({("speed", "vhs-ntsc"): {"sp": 40.0, "ep": 20.0}, ("fill", "vhs"): {"1": 30.0, "5": 30.0}})


@pytest.mark.parametrize("shop", [STARTING, SEEN], ids=["new", "after sixty tapes"])
def test_a_mistake_about_everybody_is_made_in_every_box_of_a_scenario(shop: ShopHabits) -> None:
    """Covariance of two boxes' shares: the variance of the shop's posterior (law of total covariance)."""
    group = ("speed", "vhs-ntsc")
    weights = tuple(shop.weights(group).values())
    spread = shop.prior_concentration(group), shop.box_concentration(group)
    mine, other = (
        box_habits._habit(group, weights, spread, replace(BOX, key=key, habits=shop))[0] for key in (5, 6)
    )

    mean = weights[0]
    mistaken = 1 / (1 + starting_beliefs.worth("speed") + sum(shop.seen.get(group, {}).values()))
    both = mine + other  # the variance of one box is that of one alone, whatever is common to both
    assert mine.var() == pytest.approx(mean * (1 - mean) / (1 + spread[0]), rel=0.05)
    covariance = (both.var() - mine.var() - other.var()) / 2
    assert covariance == pytest.approx(mean * (1 - mean) * mistaken, rel=0.12)


def test_a_mistake_about_everybody_does_not_average_out_over_a_queue() -> None:
    """Twenty boxes vary by more than twenty strangers would; those of a shop sure of itself do not."""
    assert _beyond_strangers(STARTING) > 1.5
    assert _beyond_strangers(ShopHabits(_SURE)) < 1.1


def _beyond_strangers(shop: ShopHabits) -> float:
    """Standard deviation of the minutes of twenty boxes, against what it were if none knew of the others."""
    boxes = [
        box_habits.minutes_of_tapes(
            [VHS] * 7, range(10 * n, 10 * n + 7), Box(n, seed=7, scenarios=4000, habits=shop)
        ).sum(axis=0)
        for n in range(20, 40)
    ]
    return float(np.std(sum(boxes)) / np.sqrt(sum(np.var(box) for box in boxes)))


def test_what_a_box_has_played_tells_it_from_the_others() -> None:
    """The more of a box was played, the less it shares the mistake about everybody."""
    full = replace(VHS, speed=Speed.SP)
    played = (Played("box", full, 123.0, Speed.SP),) * 8
    known = replace(BOX, habits=learning.of_box(played, STARTING), key=6)
    (mine,), (other,), (after,) = drawn([full]), drawn([full], replace(BOX, key=6)), drawn([full], known)
    assert np.corrcoef(mine, after)[0, 1] < np.corrcoef(mine, other)[0, 1]


def test_an_ep_tape_that_was_played_makes_its_siblings_longer() -> None:
    ep = Played("box", VHS, 300.0, Speed.EP)
    box = learning.of_box((ep,), STARTING)

    def slow(shop: ShopHabits) -> float:
        return sum(p for minutes, p in tape_minutes.belief_of(VHS, shop).points if minutes > 250)

    assert tape_minutes.belief_of(VHS, box).range.likely > 1.2 * tape_minutes.belief_of(VHS).range.likely
    assert slow(box) > 1.3 * slow(STARTING)
    assert drawn([VHS] * 4, replace(BOX, habits=box)).mean() > 1.15 * drawn([VHS] * 4).mean()


def test_every_sibling_played_narrows_what_is_left() -> None:
    widths = []
    for played in (0, 2, 8):
        box = learning.of_box((Played("box", VHS, 122.5, Speed.SP),) * played, STARTING)
        total = box_habits.range_of(drawn([VHS] * 6, replace(BOX, habits=box)).sum(axis=0))
        widths.append(total.high - total.low)
    assert widths[0] > 1.2 * widths[1] > 1.2 * widths[2]


@given(st.lists(st.floats(0.2, 40.0), min_size=2, max_size=6), st.integers(0, 2**63))
@settings(max_examples=15)
def test_shares_are_those_of_a_dirichlet_distribution(shape: list[float], key: int) -> None:
    around = np.repeat(np.array(shape)[:, None], BOX.scenarios, axis=1)
    shares = box_habits.dirichlet(around, key, BOX.seed)

    total = sum(shape)
    assert shares.sum(axis=0) == pytest.approx(np.ones(BOX.scenarios))
    for share, each in zip(shares, shape, strict=True):
        mean = each / total
        variance = mean * (1 - mean) / (total + 1)
        assert share.mean() == pytest.approx(mean, abs=5 * np.sqrt(variance / BOX.scenarios) + 1e-9)
        assert share.var() == pytest.approx(variance, rel=0.12, abs=2e-4)


def test_a_box_of_forty_tapes_asked_for_again_takes_no_time_to_speak_of() -> None:
    box = Box(5, 7, 1000)
    lots = [
        (replace(VHS, marking=name), tuple(range(n, n + 10))) for n, name in ((0, "T-120"), (90, "T-160"))
    ]
    lots += [(facts(TapeLine(1, FormatName(name))), tuple(range(20))) for name in ("hi8",)]
    box_habits.minutes_of_box(lots, box)

    def once() -> float:
        begun = time.process_time()
        box_habits.range_of(box_habits.minutes_of_box(lots, box))
        return time.process_time() - begun

    assert min(once() for _ in range(5)) < 3e-3


def both_slow(shop: ShopHabits, box: Box = BOX) -> float:
    """How often two full tapes of one box both run at EP, as drawn."""
    full = replace(VHS, fill=1.0)
    one, other = drawn([full, full], replace(box, habits=shop))
    return float(((one > 300) & (other > 300)).mean())


def both_slow_by_two_draws(shop: ShopHabits) -> float:
    """The same from first principles: first what the shop's customers do, then what this box does."""
    group, dice, scenarios = ("speed", "vhs-ntsc"), np.random.default_rng(11), 200_000
    seen = shop.seen.get(group, {})
    sure = starting_beliefs.worth("speed") + sum(seen.values())
    shape = np.array([sure * share for share in shop.weights(group).values()])
    slow = list(shop.weights(group)).index("ep")
    of_shop = dice.beta(shape[slow], shape.sum() - shape[slow], scenarios)
    agreement = shop.concentration("speed")
    of_box = dice.beta(agreement * of_shop + 1e-9, agreement * (1 - of_shop) + 1e-9)
    return float((of_box**2).mean())


@pytest.mark.parametrize("tapes_seen", [0, 10, 400])
def test_a_box_also_carries_that_the_shop_may_be_mistaken_about_everybody(tapes_seen: int) -> None:
    """Tapes agree more while few were seen: all of them follow customers nobody knows yet."""
    group = ("speed", "vhs-ntsc")
    counts = {name: tapes_seen * share for name, share in STARTING.weights(group).items()}
    shop = ShopHabits({group: counts} if tapes_seen else {})

    # Twenty thousand scenarios: three standard errors of a share near a third are 0.010.
    assert both_slow(shop) == pytest.approx(both_slow_by_two_draws(shop), abs=0.010)


def test_what_was_seen_takes_the_shops_own_doubt_out_of_a_box() -> None:
    group = ("fill", "vhs")
    counts = {name: 400 * share for name, share in STARTING.weights(group).items()}
    known = ShopHabits({group: counts})

    assert STARTING.correlation(group) > known.correlation(group) + 0.05
    assert known.correlation(group) == pytest.approx(1 / (1 + known.concentration("fill")), abs=0.01)
