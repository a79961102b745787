"""Answers about cassettes in general as JSON: play time, cuts, packs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.playtime import pack_reading
from core.playtime.beliefs import Belief
from core.playtime.cuts import Cut
from core.playtime.one_pack import Pack
from core.playtime.pack_reading import PackMeasurement

if TYPE_CHECKING:
    pass
from core.cli import json_quotes
from core.cli.json_quotes import Json


def playtime(belief: Belief) -> Json:
    """``playtime``: what is believed about one cassette."""
    return {
        "minutes": json_quotes.span(belief.range),
        "full_minutes": json_quotes.number_or_span(belief.full),
        "metres": json_quotes.number_or_span(belief.metres),
        "speed_mm_s": json_quotes.number_or_span(belief.speed_mm_s),
        "sources": list(belief.sources),
    }


def cut(lost: Cut) -> Json:
    """``cut``: what a cut takes away."""
    return {
        "seconds_removed": json_quotes.rounded(lost.seconds_removed),
        "seconds_disturbed": json_quotes.rounded(lost.seconds_disturbed) if lost.is_disturbed_known else None,
        "removed": json_quotes.span(lost.removed),
        "disturbed": json_quotes.span(lost.disturbed) if lost.is_disturbed_known else None,
        "sources": list(lost.sources),
    }


def pack(reel: Pack) -> Json:
    """``pack``: what lies on one reel."""
    return {
        "metres": json_quotes.rounded(reel.metres),
        "minutes": json_quotes.number_or_span(reel.minutes),
        "sources": list(reel.sources),
    }


def both_packs(found: PackMeasurement) -> Json:
    """``pack`` with both radii: what is to come, what has run, and whether the marking can be right."""
    reels = {"supply": found.to_come, "take_up": found.run}
    return {
        **{
            name: {"metres": json_quotes.span(reel.metres), "minutes": json_quotes.span(reel.minutes)}
            for name, reel in reels.items()
        },
        "share_run": json_quotes.span(found.share_run),
        "agrees": None if found.fit is None else found.fit.agrees,
        "sentence": pack_reading.fit_words(found),
        "reading_sources": list(found.sources),
    }
