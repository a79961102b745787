"""Backups as they are known: the files in each place, the last good one, what the owner is told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta, tzinfo
from pathlib import Path
from zoneinfo import ZoneInfo

from core.model.errors import TapewrightError
from core.model.own_shop.settings_records import BackupPlan
from core.wording import locale_figures
from core.wording.messages import say

LOCKED_ENDING = ".age"
"""Of the names of backups that were locked with a key."""


@dataclass(frozen=True, slots=True)
class BackupFile:
    """One backup: when it was made, when it was last rehearsed, and what was wrong then."""

    path: Path
    made_at: datetime
    checked_at: datetime | None = None
    problem: str = ""
    holds_erased: bool = field(default=False, compare=False)
    """It was made before somebody was erased, and may hold them still."""

    @property
    def is_locked(self) -> bool:
        """Whoever tries it out needs its key."""
        return self.path.suffix == LOCKED_ENDING

    @property
    def is_good(self) -> bool:
        """It was sound when it was made, and was not found bad since."""
        return not self.problem


@dataclass(frozen=True, slots=True)
class BackupPlace:
    """A folder and the backups made in it, newest first."""

    folder: str
    files: tuple[BackupFile, ...]

    @property
    def last_good(self) -> BackupFile | None:
        return next((each for each in self.files if each.is_good), None)

    @property
    def last_checked(self) -> BackupFile | None:
        """The backup that was rehearsed last, good or bad."""
        found = [(each.checked_at, each) for each in self.files if each.checked_at is not None]
        return max(found, key=lambda one: one[0])[1] if found else None

    def is_due(self, plan: BackupPlan, now: datetime) -> bool:
        """Whether the last good one is as old as the plan allows, or of a day still to come."""
        last = self.last_good
        return last is None or not timedelta(0) <= now - last.made_at < timedelta(hours=plan.every_hours)


def rotated(
    files: Sequence[BackupFile], plan: BackupPlan, zone: tzinfo
) -> tuple[tuple[BackupFile, ...], tuple[BackupFile, ...]]:
    """Of backups, newest first, those that stay and those that go.

    The newest stay whatever they are; of the good ones also the last of each day, week and year of the shop,
    as far back as the plan says. The last good one never goes, nor the last that was tried out and found
    good, save where it is from before an erasure: nobody may be kept for as long as nothing is tried out.
    """
    good = [each for each in files if each.is_good]
    tried = [each for each in good if each.checked_at is not None and not each.holds_erased]
    stay = {*files[: plan.keep], *good[:1], *tried[:1]}
    for count, period, _ in _periods(plan):
        newest: dict[object, BackupFile] = {}
        for each in good:
            newest.setdefault(period(each.made_at.astimezone(zone)), each)
        stay.update(list(newest.values())[:count])
    return tuple(each for each in files if each in stay), tuple(each for each in files if each not in stay)


def gone_by(files: Sequence[BackupFile], plan: BackupPlan, zone: tzinfo, now: datetime) -> datetime | None:
    """By when the last of these backups, newest first, is thinned out; None where there are none.

    It holds if from now on a backup is made as often as the plan says, and is late by one period at most.
    """
    if not files:
        return None
    every = timedelta(hours=plan.every_hours)
    following = max(now, files[0].made_at + every)
    longest = (plan.keep - 1) * every
    known = [each.made_at.astimezone(zone) for each in files if each.is_good]
    for count, period, length in _periods(plan):
        passed = list(dict.fromkeys(map(period, known)))
        begun = period(following.astimezone(zone))
        past = [each for each in passed[:count] if each != begun]
        if past:
            left = count - passed.index(past[0]) - (begun not in passed)
            longest = max(longest, left * max(length, every) + (every if left else timedelta(0)))
    return following + longest


def _periods(
    plan: BackupPlan,
) -> tuple[tuple[int, Callable[[datetime], object], timedelta], ...]:
    """Of how many days, weeks and years the last backup stays, and how long each is at most."""
    return (
        (plan.keep_days, _day, timedelta(days=1)),
        (plan.keep_weeks, _week, timedelta(weeks=1)),
        (plan.keep_years, _year, timedelta(days=366)),
    )


def _day(moment: datetime) -> object:
    return moment.date()


def _week(moment: datetime) -> object:
    """Weeks of ISO 8601, which begin on Monday."""
    return moment.isocalendar()[:2]


def _year(moment: datetime) -> object:
    return moment.year


@dataclass(frozen=True, slots=True)
class BackupState:
    """Every place of the plan with its backups."""

    plan: BackupPlan
    places: tuple[BackupPlace, ...]
    timezone: str

    @property
    def last_good(self) -> BackupFile | None:
        """The newest good one of all places."""
        found = [place.last_good for place in self.places]
        return max((each for each in found if each is not None), key=lambda one: one.made_at, default=None)

    def gone_by(self, now: datetime) -> datetime | None:
        """By when the last of the backups there are now is thinned out (see `gone_by`); None: no backups."""
        zone = ZoneInfo(self.timezone)
        ends = [gone_by(place.files, self.plan, zone, now) for place in self.places]
        return max((each for each in ends if each is not None), default=None)

    def warning(self, now: datetime) -> str:
        """What the owner is told when the last good one is too old; nothing without a place."""
        if not self.places:
            return ""
        last = self.last_good
        if last is None:
            return say("settings", "backup-never")
        if now - last.made_at <= timedelta(hours=self.plan.told_after_hours):
            return ""
        return say("settings", "backup-too-old", when=locale_figures.moment(last.made_at, self.timezone))


@dataclass(frozen=True, slots=True)
class BackupRound:
    """What came of going through the places once."""

    files: tuple[Path, ...]
    """Backups that were made, or tried out."""
    failures: tuple[tuple[str, TapewrightError], ...]
    """Folders where it failed, and why."""
    warning: str = ""
    """Nothing while a good backup is young enough."""
    clock: str = ""
    """Nothing while the clock of this computer is right."""
