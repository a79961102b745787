"""Chances that were stated, held against what came of them."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from math import comb

import numpy as np
import pytest

from core.model.promise_records import Chance, Promise
from core.promise.reliability import Judged, pit_histogram, reliability, sampling_band

MADE = datetime(2026, 3, 2, 15, 0, tzinfo=UTC)
TODAY = date(2026, 6, 1)


def promise(*by: float, day: int) -> Promise:
    """A curve that begins on 2 March; ``day`` counts from there."""
    days = [MADE.date() + timedelta(days=n) for n in range(len(by))]
    curve = tuple(Chance(each, share) for each, share in zip(days, by, strict=True))
    return Promise(days[day], by[day], None, None, (), curve, MADE)


def judged(made: Promise, ready: int | None) -> Judged:
    """``ready`` counts in days from 2 March, at noon; None: never."""
    assert made.day is not None
    due = datetime(made.day.year, made.day.month, made.day.day, tzinfo=UTC) + timedelta(days=1)
    at = None if ready is None else MADE.replace(hour=16) + timedelta(days=ready)
    return Judged("000018", "Ada Fenwick", made, due, at, at.date() if at else None, TODAY)


def drawn(count: int, *by: float, day: int, slower: int = 0, seed: int = 1) -> list[Judged]:
    """Boxes that are ready as the curve says, or so many days later."""
    days = np.searchsorted(by, np.random.default_rng(seed).random(count))
    return [judged(promise(*by, day=day), int(ready) + slower) for ready in days]


CURVE = (0.0, 0.2, 0.4, 0.55, 0.7, 0.82, 0.92, 0.97, 1.0)


def test_the_promised_day_counts_to_its_end() -> None:
    made = promise(0.2, 0.9, 1.0, day=1)
    assert [judged(made, ready).kept for ready in (0, 1, 2, None)] == [True, True, False, False]
    assert [judged(made, ready).days_late for ready in (0, 1, 2)] == [0, 0, 1]
    assert judged(made, None).days_late == (TODAY - date(2026, 3, 3)).days


def test_the_shop_reads_how_many_of_which_promises_were_kept() -> None:
    some = drawn(120, *CURVE, day=6) + drawn(40, *CURVE, day=7, seed=3)
    found = reliability(some)
    assert [(group.low, group.count) for group in found.groups] == [(0.9, 120), (0.95, 40)]
    group = found.groups[0]
    assert group.kept == sum(each.kept for each in some[:120])
    assert (group.least, group.most) == sampling_band([0.92] * 120)
    assert group.verdict == 0
    assert found.whole is not None
    assert found.whole.count == 160


def test_a_band_of_promises_alike_and_unlike() -> None:
    assert sampling_band([]) == (0, 0)
    assert sampling_band([1.0] * 5) == (5, 5)
    assert sampling_band([0.0] * 5) == (0, 0)
    least, most = sampling_band([0.5] * 10 + [0.99] * 10)
    assert least < 15 < most


def test_a_band_is_that_of_the_sign_test() -> None:
    """Of 20 even chances 5 or fewer, or 15 or more, are too unlikely at 5 % (any table of the sign test)."""
    assert sampling_band([0.5] * 20) == (6, 14)


@pytest.mark.parametrize(
    ("stated", "group"),
    [
        (0.05, (0.0, 0.8)),
        (0.79, (0.0, 0.8)),
        (0.8, (0.8, 0.9)),
        (0.89, (0.8, 0.9)),
        (0.9, (0.9, 0.95)),
        (0.94, (0.9, 0.95)),
        (0.95, (0.95, 1.0)),
        (1.0, (0.95, 1.0)),
    ],
)
def test_promises_are_told_by_what_was_stated(stated: float, group: tuple[float, float]) -> None:
    (found,) = reliability([judged(promise(stated, 1.0, day=0), 0)]).groups

    assert (found.low, found.high) == group


def test_a_right_model_fills_every_decile_alike_and_a_late_one_the_last() -> None:
    right = reliability(drawn(4000, *CURVE, day=6))
    assert all(share == pytest.approx(0.1, abs=0.02) for share in right.deciles)
    assert not right.alarms
    late = reliability(drawn(4000, *CURVE, day=6, slower=2))
    assert late.deciles[-1] > 0.2
    assert late.alarms
    assert late.groups[0].verdict == -1


def test_a_few_late_boxes_raise_no_alarm_yet() -> None:
    assert not reliability(drawn(39, *CURVE, day=6, slower=9)).alarms
    assert reliability(drawn(40, *CURVE, day=6, slower=9)).alarms


def test_the_alarm_is_what_luck_does_in_one_of_sixty_shops() -> None:
    """Of 40 promises of a right model those in the last decile are binomial with 40 and a tenth."""

    def by_luck(least: int) -> float:
        return sum(comb(40, n) * 0.1**n * 0.9 ** (40 - n) for n in range(least, 41))

    def alarms(last: int) -> bool:
        """So many of 40 fall wholly into the last decile, the others evenly into the nine before."""
        made = promise(0.9, 1.0, day=0)
        return reliability([judged(made, 1)] * last + [judged(made, 0)] * (40 - last)).alarms

    assert by_luck(9) < 1 / 60 < by_luck(8)
    assert [alarms(last) for last in (8, 9)] == [False, True]


def test_what_is_overdue_counts_as_late_and_not_as_unknown() -> None:
    open_still = [judged(promise(*CURVE, day=6), None)] * 50
    found = reliability(open_still)
    assert found.whole is not None
    assert found.whole.kept == 0
    assert found.deciles[-1] == pytest.approx(1.0)
    assert len(found.late) == 50


def test_a_better_curve_scores_fewer_days_off() -> None:
    sharp, wide = (0.0, 0.05, 0.95, 1.0), (0.2, 0.4, 0.6, 0.8, 1.0)
    ready = [2] * 19 + [3]
    scores = [reliability([judged(promise(*by, day=2), day) for day in ready]) for by in (sharp, wide)]
    assert scores[0].days_off < scores[1].days_off


def test_a_late_box_costs_more_than_an_early_one() -> None:
    early, late = (reliability([judged(promise(*CURVE, day=6), day)]) for day in (5, 7))
    assert (early.pinball_days, late.pinball_days) == (pytest.approx(0.08), pytest.approx(0.92))


def test_no_promise_no_figures() -> None:
    found = reliability([])
    assert (found.whole, found.groups, found.alarms, found.late) == (None, (), False, ())
    assert pit_histogram([]).tolist() == [0.0] * 10
