"""How long a cold or hot tape waits before it may be played."""

from __future__ import annotations

from core.wording.messages import say

DEGREES_AN_HOUR = 10.0
"""Fastest change of a tape's temperature in °C per hour: SMPTE RP 103-1995 table 1 (standard)."""

NEEDED_FROM_C = 5.0
"""Closer to the room than this, a tape is played at once: EMTEC/AGFA archiving advice (manufacturer)."""

COLD_BOX_HOURS = 24.0
"""How long a box that came in cold rests: its temperature alone would take two hours from
freezing (`hours_to_wait`), but damp that settles on cold tape takes a full day to leave it (from memory)."""


def hours_to_wait(tape_c: float, room_c: float) -> float:
    """Hours at least before a tape at ``tape_c`` °C is played in a room at ``room_c`` °C.

    Humidity takes longer: a full day or more for a tape from the cold (from memory).
    """
    apart = abs(room_c - tape_c)
    return 0.0 if apart <= NEEDED_FROM_C else apart / DEGREES_AN_HOUR


def hours_to_rest(cold: bool) -> float:
    """Hours a box rests before any tape of it may be played; none when it did not come in cold."""
    return COLD_BOX_HOURS if cold else 0.0


def caution() -> str:
    """Why a cold box rests, in words."""
    return say("look", "damp")
