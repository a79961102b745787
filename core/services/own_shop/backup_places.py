"""Backups in the places of the settings: made when due, rehearsed, thinned; the owner told when none is good.

What was made and checked where stands in the history, so that it is known again on every counter. The folder
of a place is never made here: under a disk that is not plugged in it would lie on the disk of the shop.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from sqlalchemy import func, select

from core.model.backup_records import BackupFile, BackupPlace, BackupRound, BackupState, rotated
from core.model.errors import Refused, TapewrightError, Unavailable, WrongInput
from core.services import backup
from core.services.own_shop import clock_check
from core.store import current_settings, history
from core.store.columns import written
from core.store.shop_files import durable_files
from core.store.shop_files.locked_files import WrongKey
from core.store.shop_tables import EventRow
from core.store.unit import Unit
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop

KIND = "backup"
"""Of the lines of history."""
MADE, CHECKED, THINNED = "made", "checked", "thinned"
MOST_LINES = 40_000
"""So many of the newest lines are read: two backups, thinned and tried out, for more than ten years. What is
not known any more would never be thinned."""


def read(unit: Unit) -> BackupState:
    """The places of the settings with what the history tells of them; nothing is looked up on a disk."""
    settings = current_settings.read(unit)
    lines = _lines(unit) if settings.backup.places else ()
    erased = _last_erasure(unit) if lines else 0
    places = tuple(
        BackupPlace(folder, tuple(_files(lines, folder, erased))) for folder in settings.backup.places
    )
    return BackupState(settings.backup, places, settings.front.timezone)


def still_there(state: BackupState) -> BackupState:
    """Without the backups somebody took away; a folder out of reach keeps what it is said to hold."""
    places = [_still_there(place) for place in state.places]
    return replace(state, places=tuple(places))


def keep_up(shop: Shop, *, at_once: bool = False) -> BackupRound:
    """Makes what is due in every place, or ``at_once`` a backup in each; no failure holds up the next."""
    now = shop.clock()

    def make(state: BackupState, place: BackupPlace) -> Path | None:
        check_reachable(place.folder)
        return back_up(shop, place.folder) if at_once or place.is_due(state.plan, now) else None

    done = _in_every_place(shop, make)
    clock = shop.ask(clock_check.sentence)
    return replace(done, warning=still_there(shop.ask(read)).warning(now), clock=clock)


def rehearse_all(shop: Shop, key: str = "") -> BackupRound:
    """Rehearses the newest backup of every place; ``key`` unlocks locked ones."""
    return _in_every_place(shop, lambda _, place: rehearse(shop, place.folder, key).path)


def back_up(shop: Shop, folder: str) -> Path:
    """A checked copy in a place of the plan, noted in the history; then the old ones are thinned.

    Unavailable, naming the folder, when it cannot be reached or is full: then no half copy is left.
    """
    check_reachable(folder)
    line = shop.ask(history.latest)
    try:
        plan = shop.ask(current_settings.read).backup
        copy = backup.make(shop.database, Path(folder), shop.clock(), plan.lock)
    except Unavailable as failure:
        why = failure.sentence
        raise Unavailable(say("settings", "backup-not-made", folder=folder, why=why)) from failure
    words = say("settings", "backup-made-line", folder=folder, file=copy.name)
    shop.run(_note, words, MADE, folder, copy.name, line=line)
    _thin(shop, folder)
    return copy


def rehearse(shop: Shop, folder: str, key: str = "") -> BackupFile:
    """Restores the newest backup of a place into a scratch folder and checks it; the outcome is noted.

    Refused where there is none, where it is locked and ``key`` is none, and, after it was noted, when it is
    bad.
    """
    check_reachable(folder)
    place = _place(still_there(shop.ask(read)), folder)
    if not place.files:
        raise Refused(say("settings", "backup-none-here", folder=folder))
    newest, now = place.files[0], shop.clock()
    bad: WrongInput | None = None
    try:
        backup.check(newest.path, now, key)
    except WrongKey:
        raise
    except WrongInput as wrong:
        bad = wrong
    problem = "" if bad is None else bad.sentence
    key = "backup-sound-line" if bad is None else "backup-unsound-line"
    words = say("settings", key, folder=folder, file=newest.path.name, why=problem)
    shop.run(_note, words, CHECKED, folder, newest.path.name, problem)
    if bad is not None:
        raise Refused(say("settings", "backup-bad", file=newest.path, why=bad.accepted)) from bad
    return replace(newest, checked_at=now, problem="")


def check_reachable(folder: str) -> None:
    """Unavailable when the folder is not there or nothing can be written in it."""
    path = Path(folder)
    try:
        is_there = path.is_dir()
    except OSError:
        is_there = False
    if not is_there:
        raise Unavailable(say("settings", "backup-folder-gone", folder=folder))
    if not os.access(path, os.W_OK | os.X_OK):
        raise Unavailable(say("settings", "backup-folder-locked", folder=folder))


def _in_every_place(shop: Shop, do: Callable[[BackupState, BackupPlace], Path | None]) -> BackupRound:
    state = still_there(shop.ask(read))
    files: list[Path] = []
    failures: list[tuple[str, TapewrightError]] = []
    for place in state.places:
        try:
            file = do(state, place)
        except TapewrightError as failure:
            failures.append((place.folder, failure))
        else:
            files += [] if file is None else [file]
    return BackupRound(tuple(files), tuple(failures))


def remove_before_erasure(shop: Shop, folder: str) -> list[Path]:
    """Removes the backups of a place that were made before somebody was erased, once there is a good one
    that was made since; gives what was removed. Unavailable, naming the first one that stays."""
    files = _place(still_there(shop.ask(read)), folder).files
    if not any(each.is_good and not each.holds_erased for each in files):
        return []
    removed = _remove(shop, folder, [each for each in files if each.holds_erased])
    if stay := [each.path for each in files if each.holds_erased and each.path.exists()]:
        raise Unavailable(say("settings", "backup-stays", file=stay[0]))
    return removed


def _thin(shop: Shop, folder: str) -> None:
    """Removes what the plan does not keep any longer (see `rotated`)."""
    state = shop.ask(read)
    _, old = rotated(_place(still_there(state), folder).files, state.plan, ZoneInfo(state.timezone))
    _remove(shop, folder, old)


def _remove(shop: Shop, folder: str, old: Sequence[BackupFile]) -> list[Path]:
    removed = []
    for each in old:
        with suppress(OSError):
            durable_files.remove(each.path)
            removed.append(each.path)
    if removed:
        words = say("settings", "backup-thinned-line", folder=folder, n=len(removed))
        shop.run(_note, words, THINNED, folder, removed=[path.name for path in removed])
    return removed


def _place(state: BackupState, folder: str) -> BackupPlace:
    return next((each for each in state.places if each.folder == folder), BackupPlace(folder, ()))


def _still_there(place: BackupPlace) -> BackupPlace:
    try:
        check_reachable(place.folder)
    except Unavailable:
        return place
    return replace(place, files=tuple(each for each in place.files if each.path.exists()))


def _note(
    unit: Unit,
    words: str,
    deed: str,
    folder: str,
    file: str = "",
    problem: str = "",
    removed: Sequence[str] = (),
    line: int | None = None,
) -> None:
    """``line``: the last one of the history that a copy is sure to hold."""
    history.append(
        unit,
        KIND,
        words,
        deed=deed,
        folder=folder,
        file=file,
        problem=problem,
        removed=list(removed),
        clock=written(unit.now),
        line=line,
    )


def _lines(unit: Unit) -> tuple[tuple[datetime, dict[str, Any]], ...]:
    """The moment and payload of each line about backups, newest first, with its own number as ``line`` where
    it does not say which one the copy holds."""
    found = select(EventRow.seq, EventRow.at, EventRow.payload).where(EventRow.kind == KIND)
    rows = unit.session.execute(found.order_by(EventRow.seq.desc()).limit(MOST_LINES))
    lines = [(at, _with_line(json.loads(payload), seq)) for seq, at, payload in rows]
    return tuple((_by_the_clock(said, at), said) for at, said in lines)


def _with_line(said: dict[str, Any], seq: int) -> dict[str, Any]:
    return said if said.get("line") is not None else {**said, "line": seq}


def _last_erasure(unit: Unit) -> int:
    """The number of the line that tells of the last one; 0 where nobody was erased."""
    told = select(func.max(EventRow.seq)).where(EventRow.kind == history.ERASED)
    return unit.session.scalar(told) or 0


def _by_the_clock(said: dict[str, Any], at: datetime) -> datetime:
    """When it was by the clock of then: the history does not go back where that was set back."""
    return datetime.fromisoformat(said["clock"]) if "clock" in said else at


def _files(
    lines: Iterable[tuple[datetime, dict[str, Any]]], folder: str, erased: int
) -> Iterator[BackupFile]:
    checked: dict[str, tuple[datetime, str]] = {}
    for at, said in lines:
        if said["folder"] != folder:
            continue
        if said["deed"] == CHECKED:
            checked.setdefault(said["file"], (at, said["problem"]))
        elif said["deed"] == MADE:
            checked_at, problem = checked.get(said["file"], (None, ""))
            yield BackupFile(
                Path(folder, said["file"]), at, checked_at, problem, holds_erased=said["line"] < erased
            )
