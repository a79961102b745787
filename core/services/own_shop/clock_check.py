"""Whether the clock of this computer stands before what was entered already."""

from __future__ import annotations

from datetime import timedelta

from core.store import current_settings, history
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

_MEANS_NOTHING = timedelta(hours=1)
"""Clocks of several counters differ by less."""


def sentence(unit: Unit) -> str:
    """What is said of a clock that was set back; nothing while it is right."""
    last = history.last_at(unit)
    if last is None or last - unit.now <= _MEANS_NOTHING:
        return ""
    zone = current_settings.read(unit).front.timezone
    return say(
        "records",
        "clock_is_behind",
        now=locale_figures.moment(unit.now, zone),
        last=locale_figures.moment(last, zone),
    )
