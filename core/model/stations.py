"""The stations a tape passes, what is true of a tape at each, and the moves that the shop allows."""

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

    @property
    def is_in_the_shop(self) -> bool:
        """Whether the tape is still in the shop's care."""
        return self is not Station.HANDED_BACK

    @property
    def needs_the_bench(self) -> bool:
        """Whether somebody has to look the tape over, repair it or clear it before a deck may take it."""
        return self in (Station.BOOKED_IN, Station.LOOKED_OVER, Station.AT_THE_BENCH)

    @property
    def is_repaired_on_the_way(self) -> bool:
        """Whether the repairs that were planned may still lie before the tape."""
        return self.needs_the_bench or self.is_aside

    @property
    def waits_for_a_deck(self) -> bool:
        """Whether the tape is on its way to a deck, over the bench or straight."""
        return self.needs_the_bench or self is Station.CLEARED_TO_PLAY

    @property
    def is_for_a_deck(self) -> bool:
        """Whether a tape here goes into a deck next or is in one: it must be fit to play."""
        return self in (Station.CLEARED_TO_PLAY, Station.PLAYING)

    @property
    def may_have_files(self) -> bool:
        """Whether there can be a recorded file of the tape."""
        return self in (Station.PLAYING, Station.BEING_CHECKED, Station.READY)

    @property
    def is_aside(self) -> bool:
        """Whether the tape has stepped out of the line."""
        return self in ASIDE

    @property
    def is_unsettled(self) -> bool:
        """Whether nobody knows yet if the tape will be played: it is in no promise."""
        return self in (Station.ASKING_THE_CUSTOMER, Station.KEPT_APART)

    @property
    def is_uncopied(self) -> bool:
        """Whether a tape that goes home from here was not copied, so that its capture is not charged."""
        return self in (Station.CANNOT_BE_PLAYED, Station.KEPT_APART)

    @property
    def is_unfinished(self) -> bool:
        """Whether the tape is in the shop and not ready."""
        return self not in (Station.READY, Station.HANDED_BACK)

    @property
    def is_done(self) -> bool:
        """Whether the shop has done for the tape what it can."""
        return not self.is_unfinished or self.is_uncopied

    @property
    def may_go_home(self) -> bool:
        """Whether a pickup may return the tape to its owner from here."""
        return self is Station.READY or self.is_uncopied


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
