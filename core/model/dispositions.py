"""Dispositions: what became of a tape in the end, as inspection calls it, and what is true of each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from core.model.stations import Station


class Disposition(Enum):
    """What became of a tape. The value is the name used on the command line and in the database."""

    COPIED = "copied"
    COPIED_IN_PART = "copied-in-part"
    NOTHING_ON_IT = "nothing-on-it"
    NOT_WANTED = "not-wanted"
    REPAIR_DECLINED = "repair-declined"
    CANNOT_BE_PLAYED = "cannot-be-played"
    SENT_ELSEWHERE = "sent-elsewhere"
    """A partner had it, and it is back."""
    LOST = "lost"
    DAMAGED = "damaged"
    """In our hands."""

    @property
    def is_copied(self) -> bool:
        """Whether there are copies of it, so that minutes or a file must be on record."""
        return _TRAITS[self].is_copied

    @property
    def is_returned(self) -> bool:
        """Whether the owner gets the tape back."""
        return self is not Disposition.LOST

    @property
    def needs_incident(self) -> bool:
        """Whether what happened has to be written down for the owner and the insurer."""
        return _TRAITS[self].needs_incident

    @property
    def follows_a_move(self) -> bool:
        """Whether a move to a station says it, so that a move away takes it back; else `reopen` does."""
        return self in _BY_STATION.values() or self is Disposition.COPIED_IN_PART

    @property
    def station(self) -> Station:
        """Where a tape stands once this is settled."""
        return _TRAITS[self].station


@dataclass(frozen=True, slots=True)
class _Traits:
    station: Station
    is_copied: bool = False
    needs_incident: bool = False


_TRAITS = {
    Disposition.COPIED: _Traits(Station.READY, is_copied=True),
    Disposition.COPIED_IN_PART: _Traits(Station.READY, is_copied=True),
    Disposition.NOTHING_ON_IT: _Traits(Station.READY),
    Disposition.NOT_WANTED: _Traits(Station.READY),
    Disposition.REPAIR_DECLINED: _Traits(Station.READY),
    Disposition.CANNOT_BE_PLAYED: _Traits(Station.CANNOT_BE_PLAYED),
    Disposition.SENT_ELSEWHERE: _Traits(Station.READY),
    Disposition.LOST: _Traits(Station.ASKING_THE_CUSTOMER, needs_incident=True),
    Disposition.DAMAGED: _Traits(Station.ASKING_THE_CUSTOMER, needs_incident=True),
}

_BY_STATION = {
    Station.READY: Disposition.COPIED,
    Station.CANNOT_BE_PLAYED: Disposition.CANNOT_BE_PLAYED,
}


def said_by(station: Station) -> Disposition | None:
    """The disposition that a move to ``station`` settles."""
    return _BY_STATION.get(station)


def as_it_stands(
    stored: Disposition | None, station: Station, returned_from: Station | None, is_recorded: bool
) -> Disposition | None:
    """What became of a tape; of one kept before dispositions were, what its station tells.

    ``is_recorded``: anybody can say how much was copied. None: that is not settled. What a move said counts
    only as long as the tape stands there: one that was sent on to ask its owner is open again.
    """
    if stored is not None and stored.follows_a_move and station not in (stored.station, Station.HANDED_BACK):
        stored = None
    found = stored or said_by(returned_from or station)
    if found is None and returned_from is not None and returned_from.is_uncopied:
        return Disposition.CANNOT_BE_PLAYED
    return None if found is not None and found.is_copied and not is_recorded else found
