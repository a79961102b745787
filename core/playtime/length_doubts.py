"""Whether what was measured of a tape can be: a little more than its sources say is told, far more is asked.

A measured place or time is never wrong because a table says so. It is kept, told, and taken into what is
believed of the tape's length (`measured_lengths`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model.deck_showing import NOTHING, Shown
from core.model.inventory import TapeLine
from core.playtime import places, possibilities, tape_minutes
from core.playtime.deck_readings import found
from core.playtime.packs import Reels
from core.wording.locale_figures import figure
from core.wording.messages import say

READ_OFF = 0.5
"""Minutes by which a counter may be off before its figure says anything of the tape (an assumption)."""
LEADER_M = 1.0
"""The same in metres: the leaders of both ends (an assumption, `places.LEADER_REACH_M`)."""
FAR = 1.1
"""So many times the longest tape is no long tape any more but a slip or another cassette (an assumption)."""


@dataclass(frozen=True, slots=True)
class LengthDoubt:
    """What was measured is more than the tape can hold as far as its sources say."""

    words: str
    asks: bool
    """Far more: it is kept only when somebody confirms it."""


def of_minutes(line: TapeLine, minutes: float, shown: Shown = NOTHING) -> LengthDoubt | None:
    """A place or a play time in minutes; ``shown`` is what a deck showed, which a told speed is not."""
    seen = found(line, shown)
    most = tape_minutes.belief(seen, seen.tv).longest
    if minutes <= most + READ_OFF:
        return None
    open_to = replace(seen, speed=shown.speed)
    at_any_speed = tape_minutes.belief(open_to, shown.tv).longest
    return _doubt(seen, "minutes", minutes, most, minutes > FAR * max(most, at_any_speed))


def of_metres(line: TapeLine, metres: float) -> LengthDoubt | None:
    """A place in metres from the head."""
    most = places.longest_metres(line)
    if metres <= most + LEADER_M:
        return None
    return _doubt(line, "metres", metres, most, metres > FAR * most)


def of_fill(line: TapeLine) -> LengthDoubt | None:
    """A recorded share that was told as more than all of the tape."""
    if line.fill is None or line.fill <= 1:
        return None
    metres, most = possibilities.metres_told(line, line.tv), places.longest_metres(line)
    return None if metres <= most else _doubt(line, "metres", metres, most, metres > FAR * most)


def of_pack(known: Reels, radius_mm: float) -> LengthDoubt | None:
    """A pack that was read as reaching past the edge of its reel."""
    if not known.is_beyond_reel(radius_mm):
        return None
    told = {"mm": _figure(radius_mm), "reel": _figure(known.flange.value), "source": known.flange.words}
    return LengthDoubt(say("lengths", "beyond-reel", format=known.form.words, **told), asks=True)


def _doubt(line: TapeLine, unit: str, value: float, most: float, asks: bool) -> LengthDoubt:
    told = {
        "value": _figure(value),
        "most": _figure(most),
        "tape": tape_minutes.named(line),
    }
    return LengthDoubt(say("lengths", f"beyond-{unit}", **told), asks)


def _figure(value: float) -> str:
    """To a tenth, and no tenth where there is none."""
    return figure(value, digits=0 if round(value, 1) == round(value) else 1)
