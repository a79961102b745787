"""Waiting before a cold tape is played."""

from __future__ import annotations

import pytest

from core.catalogue import acclimatisation


@pytest.mark.parametrize(("tape", "room", "hours"), [(3, 21, 1.8), (41, 21, 2.0), (21, 21, 0), (17, 21, 0)])
def test_a_tape_waits_an_hour_for_every_ten_degrees(tape: float, room: float, hours: float) -> None:
    """10 °C per hour, SMPTE RP 103-1995; nothing to wait for within 5 °C, EMTEC/AGFA."""
    assert acclimatisation.hours_to_wait(tape, room) == pytest.approx(hours)


def test_a_cold_box_rests_longer_than_its_temperature_alone_would_ask() -> None:
    """The damp takes the day; from −20 °C to 20 °C the temperature takes four hours."""
    assert acclimatisation.hours_to_rest(True) > acclimatisation.hours_to_wait(-20, 20) == 4
    assert acclimatisation.hours_to_rest(False) == 0
