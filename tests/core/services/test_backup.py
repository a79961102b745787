"""A copy is made while the shop works, checked before it is trusted, and never replaces the only one."""

from __future__ import annotations

import hashlib
import json
import shutil
import threading
from collections.abc import Iterable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import text

from core.model.agreement_records import Consent
from core.model.errors import Refused, Unavailable, WrongInput
from core.model.job_records import Job
from core.model.stations import Station
from core.services import backup, decks, jobs
from core.services.agreement import agreements
from core.services.own_shop import settings_versions
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store import engines, history, schema
from core.store.engines import Database
from core.store.shop_files import dump_files, file_copies
from core.store.sqlite_library import sqlite_module
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before

FIRST_TABLES = (
    *("counters", "settings", "drafts", "customers", "jobs", "tapes", "splices", "copies"),
    *("payments", "agreements", "pickups", "handed_back", "events"),
)
"""What revision 0001 had."""


def _day(desk: Desk) -> None:
    """A shop with something in every table."""
    job = desk.book(line(count=2), name="Łucja Núñez")
    desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code], paid_minor=100)
    desk.shop.run(agreements.agree, job.number, "a day later is fine", Consent("Łucja Núñez"))


def test_a_copy_is_named_after_the_moment_and_overwrites_nothing(desk: Desk, tmp_path: Path) -> None:
    _day(desk)
    folder = tmp_path / "safe" / "place"
    first, second = desk.shop.backup(folder), desk.shop.backup(folder)
    assert "20260303-140000" in first.name
    assert first != second
    assert sorted(folder.iterdir()) == sorted([first, second])


def test_a_copy_holds_everything_and_comes_back_equal(desk: Desk, tmp_path: Path) -> None:
    _day(desk)
    before = desk.shop.ask(jobs.open_jobs)
    copy = desk.shop.backup(tmp_path / "copies")
    desk.book()
    desk.shop.close()
    kept = restored_shop.restore(desk.where, copy, now=desk.clock(), who="counter", replace=True).kept
    with Shop.open(desk.where, clock=desk.clock) as again:
        assert again.ask(jobs.open_jobs) == before
        assert again.verify() == ()
        desk.shop = again
        assert desk.book().number == "000034"  # what was given out after the copy is not given again
    assert kept is not None


def test_what_a_restore_replaces_is_kept_beside_it(desk: Desk, tmp_path: Path) -> None:
    _day(desk)
    copy = desk.shop.backup(tmp_path / "copies")
    later = desk.book()
    desk.shop.close()
    kept = restored_shop.restore(desk.where, copy, now=desk.clock(), who="counter", replace=True).kept
    assert kept is not None
    assert "before-restore-20260303-140000" in kept.name
    restored_shop.restore(tmp_path / "looked-at.sqlite", kept, now=desk.clock(), who="counter")
    with Shop.open(tmp_path / "looked-at.sqlite") as old:
        assert old.ask(jobs.get, later.number) == later


def test_a_copy_moves_a_shop_from_one_kind_of_database_to_another(desk: Desk, tmp_path: Path) -> None:
    _day(desk)
    before = desk.shop.ask(jobs.open_jobs)
    copy = desk.shop.backup(tmp_path / "copies")
    other = tmp_path / "elsewhere.sqlite"
    assert restored_shop.restore(other, copy, now=desk.clock(), who="counter").kept is None
    with Shop.open(other, create=False) as moved:
        assert moved.ask(jobs.open_jobs) == before
        assert moved.verify() == ()


def test_a_copy_is_whole_although_others_go_on_writing(desk: Desk, tmp_path: Path) -> None:
    stop = threading.Event()

    def go_on_booking() -> None:
        while not stop.is_set():
            desk.book()

    desk.book()
    thread = threading.Thread(target=go_on_booking)
    thread.start()
    try:
        copies = [desk.shop.backup(tmp_path / "copies") for _ in range(4)]
    finally:
        stop.set()
        thread.join()
    for count, copy in enumerate(copies):
        restored_shop.restore(tmp_path / f"{count}.sqlite", copy, now=desk.clock(), who="counter")
        with Shop.open(tmp_path / f"{count}.sqlite") as shop:
            assert shop.verify() == ()
            assert shop.ask(history.latest) > 0


# --- what is no backup -------------------------------------------------------------------


def _restore_refused(desk: Desk, file: Path, why: str) -> None:
    before = desk.shop.ask(jobs.open_jobs)
    desk.shop.close()
    with pytest.raises(WrongInput, match=why) as told:
        restored_shop.restore(desk.where, file, now=desk.clock(), who="counter")
    assert str(file) in told.value.sentence or "backup" in told.value.sentence
    with Shop.open(desk.where, create=False) as shop:
        assert shop.ask(jobs.open_jobs) == before
    if desk.kind == "sqlite":
        assert [each for each in Path(desk.where).parent.iterdir() if "before-restore" in each.name] == []


