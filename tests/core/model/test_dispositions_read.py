"""What became of a tape as it is read: by what was said, else by where it stands."""

from __future__ import annotations

import pytest

from core.model.dispositions import Disposition, as_it_stands, said_by
from core.model.stations import Station

HERE = [station for station in Station if station.is_in_the_shop]


@pytest.mark.parametrize("station", HERE)
@pytest.mark.parametrize("stored", [each for each in Disposition if each.follows_a_move])
def test_what_a_move_said_counts_only_where_the_tape_stands(stored: Disposition, station: Station) -> None:
    expected = stored if station is stored.station else said_by(station)
    assert as_it_stands(stored, station, None, True) is expected


@pytest.mark.parametrize("station", HERE)
@pytest.mark.parametrize("stored", [each for each in Disposition if not each.follows_a_move])
def test_what_somebody_said_counts_wherever_it_stands(stored: Disposition, station: Station) -> None:
    assert as_it_stands(stored, station, None, False) is stored


def test_nobody_can_say_it_is_copied_without_minutes() -> None:
    for stored in (None, Disposition.COPIED, Disposition.COPIED_IN_PART):
        assert as_it_stands(stored, Station.READY, None, False) is None


@pytest.mark.parametrize("gone_from", [Station.CANNOT_BE_PLAYED, Station.KEPT_APART])
def test_a_tape_that_went_home_uncopied_before_could_not_be_played(gone_from: Station) -> None:
    assert as_it_stands(None, Station.HANDED_BACK, gone_from, True) is Disposition.CANNOT_BE_PLAYED


@pytest.mark.parametrize("disposition", Disposition)
def test_everything_true_of_a_disposition_is_mapped(disposition: Disposition) -> None:
    assert disposition.station in Station
    assert not (disposition.is_copied and disposition.needs_incident)
    assert disposition.is_returned or disposition.needs_incident
