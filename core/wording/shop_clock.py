"""The shop's own days and times, for whoever reads them on a screen or in an answer.

Records hold moments in UTC, and the computer may stand in another zone than the shop. Like the language
(`messages.use`) the zone is that of the process: it is set when a shop is opened. Papers and steps take it
from the settings they are given.
"""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

_zone = "UTC"


def use(timezone: str) -> None:
    """From now on days and times are those of this IANA time zone."""
    global _zone
    _zone = timezone


def local(moment: datetime) -> datetime:
    """A moment as the clock on the shop's wall shows it."""
    return moment.astimezone(ZoneInfo(_zone))


def day(moment: datetime) -> date:
    """The shop's own day at a moment: what is booked in the evening is booked on that day everywhere."""
    return local(moment).date()
