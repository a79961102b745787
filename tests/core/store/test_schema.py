"""The tables of a shop: made new, recognised, brought up to date with a copy kept, or left alone."""

from __future__ import annotations

import dataclasses
import subprocess
import sys
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.operations import Operations
from alembic.script import ScriptDirectory
from sqlalchemy import Column, Connection, String, text
from sqlalchemy.exc import IntegrityError

from core.model.errors import Refused, WrongInput
from core.services import jobs
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store import engines, schema
from core.store.columns import Serialized
from core.store.shop_files import dump
from core.store.sqlite_library import sqlite_module
from core.store.tables import StoredTable
from core.store.unit import Unit
from tests.core.store.sharing.kept_keys import as_kept
from tests.support.booked import Desk
from tests.support.older import as_kept_before

OPEN = """
import sys
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store import engines
engines.BUSY_SECONDS = 50  # a busy machine may take longer for the tables than a till waits
Shop.open(sys.argv[1]).close()
"""


def test_migrations_make_the_tables_the_program_knows(desk: Desk) -> None:
    def is_mapped(thing: object, name: str | None, *_: object) -> bool:
        return name is None or ("trigram" not in name and name != "alembic_version")

    with desk.shop.database.reading.connect() as connection:
        options = {"include_object": is_mapped, "compare_type": True, "compare_server_default": True}
        context = MigrationContext.configure(connection, opts=options)
        assert compare_metadata(context, as_kept(desk.kind)) == []


def test_every_constraint_has_a_name() -> None:
    for table in StoredTable.metadata.tables.values():
        assert all(each.name for each in table.constraints | table.indexes), table.name


def test_the_newest_migration_is_the_one_the_program_expects() -> None:
    scripts = ScriptDirectory(str(Path(schema.__file__).with_name("migrations")))
    assert scripts.get_heads() == [schema.HEAD]


def test_a_shop_of_today_opens_without_the_migration_library(empty_file: Path) -> None:
    look = f"{OPEN}print('alembic' in sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", look, str(empty_file)], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"


def test_two_tills_may_make_the_same_shop(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite"
    tills = [subprocess.Popen([sys.executable, "-c", OPEN, str(path)]) for _ in range(3)]
    assert [till.wait(120) for till in tills] == [0, 0, 0]
    with Shop.open(path, create=False) as shop:
        assert shop.verify() == ()


def test_an_old_shop_is_copied_before_it_is_changed(monkeypatch: pytest.MonkeyPatch, file_desk: Desk) -> None:
    job = file_desk.book()
    changed: list[object] = []
    monkeypatch.setattr(schema, "HEAD", "9998")
    monkeypatch.setattr(schema, "_upgrade", changed.append)
    kept = schema.bring_up(file_desk.shop.database, create=False, now=file_desk.clock())
    assert changed == [file_desk.shop.database]
    assert kept is not None
    assert kept.name == "shop-before-9998-20260303-140000.sqlite"
    monkeypatch.undo()
    with Shop.open(kept) as shop:
        assert shop.ask(jobs.get, job.number) == job


@pytest.mark.postgres
@pytest.mark.parametrize("desk", ["postgres"], indirect=True)
def test_an_old_server_is_copied_before_it_is_changed(
    server_shop: str, desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a dump in the user's data folder, of the tables as they were; it can be put back."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    job = desk.book()
    server = engines.open_database(server_shop)
    with server.writing.begin() as connection:
        connection.execute(text("DROP SCHEMA public CASCADE"))
        connection.execute(text("CREATE SCHEMA public"))
    server.close()
    as_kept_before(desk, server_shop, "0001")
    Shop.open(server_shop, clock=desk.clock, create=False).close()
    (copy,) = (tmp_path / "data").rglob(f"before-{schema.HEAD}-*.jsonl")
    assert dump.checked(copy)[0] == "0001"
    restored_shop.restore(tmp_path / "again.sqlite", copy, now=desk.clock(), who="counter")
    with Shop.open(tmp_path / "again.sqlite", create=False) as again:
        assert again.verify() == ()
        assert [each.number for each in again.ask(jobs.open_jobs)] == [job.number]


def test_a_table_is_rebuilt_without_losing_what_points_to_it(file_desk: Desk) -> None:
    def rebuild(connection: Connection) -> None:
        operations = Operations(MigrationContext.configure(connection))
        with operations.batch_alter_table("jobs", recreate="always") as jobs_table:
            jobs_table.add_column(Column("colour", String(20), nullable=True))

    job = file_desk.book()
    with file_desk.shop.database.writing.connect() as connection, connection.begin() as linked:
        with pytest.raises(IntegrityError):
            rebuild(connection)
        linked.rollback()
    with schema._unlinked(file_desk.shop.database) as connection, connection.begin():
        rebuild(connection)
    assert file_desk.shop.ask(jobs.get, job.number) == job
    assert file_desk.shop.verify() == ()
    with file_desk.shop.database.writing.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1


def test_a_shop_of_a_newer_program_is_left_alone(desk: Desk) -> None:
    def age(unit: Unit) -> None:
        unit.session.execute(text("UPDATE alembic_version SET version_num = '9999'"))

    desk.shop.run(age)
    with pytest.raises(Refused, match="newer Tapewright"):
        Shop.open(desk.where)


def test_tables_of_another_program_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "other.sqlite"
    connection = sqlite_module().connect(str(path))
    connection.execute("CREATE TABLE recipes (name TEXT)")
    connection.close()
    with pytest.raises(WrongInput, match="not made by Tapewright"):
        Shop.open(path)


def test_records_that_are_kept_as_text_are_frozen_to_the_bottom() -> None:
    """What a text holds is read once and had by many (`columns`): nobody may be able to change it."""
    seen: set[Any] = set()
    for kept in StoredTable.metadata.tables.values():
        for column in kept.columns:
            if isinstance(column.type, Serialized):
                _walk(column.type.kind, seen)
    assert len(seen) > 60
    loose = [kind for kind in seen if dataclasses.is_dataclass(kind) and not _is_frozen(kind)]
    assert [*loose, *(kind for kind in seen if (get_origin(kind) or kind) in (dict, list, set))] == []


def _walk(kind: Any, seen: set[Any]) -> None:
    if kind in seen:
        return
    seen.add(kind)
    inner = get_type_hints(kind).values() if dataclasses.is_dataclass(kind) else get_args(kind)
    for each in inner:
        _walk(each, seen)


def _is_frozen(kind: Any) -> bool:
    return bool(kind.__dataclass_params__.frozen)
