"""How long a cold or hot tape waits before it may be played."""

from __future__ import annotations

DEGREES_AN_HOUR = 10.0
"""Fastest change of a tape's temperature in °C per hour: SMPTE RP 103-1995 table 1 (standard)."""

NEEDED_FROM_C = 5.0
"""Closer to the room than this, a tape is played at once: EMTEC/AGFA archiving advice (manufacturer)."""


def hours_to_wait(tape_c: float, room_c: float) -> float:
    """Hours at least before a tape at ``tape_c`` °C is played in a room at ``room_c`` °C.

    Humidity takes longer: a full day or more for a tape from the cold (from memory).
    """
    apart = abs(room_c - tape_c)
    return 0.0 if apart <= NEEDED_FROM_C else apart / DEGREES_AN_HOUR
