"""The stations a tape passes, and the moves between them that the shop allows."""

from __future__ import annotations

from enum import Enum


class Station(Enum):
    """Where a tape is. The value is the name used on the command line and in the database."""

    BOOKED_IN = "booked-in"
    LOOKED_OVER = "looked-over"
    AT_THE_BENCH = "at-the-bench"
    CLEARED_TO_PLAY = "cleared-to-play"
    PLAYING = "playing"
    BEING_CHECKED = "being-checked"
    READY = "ready"
    HANDED_BACK = "handed-back"
    ASKING_THE_CUSTOMER = "asking-the-customer"
    KEPT_APART = "kept-apart"
    CANNOT_BE_PLAYED = "cannot-be-played"


LINE = (
    Station.BOOKED_IN,
    Station.LOOKED_OVER,
    Station.AT_THE_BENCH,
    Station.CLEARED_TO_PLAY,
    Station.PLAYING,
    Station.BEING_CHECKED,
    Station.READY,
    Station.HANDED_BACK,
)
ASIDE = (Station.ASKING_THE_CUSTOMER, Station.KEPT_APART, Station.CANNOT_BE_PLAYED)

_FORWARD: dict[Station, tuple[Station, ...]] = {
    Station.BOOKED_IN: (Station.LOOKED_OVER,),
    Station.LOOKED_OVER: (Station.AT_THE_BENCH, Station.CLEARED_TO_PLAY),
    Station.AT_THE_BENCH: (Station.CLEARED_TO_PLAY, Station.LOOKED_OVER),
    Station.CLEARED_TO_PLAY: (Station.PLAYING, Station.AT_THE_BENCH),
    Station.PLAYING: (Station.BEING_CHECKED, Station.AT_THE_BENCH, Station.CLEARED_TO_PLAY),
    Station.BEING_CHECKED: (Station.READY, Station.CLEARED_TO_PLAY, Station.AT_THE_BENCH),
    Station.READY: (Station.BEING_CHECKED,),
    Station.HANDED_BACK: (),
    Station.ASKING_THE_CUSTOMER: (Station.LOOKED_OVER, Station.AT_THE_BENCH),
    Station.KEPT_APART: (Station.LOOKED_OVER, Station.AT_THE_BENCH),
    Station.CANNOT_BE_PLAYED: (Station.LOOKED_OVER, Station.AT_THE_BENCH),
}
"""Moves along the line and back. Hand-back is not a move: only a pickup does it."""

HANDED_BACK_FROM = (Station.READY, Station.KEPT_APART, Station.CANNOT_BE_PLAYED)
"""Stations from which a pickup may return a tape to its owner."""


def allowed_moves(here: Station) -> tuple[Station, ...]:
    """The stations a tape may go to from ``here``, the usual next one first.

    Stepping aside (asking, kept apart, cannot be played) is possible from everywhere
    but from ``ready`` and ``handed-back``: a finished tape goes back to checking first.
    """
    forward = _FORWARD[here]
    if here in (Station.READY, Station.HANDED_BACK):
        return forward
    return forward + tuple(station for station in ASIDE if station is not here)


def allows(here: Station, there: Station) -> bool:
    """Whether one move leads from ``here`` to ``there``."""
    return there in allowed_moves(here)


def is_open(station: Station) -> bool:
    """Whether the tape is still in the shop's care."""
    return station is not Station.HANDED_BACK
