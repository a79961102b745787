"""The whole shop copied from a file to a server or back, compared row by row; then the old place says so."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime
from itertools import zip_longest
from pathlib import Path

from sqlalchemy import Connection, select, text

from core.model.errors import Refused, Unavailable, WrongInput
from core.model.own_shop.settings_records import Permission
from core.services.records_door import Shop
from core.services.shop_places import moved_files
from core.services.shop_places.moved_files import MovedFiles, Named
from core.store import failures, moved_shops, permissions, schema
from core.store.engines import Database, open_database
from core.store.sharing.shop_scope import narrowed
from core.store.shop_files import dump
from core.store.silence import UPDATE_SECONDS
from core.store.tape_tables import RecordingRow
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class ShopMove:
    """What was copied. ``rows`` by table, tables without rows left out."""

    where: str
    rows: dict[str, int]
    was_there: bool
    """Whether the copy had been made before and only the old place did not say so yet."""
    files: MovedFiles = field(default_factory=lambda: MovedFiles({}))
    """Papers, photos and recordings."""


def move(source: Shop, to: str) -> ShopMove:
    """Copies all tables of ``source`` to the empty place ``to``, compares them, marks the source as moved.

    Nobody can write to the source meanwhile; afterwards nobody can open it. Its papers, photos and recordings
    are copied and compared first. The target is made in one transaction: it is complete or not there. After
    an interruption between the two the same call again finds the copy whole and marks the source. Errors:
    NotPermitted; WrongInput for the same place; Refused when the target holds anything else; Unavailable.
    """
    source.ask(permissions.check, Permission.RESTORE)
    target = open_database(to)
    try:
        if target.where == source.where:
            raise WrongInput("TO", to, say("records", "another_place_accepted"))
        with failures.named_here(source.where), _held(source.database) as there:
            with failures.named_here(target.where), target.patience.lengthened(UPDATE_SECONDS):
                before = _copied_before(there, target, source.clock())
            files = moved_files.copy(source.where, target.where, _recordings(there))
            with failures.named_here(target.where), target.patience.lengthened(UPDATE_SECONDS):
                moved = _copied(there, target, source.clock()) if before is None else before
            moved_shops.mark(there, target.where, source.clock(), source.who)
            return replace(moved, files=files)
    finally:
        target.close()


@contextmanager
def _held(database: Database) -> Iterator[Connection]:
    """The source in one transaction that keeps every other writer out, however long the copying takes."""
    with database.patience.lengthened(UPDATE_SECONDS), database.writing.begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SET LOCAL idle_in_transaction_session_timeout = 0"))
        yield connection


def _copied_before(source: Connection, target: Database, now: datetime) -> ShopMove | None:
    """The copy of a move that was interrupted before the source was marked; None for an empty place, Refused
    for one with anything else in it."""
    if target.path is not None and not target.path.exists():
        return None
    revision, holds_tables = schema.found_in(target)
    if not holds_tables:
        return None
    if revision != schema.HEAD:
        raise Refused(say("records", "place_is_taken", where=target.where))
    with target.reading.begin() as there:
        try:
            rows = _compared(source, there, now)
        except Unavailable:
            raise Refused(say("records", "place_is_taken", where=target.where)) from None
    return ShopMove(target.where, dict(rows), was_there=True)


def _copied(source: Connection, target: Database, now: datetime) -> ShopMove:
    was_there = target.path is not None and target.path.exists()
    rows: Counter[str] = Counter()

    def fill(connection: Connection) -> None:
        dump.load(connection, dump.lines(source, now))
        rows.update(_compared(source, connection, now))

    try:
        schema.make_and_fill(target, fill)
    except BaseException:
        if target.path is not None and not was_there:
            _take_away(target)
        raise
    return ShopMove(target.where, dict(rows), was_there=False)


def _recordings(source: Connection) -> set[Named]:
    """The files that stand in the records."""
    asked = select(RecordingRow.report).where(RecordingRow.struck_at.is_(None))
    rows = source.scalars(narrowed(source, asked, RecordingRow.__table__))
    return {(report.name, report.size_bytes) for report in rows}


def _compared(one: Connection, other: Connection, now: datetime) -> Counter[str]:
    """How many rows each table holds, alike in both; Unavailable with the first table that differs."""
    rows: Counter[str] = Counter()
    for here, there in zip_longest(dump.rows(one, now), dump.rows(other, now)):
        if here != there:
            raise Unavailable(say("records", "copy_differs", table=(here or there)[0]))
        rows[here[0]] += 1
    return rows


def _take_away(target: Database) -> None:
    """A file that was made for a copy that did not come about."""
    target.close()
    assert target.path is not None
    for ending in ("", "-wal", "-shm"):
        Path(f"{target.path}{ending}").unlink(missing_ok=True)
