"""One alteration for each column of every table, behind the program's back: found, or left out for a
reason."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Inspector, inspect, text

from core.store import history, row_digests
from core.store.audits import audit, row_audit
from core.store.sharing.shop_scope import ShopSession
from core.store.tables import StoredTable
from core.store.unit import Unit
from tests.core.filled_shop import fill, fill_books
from tests.support.behind import behind
from tests.support.booked import Desk

NOT_RECORDS = {"drafts", "command_answers", "change_numbers", "shop_moves", "alembic_version"}
"""Tables that `row_audit.outside` leaves out whole; of `events` and `counters` every column is looked at."""


@contextmanager
def unguarded(desk: Desk) -> Iterator[Connection]:
    """A connection that no trigger and no link holds back; all is taken back at the end."""
    with desk.shop.database.writing.connect() as connection:
        if desk.kind == "sqlite":
            for held in ("foreign_keys=OFF", "ignore_check_constraints=ON"):
                connection.connection.driver_connection.execute(f"PRAGMA {held}")  # type: ignore[union-attr]  # open
        with connection.begin() as whole:
            if desk.kind == "sqlite":
                kept = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
                for name in connection.execute(text(kept)).scalars().all():
                    connection.execute(text(f"DROP TRIGGER {name}"))
            else:
                connection.execute(text("SET LOCAL session_replication_role = replica"))
            yield connection
            whole.rollback()


def problems(connection: Connection, desk: Desk) -> tuple[str, ...]:
    """What is found wrong; on a server without what only words it better, which takes most of the time."""
    with ShopSession(connection, join_transaction_mode="create_savepoint") as session:
        unit = Unit(session, desk.clock(), "verify")
        if desk.kind == "sqlite":
            return (*_of_other_shops(connection), *audit.verify(unit))
        return (*history.verify(unit), *row_audit.differences(unit))


def _of_other_shops(connection: Connection) -> list[str]:
    """What SQLite's own check, which `verify` begins with, says of rows whose shop is another one."""
    checked = "SELECT DISTINCT shop FROM ({})".format(
        " UNION ALL ".join(f"SELECT shop FROM {name}" for name in StoredTable.metadata.tables)
    )
    if connection.execute(behind(checked)).scalars().all() == ["main"]:
        return []
    connection.exec_driver_sql("PRAGMA ignore_check_constraints=OFF")
    said = connection.exec_driver_sql("PRAGMA integrity_check").scalars().all()
    connection.exec_driver_sql("PRAGMA ignore_check_constraints=ON")
    return [each for each in said if each.startswith("CHECK constraint failed")]


def after(connection: Connection, desk: Desk, alteration: Callable[[], object]) -> tuple[str, ...]:
    """What is found after an alteration, which is taken back."""
    with connection.begin_nested() as altered:
        alteration()
        found = problems(connection, desk)
        altered.rollback()
    return found


