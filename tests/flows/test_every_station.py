"""A station that is added is told, shown and reached everywhere; what is missing is named."""

from __future__ import annotations

import pytest

from core.model.stations import Station
from core.services import spoken_answer
from core.wording.messages import knows
from gui.bench import next_station
from gui.widgets import tray_rows

GROUPS = {station: name for name, stations in spoken_answer._GROUPS for station in stations}
ONE_BY_ONE = [station for station in Station if station is not Station.BOOKED_IN]
"""Nobody moves a tape to where it is booked in."""


@pytest.mark.parametrize("station", Station)
def test_a_station_has_its_words(station: Station) -> None:
    assert knows("moves", f"at-{station.value}")
    assert knows("paper", f"station-{station.value}")


@pytest.mark.parametrize("station", Station)
def test_a_caller_is_told_of_it(station: Station) -> None:
    group = GROUPS.get(station)
    assert group is not None, "no group of spoken_answer has it"
    assert knows("spoken", f"all-{group}")
    assert knows("spoken", f"some-{group}")


@pytest.mark.parametrize("station", ONE_BY_ONE)
def test_the_bench_can_move_a_tape_there(station: Station) -> None:
    assert station is Station.HANDED_BACK or station in next_station._LETTERS


def test_no_two_stations_have_one_letter() -> None:
    letters = list(next_station._LETTERS.values())
    assert len(letters) == len(set(letters))


@pytest.mark.parametrize("station", Station)
def test_a_tape_at_work_lies_on_a_tray(station: Station) -> None:
    assert station.is_unfinished is (station in tray_rows._BENCH_ORDER)