def test_a_file_that_is_no_backup_changes_nothing(desk: Desk, tmp_path: Path) -> None:
    desk.book()
    other = tmp_path / "holiday.jpg"
    other.write_bytes(b"\xff\xd8 no shop at all\n" * 20)
    _restore_refused(desk, other, "backup")


def test_a_backup_that_is_not_there_changes_nothing(desk: Desk, tmp_path: Path) -> None:
    _restore_refused(desk, tmp_path / "gone.sqlite", "backup")


def test_a_damaged_copy_changes_nothing(file_desk: Desk, tmp_path: Path) -> None:
    for _ in range(5):
        file_desk.book(line(count=5))
    copy = file_desk.shop.backup(tmp_path)
    content = bytearray(copy.read_bytes())
    content[4096 * 5 : 4096 * 6] = b"\xa5" * 4096
    copy.write_bytes(content)
    _restore_refused(file_desk, copy, "damaged|not sound")


def test_a_copy_in_which_a_figure_was_altered_changes_nothing(file_desk: Desk, tmp_path: Path) -> None:
    """SQLite's own check calls it sound."""
    job = file_desk.book()
    file_desk.bring_to(job.tapes[0], Station.READY)
    copy = file_desk.shop.backup(tmp_path)
    connection = sqlite_module().connect(str(copy))
    connection.execute("UPDATE tapes SET station = 'ready'")
    connection.commit()
    connection.close()
    assert file_copies.problems_of_file(copy) == []
    _restore_refused(file_desk, copy, "history says")


@pytest.mark.postgres
def test_a_dump_that_was_altered_or_cut_short_changes_nothing(desk: Desk, tmp_path: Path) -> None:
    if desk.kind == "sqlite":
        database_file = engines.open_database(desk.where)
        desk.book()
        dump = _dumped(database_file, tmp_path / "shop.jsonl", desk)
        database_file.close()
    else:
        desk.book()
        dump = desk.shop.backup(tmp_path)
    lines = dump.read_text().splitlines(keepends=True)
    altered, short = tmp_path / "altered.jsonl", tmp_path / "short.jsonl"
    altered.write_text("".join(lines).replace("Ada", "Eve"))
    short.write_text("".join(lines[:-2]))
    with pytest.raises(WrongInput, match="don't add up"):
        restored_shop.restore(desk.where, altered, now=desk.clock(), who="counter")
    _restore_refused(desk, short, "don't add up")


def _dumped(database: Database, target: Path, desk: Desk) -> Path:
    with database.reading.connect() as connection:
        return dump_files.write(connection, target, desk.clock())


def test_a_dump_of_an_older_program_is_brought_up_to_date(desk: Desk, tmp_path: Path) -> None:
    _day(desk)
    before = desk.shop.ask(jobs.open_jobs)
    as_kept_before(desk, str(tmp_path / "older.sqlite"), "0001")
    dump = _dump_of(tmp_path / "older.sqlite", tmp_path / "shop.jsonl")
    desk.shop.close()
    restored_shop.restore(
        desk.where, dump, now=desk.clock(), who="counter", replace=True, another=True
    )  # an older program's history begins anew
    with Shop.open(desk.where, create=False) as shop:
        assert shop.ask(jobs.open_jobs) == tuple(_before_deliveries(each) for each in before)


def _before_deliveries(job: Job) -> Job:
    """As it reads where nobody had kept yet which copy a delivery became."""
    return replace(job, copies=tuple(replace(each, delivery=None) for each in job.copies))


def test_a_dump_of_a_newer_program_is_left_alone(desk: Desk, tmp_path: Path) -> None:
    source = engines.open_database(desk.where)
    dump = _dumped(source, tmp_path / "shop.jsonl", desk)
    source.close()
    _age(dump, "9999", FIRST_TABLES)
    desk.shop.close()
    with pytest.raises(Refused, match="newer Tapewright"):
        restored_shop.restore(desk.where, dump, now=desk.clock(), who="counter")


def _dump_of(older: Path, dump: Path) -> Path:
    """What a program of the first version would have written of an SQLite file of its own."""
    with closing(sqlite_module().connect(str(older))) as shop:
        shop.row_factory = sqlite_module().Row
        rows = [
            json.dumps({"table": table, "row": dict(row)}) + "\n"
            for table in FIRST_TABLES
            for row in shop.execute(f'SELECT * FROM "{table}"')
        ]
    body = "".join([json.dumps({"tapewright": "0001"}) + "\n", *rows])
    last = {"rows": len(rows), "sha256": hashlib.sha256(body.encode()).hexdigest()}
    dump.write_text(body + json.dumps(last) + "\n", encoding="utf-8")
    return dump


