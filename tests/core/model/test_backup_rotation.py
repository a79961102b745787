"""Which backups stay: the newest, and the last of each day, week and year, in the days of the shop."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as some

from core.model.backup_records import BackupFile, gone_by, rotated
from core.model.own_shop.settings_records import BackupPlan

DENVER = ZoneInfo("America/Denver")
NOW = datetime(2026, 3, 12, 22, 0, tzinfo=UTC)
PLAN = BackupPlan(keep=4, keep_days=7, keep_weeks=5, keep_years=3)


def _files(*hours: float) -> list[BackupFile]:
    """Backups made so many hours ago, newest first."""
    return [BackupFile(Path(f"{hour}"), NOW - timedelta(hours=hour)) for hour in sorted(hours)]


def _kept_hours(files: list[BackupFile], plan: BackupPlan = PLAN) -> list[float]:
    stay, go = rotated(files, plan, DENVER)
    assert sorted([*stay, *go], key=lambda each: each.made_at, reverse=True) == files
    return [float(each.path.name) for each in stay]


def test_hours_thin_out_to_days_weeks_and_years() -> None:
    hourly = _files(*range(24 * 800))
    kept = _kept_hours(hourly)
    assert kept[:4] == [0, 1, 2, 3]
    days = {(NOW - timedelta(hours=hour)).astimezone(DENVER).date() for hour in kept}
    weeks, years = {day.isocalendar()[:2] for day in days}, {day.year for day in days}
    assert len(kept) == 4 - 1 + 7 + 3 + 2  # weeks 1 and 2 lie in the days, year 1 in the weeks
    assert len(weeks) >= 5
    assert years == {2026, 2025, 2024}


def test_a_day_is_one_of_the_shop_and_its_last_backup_stays() -> None:
    """At 06:00 UTC it is eleven at night in Denver."""
    plan = replace(PLAN, keep=2, keep_weeks=0, keep_years=0)
    late, noon = datetime(2026, 3, 10, 5, 30, tzinfo=UTC), datetime(2026, 3, 9, 19, 0, tzinfo=UTC)
    files = [*_files(0, 1), BackupFile(Path("late"), late), BackupFile(Path("noon"), noon)]
    stay, go = rotated(files, plan, DENVER)
    assert [each.path.name for each in go] == ["noon"]
    assert len(stay) == 3


def test_a_bad_one_stands_for_no_day_and_the_last_good_one_outlives_the_plan() -> None:
    plan = BackupPlan(keep=2, keep_days=0, keep_weeks=0, keep_years=0)
    files = _files(0, 30, 60, 90)
    bad = [replace(each, problem="torn") for each in files[:3]]
    assert _kept_hours([*bad, files[3]], plan) == [0, 30, 90]
    tried = replace(files[3], checked_at=NOW)
    assert _kept_hours([*files[:3], tried], plan) == [0, 30, 90]


@given(some.lists(some.floats(0, 20_000), unique=True, max_size=60), some.integers(2, 9))
def test_what_stays_today_is_never_more_than_the_plan_says(hours: list[float], keep: int) -> None:
    plan = replace(PLAN, keep=keep)
    kept = _kept_hours(_files(*hours), plan)
    assert len(kept) <= keep + 7 + 5 + 3
    assert kept[:keep] == sorted(hours)[:keep]


@settings(max_examples=25)
@given(
    some.lists(some.integers(0, 1_200), unique=True, min_size=1, max_size=12),
    some.sampled_from([6, 24, 30, 60]),
    some.integers(2, 5),
)
def test_the_day_told_is_the_day_the_last_one_goes(hours: list[int], every: int, keep: int) -> None:
    """Against the rotation itself, backup after backup; a week and an interval too late at most."""
    plan = BackupPlan(keep=keep, keep_days=4, keep_weeks=3, keep_years=0, every_hours=every)
    before = _files(*hours)
    told = gone_by(before, plan, DENVER, NOW)
    assert told is not None
    kept, now = tuple(before), max(NOW, before[0].made_at + timedelta(hours=every))
    while set(before) & set(kept):
        kept, _ = rotated([BackupFile(Path(f"{now}"), now), *kept], plan, DENVER)
        went, now = now, now + timedelta(hours=every)
    assert went <= told <= went + timedelta(days=7, hours=2 * every)


def test_where_there_is_none_no_day_is_told() -> None:
    assert gone_by([], PLAN, DENVER, NOW) is None


def test_years_are_told_as_years() -> None:
    """The last backup of 2025 stays until there are three newer years: 2026, 2027, 2028."""
    made = BackupFile(Path("old"), datetime(2025, 12, 31, 20, 0, tzinfo=UTC))
    told = gone_by([made], replace(PLAN, keep=2), DENVER, NOW)
    assert told is not None
    assert told.year in (2028, 2029)
    later = BackupFile(Path("today"), NOW)
    told = gone_by([later], replace(PLAN, keep=2, keep_days=0, keep_weeks=0), DENVER, NOW)
    assert told == NOW + timedelta(days=2), "tomorrow's takes its place in the year"
