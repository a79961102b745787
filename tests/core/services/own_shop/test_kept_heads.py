"""A history that was rewritten whole is told by what left the machine: a paper's head, a backup's name.

Each of these is sound in itself, which the tests make sure of first.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from sqlalchemy import Connection, select, text
from sqlalchemy.orm import Session

from core.model import serialization
from core.services import backup
from core.services.own_shop import backup_places, kept_heads, shop_document
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store import history, row_digests
from core.store.sharing.shop_scope import every_shop
from core.store.tables import EventRow
from tests.support import beginnings
from tests.support.booked import Desk
from tests.support.typed import Typist


def _begin(desk: Desk) -> None:
    desk.book()


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)


@pytest.fixture
def stick(desk: Desk, tmp_path: Path) -> Path:
    """A place with one backup, after which an order was booked and a second one was made."""
    folder = tmp_path / "stick"
    folder.mkdir()
    desk.shop.run(shop_document.set_texts, [("backup.first", str(folder))])
    backup_places.keep_up(desk.shop)
    desk.clock.go_on(hours=30)
    desk.book(name="Bea Holloway")
    backup_places.keep_up(desk.shop)
    return folder


@contextmanager
def unguarded(desk: Desk) -> Iterator[Connection]:
    """Somebody with the file, or with the server's password."""
    with desk.shop.database.writing.begin() as connection:
        if desk.kind == "sqlite":
            kept = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
            connection.execute(text("PRAGMA defer_foreign_keys=ON"))
            for name in connection.execute(text(kept)).scalars().all():
                connection.execute(text(f"DROP TRIGGER {name}"))
        else:
            connection.execute(text("SET LOCAL session_replication_role = replica"))
        with every_shop(connection):
            yield connection


def work_out_anew(desk: Desk) -> None:
    """Another name for who booked, every digest of it put right, and the chain after it."""
    with unguarded(desk) as connection:
        connection.execute(text("UPDATE jobs SET booked_by = 'Lee'"))
        digests = dict(row_digests.standing(connection, "jobs", row_digests.Salts(connection)))
        with Session(connection, join_transaction_mode="create_savepoint") as session, session.begin():
            before = history.BEGINNING
            for event in session.scalars(select(EventRow).order_by(EventRow.seq)).all():
                said = json.loads(event.payload)
                if event.kind == row_digests.KIND and "jobs" in said["rows"]:
                    said["rows"]["jobs"] = {key: digests[key] for key in said["rows"]["jobs"]}
                    event.payload = serialization.dumps(said)
                event.sealed = history.sealed(event.words, event.payload, event.salt or "")
                event.previous, event.digest = before, ""
                before = event.digest = history.digest(event)


def cut_the_end(desk: Desk) -> None:
    """The last order never came: its rows, its lines, and what counts them are gone."""
    with unguarded(desk) as connection:
        last = connection.scalar(text("SELECT min(seq) FROM events WHERE job = '000026'"))
        told = connection.scalars(
            text("SELECT payload FROM events WHERE seq >= :last AND kind = 'rows'"), {"last": last}
        )
        rows = [
            (name, key)
            for each in told.all()
            for name, keys in json.loads(each)["rows"].items()
            for key in keys
        ]
        connection.execute(text("DELETE FROM command_answers"))
        for name, key in reversed(rows):
            if name != "counters":
                (column,) = row_digests.key_names(connection, name)
                connection.execute(
                    text(f"DELETE FROM {name} WHERE CAST({column} AS TEXT) = :key"), {"key": key}
                )
        connection.execute(text("DELETE FROM events WHERE seq >= :last"), {"last": last})
        connection.execute(text("UPDATE counters SET last = :last WHERE name = 'event'"), {"last": last - 1})
        connection.execute(text("UPDATE counters SET last = 1 WHERE name = 'job'"))


@pytest.mark.parametrize("rewrite", [work_out_anew, cut_the_end])
def test_a_rewritten_history_is_told_by_the_second_place_and_by_a_paper(
    desk: Desk, stick: Path, rewrite: Callable[[Desk], None]
) -> None:
    assert kept_heads.look(desk.shop).count == 2
    assert kept_heads.look(desk.shop).problems == ()
    printed = desk.shop.ask(history.head)
    rewrite(desk)
    assert desk.shop.verify() == (), "it is sound in itself"
    (problem,) = kept_heads.look(desk.shop).problems
    assert str(stick) in problem
    assert backup.verify(desk.shop.database, desk.clock(), head=printed[:16])


def test_an_older_file_is_told_by_the_second_place(file_desk: Desk, tmp_path: Path) -> None:
    """The older one knows nothing of the backup that was made after it: the folder itself is looked at."""
    folder = tmp_path / "stick"
    folder.mkdir()
    file_desk.shop.run(shop_document.set_texts, [("backup.first", str(folder))])
    older = shutil.copy(file_desk.shop.backup(tmp_path / "by-hand"), tmp_path / "older.sqlite")
    file_desk.book()
    backup_places.keep_up(file_desk.shop)
    file_desk.shop.close()
    shutil.copy(older, file_desk.where)
    with Shop.open(file_desk.where, clock=file_desk.clock) as file_desk.shop:
        assert file_desk.shop.verify() == ()
        (problem,) = kept_heads.look(file_desk.shop).problems
    assert str(folder) in problem


def test_a_backup_that_was_put_back_with_the_programs_knowledge_is_no_forgery(
    file_desk: Desk, tmp_path: Path
) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    file_desk.shop.run(shop_document.set_texts, [("backup.first", str(folder))])
    (copy,) = backup_places.keep_up(file_desk.shop).files
    file_desk.clock.go_on(hours=30)
    file_desk.book()
    backup_places.keep_up(file_desk.shop)
    file_desk.shop.close()
    file_desk.clock.go_on(hours=1)
    restored_shop.restore(file_desk.where, copy, now=file_desk.clock(), who="Kim")
    with Shop.open(file_desk.where, clock=file_desk.clock) as file_desk.shop:
        assert kept_heads.look(file_desk.shop) == kept_heads.HeadsLookedAt(0, ())
        file_desk.clock.go_on(hours=30)
        backup_places.keep_up(file_desk.shop)
        assert kept_heads.look(file_desk.shop) == kept_heads.HeadsLookedAt(1, ())


def test_backups_of_another_shop_are_none_of_ours(file_desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "away").mkdir()
    for name in ("other-20260303-140000-0123456789abcdef.sqlite", "shop-notes.txt", "shop-20260303.sqlite"):
        (tmp_path / "away" / name).write_text("nothing of ours")
    for folder in (tmp_path / "away", tmp_path / "nowhere"):
        assert kept_heads.look(file_desk.shop, [folder]) == kept_heads.HeadsLookedAt(0, ())


def test_typed(typed: Typist, box: Path, tmp_path: Path) -> None:
    older = shutil.copy(typed.shop, tmp_path / "older.sqlite")
    assert typed("book", box).code == 0
    assert typed("backup", tmp_path / "away").code == 0
    told = typed("verify", "--backups", tmp_path / "away")
    assert (told.code, told.document["backups_compared"]) == (0, 1)
    shutil.copy(older, typed.shop)
    assert typed("verify").code == 0
    told = typed("verify", "--backups", tmp_path / "away")
    assert (told.code, told.document["sound"]) == (4, False)
    assert str(tmp_path / "away") in told.document["problems"][-1]