def _age(dump: Path, revision: str, tables: Iterable[str]) -> None:
    """Makes a dump what a program of ``revision`` would have written."""
    _, *rows, _ = dump.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [row for row in rows if json.loads(row)["table"] in tables]
    body = "".join([json.dumps({"tapewright": revision}) + "\n", *kept])
    last = {"rows": len(kept), "sha256": hashlib.sha256(body.encode()).hexdigest()}
    dump.write_text(body + json.dumps(last) + "\n", encoding="utf-8")


def test_a_dump_is_lines_of_json_that_say_what_they_are(desk: Desk, tmp_path: Path) -> None:
    _day(desk)
    source = engines.open_database(desk.where)
    dump = _dumped(source, tmp_path / "shop.jsonl", desk)
    source.close()
    first, *rows, last = [json.loads(each) for each in dump.read_text(encoding="utf-8").splitlines()]
    assert first == {"tapewright": schema.HEAD, "made_at": "2026-03-03T14:00:00.000000Z"}
    assert last["rows"] == len(rows)
    assert {"jobs", "tapes", "events", "pickups"} <= {each["table"] for each in rows}


# --- in use, damaged, full ---------------------------------------------------------------


def test_a_shop_in_use_is_not_replaced_under_its_users(file_desk: Desk, tmp_path: Path) -> None:
    job = file_desk.book()
    copy = file_desk.shop.backup(tmp_path)
    with pytest.raises(Unavailable, match="Close it there"):
        restored_shop.restore(file_desk.where, copy, now=file_desk.clock(), who="counter")
    assert file_desk.shop.ask(jobs.get, job.number) == job


def test_a_shop_that_is_damaged_is_replaced_and_kept(file_desk: Desk, tmp_path: Path) -> None:
    job = file_desk.book()
    copy = file_desk.shop.backup(tmp_path)
    file_desk.shop.close()
    Path(file_desk.where).write_bytes(b"nothing that could be read" * 500)
    kept = restored_shop.restore(file_desk.where, copy, now=file_desk.clock(), who="counter").kept
    assert kept is not None
    assert kept.read_bytes().startswith(b"nothing")
    with Shop.open(file_desk.where, create=False) as shop:
        assert shop.ask(jobs.get, job.number) == job


def test_damage_shows_when_the_records_are_verified(file_desk: Desk, tmp_path: Path) -> None:
    for _ in range(5):
        file_desk.book(line(count=5))
    file_desk.shop.close()
    path = Path(shutil.copy(file_desk.where, tmp_path / "damaged.sqlite"))
    content = bytearray(path.read_bytes())
    content[4096 * 5 : 4096 * 6] = b"\xa5" * 4096
    path.write_bytes(content)
    assert backup.verify(engines.open_database(path), file_desk.clock())


def test_a_link_to_nowhere_shows_when_the_records_are_verified(file_desk: Desk) -> None:
    file_desk.book()
    with file_desk.shop.database.writing.connect() as connection:
        raw = connection.connection.driver_connection
        assert raw is not None
        raw.execute("PRAGMA foreign_keys=OFF")
        connection.execute(text("UPDATE tapes SET job_id = 77 WHERE id = 1"))
        connection.commit()
    assert "points to a row of jobs that is not there" in file_desk.shop.verify()[0]


def test_a_folder_that_cannot_be_written_is_named(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Unavailable, match=r"can't be used|can't be opened"):
        desk.shop.backup(tmp_path / "file")


def test_practice_and_real_records_never_take_each_others_place(desk: Desk, tmp_path: Path) -> None:
    with Shop.open(tmp_path / "practice.sqlite", clock=desk.clock) as practice:
        practice.run(settings_versions.make_practice, practice.ask(decks.settings))
        invented = practice.backup(tmp_path / "invented")
    real = desk.shop.backup(tmp_path / "copies")
    before = desk.shop.ask(jobs.open_jobs), desk.shop.ask(decks.settings)
    desk.shop.close()
    for where, copy in ((desk.where, invented), (tmp_path / "practice.sqlite", real)):
        with pytest.raises(Refused, match="nothing was changed"):
            restored_shop.restore(where, copy, now=desk.clock(), who="counter")
    with Shop.open(desk.where, clock=desk.clock) as again:
        assert (again.ask(jobs.open_jobs), again.ask(decks.settings)) == before
        desk.shop = again
    again = restored_shop.restore(tmp_path / "practice.sqlite", invented, now=desk.clock(), who="counter")
    assert again.kept is not None
    assert (
        restored_shop.restore(tmp_path / "elsewhere.sqlite", invented, now=desk.clock(), who="counter").kept
        is None
    )
