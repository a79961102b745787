"""The script of the demonstration: what happens to whom, and when, seen from the moment it is run."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from core.model.own_shop.settings_records import ShopSettings
from core.model.tape_records import TapeRecord
from core.scheduling import opening_hours

THE_SHOP = -1
"""In the place of a job, for what is done to none."""
SEEN_AT = time(15, 0)
"""The times of today are written for a day that is seen at this hour."""
SHOWN = ("speed", "recorded_as", "tv")
"""What a deck may have shown of the tapes it played."""
_DAYS_BACK = 40
"""Far enough to find ten open days behind any holidays."""
_CHECK_MINUTES = 12
"""From the end of a tape until it is checked and ready; invented."""


@dataclass(frozen=True, slots=True)
class ScriptedAct:
    """One thing somebody does. ``job`` counts from 0, or is `THE_SHOP`; ``details`` are of the script."""

    at: datetime
    job: int
    does: str
    tapes: str
    details: Mapping[str, Any]

    def means(self, tape: TapeRecord) -> bool:
        """Whether ``tape`` is one of the tapes named: ``1.2``, ``1.*`` or ``*``."""
        return any(name in ("*", f"{tape.line}.*", f"{tape.line}.{tape.n}") for name in self.tapes.split())


@dataclass(frozen=True, slots=True)
class ScriptDays:
    """The open days up to the one that is shown, and how far that one has gone."""

    zone: ZoneInfo
    open_days: tuple[date, ...]
    opening: time
    now: datetime
    """The moment that is shown, on the shop's clock: the given one, or the last closing before it."""

    def moment(self, words: str) -> datetime:
        """The moment meant by ``-6 10:20``; for today moved so that it lies behind the clock."""
        back, clock = words.split()
        day = self.open_days[int(back) - 1]
        planned = datetime.combine(day, time.fromisoformat(clock), self.zone)
        if day != self.open_days[-1]:
            return planned
        opened = datetime.combine(day, self.opening, self.zone)
        share = (planned - opened) / (datetime.combine(day, SEEN_AT, self.zone) - opened)
        return opened + timedelta(minutes=int(share * ((self.now - opened) / timedelta(minutes=1))))


def days(settings: ShopSettings, now: datetime) -> ScriptDays:
    """The days the script is played on when it is seen at ``now``."""
    zone = ZoneInfo(settings.front.timezone)
    here = now.astimezone(zone)
    calendar = opening_hours.calendar(settings, here.date() - timedelta(days=_DAYS_BACK), _DAYS_BACK + 1)
    begun = [day for day in calendar.days if _opens(settings, day, zone) + timedelta(minutes=30) <= here]
    last = begun[-1]
    closes = calendar.close_of(last)
    assert closes is not None
    return ScriptDays(
        zone, tuple(begun), _opens(settings, last, zone).time(), min(here, calendar.moment(closes))
    )


def boxes(script: Path) -> tuple[bytes, ...]:
    """The inventory files of the script's jobs, in its order."""
    return tuple(json.dumps(job["box"]).encode() for job in _jobs(script))


def acts(script: Path, on: ScriptDays) -> tuple[ScriptedAct, ...]:
    """Everything that happens, in the order of time; booking is the first act of each job."""
    found = [act for number, job in enumerate(_jobs(script)) for act in _acts_of(number, job, on)]
    page = _page(script)
    for does, entries in (("shelve", page["donor"]), *((each["does"], [each]) for each in page["deck"])):
        found += [ScriptedAct(on.moment(each["at"]), THE_SHOP, does, "", each) for each in entries]
    return tuple(sorted(found, key=lambda act: act.at))


def _jobs(script: Path) -> list[dict[str, Any]]:
    jobs: list[dict[str, Any]] = _page(script)["job"]
    return jobs


def _page(script: Path) -> dict[str, Any]:
    return tomllib.loads(script.read_text(encoding="utf-8"))


def _acts_of(number: int, job: Mapping[str, Any], on: ScriptDays) -> Iterable[ScriptedAct]:
    yield ScriptedAct(on.moment(job["booked"]), number, "book", "*", {})
    for step in job["steps"]:
        act = ScriptedAct(on.moment(step["at"]), number, step["does"], step["tapes"], step)
        yield from _played(act) if act.does == "play" else [act]


def _played(act: ScriptedAct) -> Iterable[ScriptedAct]:
    """Tapes played one after another on one deck, each checked and found ready."""
    at = act.at
    shown = {name: act.details[name] for name in SHOWN if name in act.details}
    for tape, minutes in zip(act.tapes.split(), act.details["minutes"], strict=True):
        yield ScriptedAct(at, act.job, "start", tape, act.details)
        at += timedelta(minutes=minutes + 1)
        yield ScriptedAct(at, act.job, "move", tape, {"to": "being-checked", "minutes": minutes, **shown})
        yield ScriptedAct(at + timedelta(minutes=_CHECK_MINUTES), act.job, "move", tape, {"to": "ready"})
        at += timedelta(minutes=2)


def _opens(settings: ShopSettings, day: date, zone: ZoneInfo) -> datetime:
    start = min(opening.start for opening in settings.openings if opening.weekday == day.weekday())
    return datetime.combine(day, time(start // 60, start % 60), zone)
