"""Opening hours as people type them: ``9-12:30, 13:30-18`` or ``9am-6pm``. Never guessed: what reads in two
ways, such as ``1-6pm``, is not understood."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import time
from itertools import pairwise

from core.wording import locale_figures
from core.wording.messages import say

Span = tuple[int, int]
"""From and to, in minutes after midnight; 1440 is the end of the day."""

_TIME = r"(\d{1,2})(?:[:.h](\d{2})?)?\s*(?:uhr\b)?\s*([ap]\.?\s?m\.?|[ap]\b)?"
_SPAN = re.compile(rf"{_TIME}\s*(?:-|–|—|\bto\b)\s*{_TIME}", re.IGNORECASE)
_BETWEEN = re.compile(r"[,;]|\band\b|\+|/", re.IGNORECASE)
_HALF_DAY, _DAY = 12 * 60, 24 * 60


def spans_of(typed: str) -> tuple[Span, ...] | None:
    """The hours typed, in order; none for an empty text or the word for closed.

    None for what is no time, reads in two ways, ends before it begins, or overlaps.
    """
    text = typed.strip().lower().replace("\u00a0", " ").replace("\u202f", " ")
    if not text or text in (say("settings", "hours-closed").lower(), "closed", "-", "–"):
        return ()
    found = [_span(part.strip()) for part in _BETWEEN.split(text)]
    spans = sorted(span for span in found if span is not None)
    overlap = any(one[1] > other[0] for one, other in pairwise(spans))
    return None if overlap or len(spans) < len(found) else tuple(spans)


def typed_spans(spans: Sequence[Span]) -> str:
    """Hours as they are typed here: ``9:00 AM–12:30 PM, 1:30 PM–6:00 PM``; the word for closed without any.

    On the clock of 24 hours where the locale's own words for morning and afternoon would not be understood.
    """
    if not spans:
        return say("settings", "hours-closed")
    text = ", ".join(f"{_by_locale(start)}–{_by_locale(end)}" for start, end in spans)
    if spans_of(text) == tuple(spans):
        return text
    return ", ".join(f"{_plain(start)}–{_plain(end)}" for start, end in spans)


def _by_locale(minutes: int) -> str:
    if minutes == _DAY:
        return _plain(minutes)
    return locale_figures.time_of_day(time(minutes // 60, minutes % 60)).replace("\u00a0", " ")


def _plain(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"


def _span(text: str) -> Span | None:
    """The one reading of a span; None when there is none, or more than one."""
    parts = _SPAN.fullmatch(text)
    if parts is None:
        return None
    first, last = parts.groups()[:3], parts.groups()[3:]
    either = bool(first[2]) is not bool(last[2])
    ends = _readings(*last, either=either)
    if last[2] or not either:
        ends = tuple(end or _DAY for end in ends)
    starts = _readings(*first, either=either)
    readings = {(start, end) for start in starts for end in ends if start < end}
    return readings.pop() if len(readings) == 1 else None


def _readings(hour: str, minute: str | None, half: str | None, *, either: bool) -> tuple[int, ...]:
    """What a time may mean; ``either``: the other end says am or pm, so an hour up to 12 may be both."""
    hours, minutes = int(hour), int(minute or 0)
    if minutes > 59 or hours > 24:
        return ()
    if half:
        return (
            ((hours % 12) * 60 + minutes + (_HALF_DAY if half[0] == "p" else 0),) if 1 <= hours <= 12 else ()
        )
    plain = hours * 60 + minutes
    if plain > _DAY:
        return ()
    if either and 1 <= hours <= 12:
        morning = (hours % 12) * 60 + minutes
        return (morning, morning + _HALF_DAY)
    return (plain,)