def other(value: Any) -> Any:
    """Another value of the same kind, as short."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, (int, float)):
        return value + 100_001
    if isinstance(value, datetime):
        return value + timedelta(microseconds=1)
    if value is None or value == "":
        return "7"
    if value.endswith("Z") and value[-2].isdigit():
        return f"{value[:-2]}{(int(value[-2]) + 1) % 10}Z"
    return value[:-1] + ("7" if value[-1] != "7" else "8")


def alter(connection: Connection, there: Inspector, table: str, name: str) -> None:
    """Changes one column of the newest row, or fills it in where every row leaves it out."""
    keys = there.get_pk_constraint(table)["constrained_columns"]
    order = ", ".join(f'"{key}" DESC' for key in keys)
    newest = behind(f'SELECT * FROM "{table}" ORDER BY ("{name}" IS NULL), {order} LIMIT 1')
    row = connection.execute(newest).mappings().one()
    value = _for_nothing(there, table, name) if row[name] is None else other(row[name])
    here = " AND ".join(f'"{key}" = :at_{key}' for key in keys)
    done = connection.execute(
        behind(f'UPDATE "{table}" SET "{name}" = :new WHERE {here}'),
        {"new": value, **{f"at_{key}": row[key] for key in keys}},
    )
    assert done.rowcount == 1


def _for_nothing(there: Inspector, table: str, name: str) -> Any:
    (kind,) = (each["type"] for each in there.get_columns(table) if each["name"] == name)
    python = kind.python_type
    if python is datetime:
        return datetime.fromisoformat("2026-03-03T14:00:00+00:00")
    return True if python is bool else "7" if python is str else 7


def test_one_alteration_of_every_column_of_every_table_is_found(desk: Desk) -> None:
    fill(desk)
    fill_books(desk)
    assert desk.shop.verify() == ()
    missed, looked_at = [], 0
    with unguarded(desk) as connection:
        there = inspect(connection)
        for table in sorted(StoredTable.metadata.tables.keys() - NOT_RECORDS):
            for column in there.get_columns(table):
                name, looked_at = column["name"], looked_at + 1
                if not after(connection, desk, lambda: alter(connection, there, table, name)):  # noqa: B023  # runs at once
                    missed.append(f"{table}.{name}")
    assert missed == []
    assert looked_at > 200


def test_every_table_is_covered_or_left_out_for_a_reason(desk: Desk) -> None:
    with desk.shop.database.reading.connect() as connection:
        covered = set(row_digests.tables(connection))
        there = {each for each in inspect(connection).get_table_names() if "trigram" not in each}
    reasons = row_audit.outside()
    assert there - covered == set(reasons) - {"search"}
    assert all(len(reason) > 20 for reason in reasons.values())
    assert set(reasons) >= NOT_RECORDS


GONE = "DELETE FROM {table} WHERE {key} = (SELECT max({key}) FROM {table})"
MOVED = "UPDATE {table} SET {key} = {key} + 100001"
RENAMED = "UPDATE {table} SET {key} = {key} || 'x'"


def test_a_row_taken_away_or_moved_is_found(desk: Desk) -> None:
    fill(desk)
    fill_books(desk)
    missed = []
    with unguarded(desk) as connection:
        for table in sorted(set(row_digests.tables(connection)) | {"events"}):
            key = inspect(connection).get_pk_constraint(table)["constrained_columns"][-1]
            is_text = StoredTable.metadata.tables[table].c[key].type.python_type is str
            for each in (GONE, RENAMED if is_text else MOVED):
                statement = behind(each.format(table=table, key=key))
                if not after(connection, desk, lambda: connection.execute(statement)):  # noqa: B023  # at once
                    missed.append((table, each))
    assert missed == []


MORE = {
    "a row is added": [
        "INSERT INTO payments (shop, job_id, kind, minor, at, by) "
        "SELECT shop, job_id, kind, minor, at, by FROM payments WHERE id = 1"
    ],
    "two lines change places": [
        "UPDATE events SET seq = 99999 WHERE seq = 20",
        "UPDATE events SET seq = 20 WHERE seq = 21",
        "UPDATE events SET seq = 21 WHERE seq = 99999",
    ],
    "the end is cut off": ["DELETE FROM events WHERE seq > 60"],
    "the end is cut off and the count with it": [
        "DELETE FROM events WHERE seq > 60",
        "UPDATE counters SET last = 60 WHERE name = 'event'",
    ],
    "a line is emptied as if its customer had been erased": [
        "UPDATE events SET words = '', payload = '{}', salt = NULL WHERE seq = 20"
    ],
    "the next number would leave one out": ["UPDATE counters SET last = last + 1"],
    "the next number would be given twice": ["UPDATE counters SET last = last - 1"],
    "nothing is counted": ["DELETE FROM counters"],
}


def test_other_alterations_are_found(desk: Desk) -> None:
    fill(desk)
    missed = []
    with unguarded(desk) as connection:
        for name, statements in MORE.items():

            def alteration() -> None:
                for each in statements:  # noqa: B023  # runs at once
                    connection.execute(behind(each))

            if not after(connection, desk, alteration):
                missed.append(name)
    assert missed == []
    assert desk.shop.verify() == ()
