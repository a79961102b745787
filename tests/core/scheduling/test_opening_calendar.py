"""The table of slots answers as a search through the openings does."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.scheduling import opening_hours
from core.scheduling.opening_calendar import Calendar, Slots
from core.scheduling.play_hours import OVERLONG_WITHIN, TO_BE_LOADED, Gate
from tests.support.shops import WEEKDAYS, fittings

MONDAY = date(2026, 3, 2)
LUNCH = tuple(
    opening for day in range(6) for opening in (OpeningHours(day, 540, 750), OpeningHours(day, 790, 1080))
)
SATURDAY = (*WEEKDAYS, OpeningHours(5, 600, 840))
MINUTES_APART = (OpeningHours(0, 540, 700), OpeningHours(0, 705, 712), OpeningHours(3, 540, 545))


def calendar(openings: tuple[OpeningHours, ...]) -> Calendar:
    return opening_hours.calendar(fittings(openings=openings), MONDAY, 60)


def moments(of: Calendar) -> np.ndarray:  # type: ignore[type-arg]
    """Random ones, and each edge with its neighbours."""
    dice = np.random.default_rng(5).uniform(0, 61 * 1440, 20_000)
    edges = np.concatenate((of.opens, of.closes))
    return np.concatenate((dice, edges, np.nextafter(edges, np.inf), np.nextafter(edges, 0), [np.inf]))


@pytest.mark.parametrize("openings", [WEEKDAYS, LUNCH, SATURDAY, MINUTES_APART, ()])
def test_the_table_finds_the_slot_a_search_finds(openings: tuple[OpeningHours, ...]) -> None:
    of = calendar(openings)
    slots, at = Slots(of), moments(of)
    found = np.searchsorted(of.closes, at, side="left")
    assert (slots.closing(at) == found).all()
    assert slots.is_coarse == (openings is not MINUTES_APART)


@pytest.mark.parametrize("openings", [WEEKDAYS, LUNCH, SATURDAY, MINUTES_APART])
@pytest.mark.parametrize("work", [5.0, 13.0, 500.0])
def test_work_rests_overnight_as_on_the_axis_of_minutes_worked(
    openings: tuple[OpeningHours, ...], work: float
) -> None:
    of = calendar(openings)
    at = moments(of)
    assert np.allclose(Slots(of).advanced(at, work), of.advanced(at, work), rtol=0, atol=1e-9)


@pytest.mark.parametrize("openings", [WEEKDAYS, LUNCH, SATURDAY, MINUTES_APART])
@pytest.mark.parametrize(("estimate", "past"), [(62.0, 0.0), (250.0, 60.0), (370.0, 60.0), (900.0, 0.0)])
def test_a_gate_opens_when_a_search_through_its_slots_says_so(
    openings: tuple[OpeningHours, ...], estimate: float, past: float
) -> None:
    of = calendar(openings)
    gate, at = Gate(of, estimate, past), moments(of)
    latest = np.minimum(of.closes, of.closes + past - estimate)
    fits = latest >= of.opens
    overlong = not (latest >= of.opens + TO_BE_LOADED).any()
    soon = np.minimum(of.closes, of.opens + OVERLONG_WITHIN)
    opens, ends = (of.opens[fits], latest[fits]) if not overlong else (of.opens, soon)
    slot = np.searchsorted(ends, at, side="left")
    expected = np.maximum(at, np.append(opens, np.inf)[slot])
    assert gate.overlong == overlong
    assert (gate.start(at) == expected).all()
