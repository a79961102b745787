"""A reading of packs in sentences."""

from __future__ import annotations

from core.model.names import FillKnown
from core.model.ranges import Range
from core.playtime.pack_reading import PackMeasurement, Recorded, Reel
from core.wording.locale_figures import percent, percent_range
from gui.toolkit.text import minutes_range, say

_MOST_OTHERS = 4
"""Markings named before it becomes a list nobody reads."""


def reel_words(reel: Reel) -> str:
    """``58–66 min · 116–133 m``."""
    return say("packs", "reel", minutes=minutes_range(reel.minutes), metres=span(reel.metres))


def share_words(found: PackMeasurement) -> str:
    """``Run 47–53 % of the tape``."""
    return say("packs", "share", share=percent_range(found.share_run.low, found.share_run.high))


def meaning_words(found: PackMeasurement) -> str:
    """What it says about how much is recorded, and what it does not."""
    return say("packs", f"means_{found.place.value}")


def recorded_words(found: Recorded) -> str:
    """``at least 50 %``, ``50 % (give or take 3 %)``."""
    share = percent(found.fill)
    if found.fill_known is FillKnown.AT_LEAST:
        return say("packs", "recorded_least", share=share)
    if found.fill_off is None:
        return share
    return say("packs", "recorded_here", share=share, off=percent(found.fill_off))


def fit_words(found: PackMeasurement) -> tuple[str, bool]:
    """Whether the marking can be right, and whether that needs attention."""
    marking = found.reels.marking
    told = {"marking": marking.name, "metres": f"{marking.metres.value:g}"}
    if found.fit is None:
        if found.too_full:
            return say("packs", "too_full", **told), True
        return say("packs", "no_fit" if found.reels.named else "no_marking_fit", **told), False
    others = ", ".join(found.fit.others[:_MOST_OTHERS])
    if found.fit.agrees:
        also = f" {say('packs', 'fits_others', others=others)}" if others else ""
        return say("packs", "fits", **told) + also, False
    key = "misfit" if others else "misfit_none"
    return say("packs", key, held=span(found.fit.metres), others=others, **told), True


def doubt_words(found: PackMeasurement, *, speed_is_known: bool) -> str:
    """What makes the figures wide."""
    thin, thick = (f"{um:g}" for um in (found.reels.thin_um, found.reels.thick_um))
    doubts = [say("packs", "off", thin=thin, thick=thick)]
    if not speed_is_known and len(found.reels.form.speeds) > 1:
        doubts.append(say("packs", "speed_open"))
    if found.reels.form.sides == 2:
        doubts.append(say("packs", "one_side"))
    return " ".join(doubts)


def span(value: Range) -> str:
    """``116–133``, or one figure when both ends are the same."""
    low, high = round(value.low), round(value.high)
    return f"{high}" if low == high else f"{low}–{high}"
