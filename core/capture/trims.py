"""From what was seen and heard to stretches, trims, billable minutes and whether the sound is there."""

from __future__ import annotations

from dataclasses import dataclass

from core.capture import thresholds as at
from core.capture.file_report import Sound, Stretch, StretchKind
from core.capture.time_spans import Span, both, longer, merged, total, without


@dataclass(frozen=True, slots=True)
class RawSpans:
    """Raw spans of one file. ``pictures`` and ``sounds`` say whether the file has any."""

    seconds: float
    pictures: bool
    sounds: bool
    black: tuple[Span, ...] = ()
    blue: tuple[Span, ...] = ()
    frozen: tuple[Span, ...] = ()
    silent: tuple[Span, ...] = ()


def stretches(seen: RawSpans) -> tuple[Stretch, ...]:
    """Stretches long enough to be told, in order. A blank picture is not told as frozen as well."""
    black, blue = _settled("black", seen.black), _settled("blue", seen.blue)
    frozen = _settled("frozen", without(merged(seen.frozen), [*black, *blue]))
    silent = _settled("silent", seen.silent)
    found = (
        (StretchKind.BLACK, black),
        (StretchKind.BLUE, blue),
        (StretchKind.FROZEN, frozen),
        (StretchKind.SILENT, silent),
    )
    told = [Stretch(kind, *span) for kind, spans in found for span in spans]
    return tuple(sorted(told, key=lambda stretch: (stretch.start, stretch.end, stretch.kind.value)))


def blank(seen: RawSpans) -> list[Span]:
    """Where there is nothing to see and nothing to hear; of a file without pictures, nothing to hear."""
    silent = longer(merged(seen.silent, at.BRIDGED_SECONDS), at.LEAST_SECONDS["silent"])
    if not seen.pictures:
        return silent
    dark = longer(merged([*seen.black, *seen.blue], at.BRIDGED_SECONDS), at.LEAST_SECONDS["black"])
    return both(dark, merged(seen.silent, at.BRIDGED_SECONDS)) if seen.sounds else dark


def trims(seen: RawSpans) -> Span:
    """What is to be kept, from and to: blank at the head and the tail goes, but for a second beside."""
    keep_from, keep_to = 0.0, seen.seconds
    for start, end in blank(seen):
        if start <= at.BRIDGED_SECONDS and end >= seen.seconds - at.BRIDGED_SECONDS:
            return 0.0, 0.0
        if start <= at.BRIDGED_SECONDS:
            keep_from = max(end - at.KEPT_BLANK_SECONDS, 0.0)
        elif end >= seen.seconds - at.BRIDGED_SECONDS:
            keep_to = min(start + at.KEPT_BLANK_SECONDS, seen.seconds)
    return keep_from, keep_to


def billable_minutes(seen: RawSpans) -> float:
    """Minutes between the trims, long blanks inside taken off."""
    kept = trims(seen)
    inner = longer(both([kept], blank(seen)), at.INNER_BLANK_SECONDS)
    return (total([kept]) - total(inner)) / 60


def mute(seen: RawSpans) -> list[Span]:
    """Where pictures show and nothing is to be heard; silence under a blank picture does not count."""
    if not seen.sounds:
        return _shown(seen)
    return both(_shown(seen), longer(merged(seen.silent, at.BRIDGED_SECONDS), at.LEAST_SECONDS["silent"]))


def sound(seen: RawSpans) -> Sound:
    """Whether sound goes with the pictures."""
    shown, silent = _shown(seen), mute(seen)
    if not seen.sounds or (shown and total(silent) >= at.SOUND_MISSING_SHARE * total(shown)):
        return Sound.MISSING
    if seen.pictures and longer(silent, at.SOUND_PARTLY_SECONDS):
        return Sound.PARTLY
    return Sound.PRESENT


def _shown(seen: RawSpans) -> list[Span]:
    """Where there is a picture; of a file without any, all of it."""
    return without([(0.0, seen.seconds)], [*seen.black, *seen.blue])


def _settled(name: str, spans: list[Span] | tuple[Span, ...]) -> list[Span]:
    return longer(merged(spans, at.BRIDGED_SECONDS), at.LEAST_SECONDS[name])
