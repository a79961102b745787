"""Two shops in one database of a server: each works as if it were alone there."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import text

from core.cli import entry
from core.model.errors import NoShopYet, Refused, WrongInput
from core.model.stations import Station
from core.services import drafts, jobs, pickups, tapes
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.services.shop_places import shop_move
from core.store import changes, engines, row_digests, row_telling, schema, search
from core.store.sharing import shop_rows
from core.store.sharing.shop_scope import every_shop
from core.store.shop_files import dump, dump_files
from core.wording.messages import say
from tests.support.booked import MORNING, Clock, Desk, command, inventory, line, opened, quoted, set_up
from tests.support.named_everywhere import erase

pytestmark = pytest.mark.postgres

SAME_NAME, SAME_PHONE = "Ada Fenwick", "(303) 555-0142"


def at(url: str, shop: str) -> str:
    return f"{url}?shop={shop}"


@pytest.fixture
def north(server_shop: str) -> Iterator[Desk]:
    set_up(at(server_shop, "north"))
    with opened(at(server_shop, "north"), "postgres") as desk:
        yield desk


@pytest.fixture
def south(server_shop: str, north: Desk) -> Iterator[Desk]:
    set_up(at(server_shop, "south"))
    with opened(at(server_shop, "south"), "postgres") as desk:
        yield desk


def rows(desk: Desk) -> list[tuple[str, str]]:
    with desk.shop.database.reading.begin() as connection:
        return list(dump.rows(connection, MORNING))


def worked(desk: Desk, name: str = SAME_NAME) -> str:
    """An order with a tape that went home; its number."""
    job = desk.book(line(count=2), name=name)
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job, codes=[job.tapes[0].code])
    desk.shop.run(drafts.keep, "counter", inventory(name=name))
    return job.number


def test_each_has_its_own_numbers_and_finds_its_own(north: Desk, south: Desk) -> None:
    assert worked(north) == worked(south, "Bea Holloway")
    assert north.book().number == south.book(name="Bea Holloway").number
    for desk, own, other in ((north, "Fenwick", "Holloway"), (south, "Holloway", "Fenwick")):
        assert len(desk.shop.ask(search.jobs, own)) == 2
        assert desk.shop.ask(search.jobs, other) == ()
        assert desk.shop.ask(search.jobs, other[1:5]) == ()
        assert {job.customer.name.split()[-1] for job in desk.shop.ask(jobs.open_jobs)} == {own}
        assert desk.shop.verify() == ()
    numbers = [tuple(desk.shop.ask(lambda unit: changes.read(unit.session))) for desk in (north, south)]
    assert numbers[0] == numbers[1]


def test_the_same_id_of_a_command_is_another_command_elsewhere(north: Desk, south: Desk) -> None:
    sent = command()
    first = north.shop.once(sent, jobs.book, quoted(north.shop))
    second = south.shop.once(sent, jobs.book, quoted(south.shop, name="Bea Holloway"))
    assert second.before is None
    assert (first.answer.customer.name, second.answer.customer.name) == (SAME_NAME, "Bea Holloway")


def test_a_tape_of_one_is_not_moved_by_the_other(north: Desk, south: Desk) -> None:
    job = north.book()
    code = job.tapes[0].code
    with pytest.raises(WrongInput):
        south.shop.run(tapes.move, code, Station.LOOKED_OVER)
    south.book()
    before = rows(north)
    south.shop.run(tapes.move, code, Station.LOOKED_OVER)
    with pytest.raises(Refused):
        south.shop.run(
            pickups.hand_back, job.number, codes=None, copies=None, signature=south.signature, paid_minor=0
        )
    assert rows(north) == before


def test_a_backup_holds_one_shop_and_its_restore_touches_no_other(
    north: Desk, south: Desk, tmp_path: Path
) -> None:
    number = worked(north, "Zoe Quill")
    worked(south, "Bea Holloway")
    copy = north.shop.backup(tmp_path)
    text = copy.read_text(encoding="utf-8")
    assert "-north-" in copy.name
    assert "Zoe Quill" in text
    assert "Holloway" not in text
    north.book(name="Cy Later")
    before, where = rows(south), north.where
    north.shop.close()
    kept = restored_shop.restore(where, copy, now=MORNING, who="counter", replace=True).kept
    assert kept is not None
    assert "Holloway" not in kept.read_text(encoding="utf-8")
    assert rows(south) == before, "restored while the other was open and at work"
    assert south.shop.verify() == ()
    south.book()
    with opened(where, "postgres") as again:
        assert again.shop.verify() == ()
        assert [each.number for each in again.shop.ask(jobs.open_jobs)] == [number]
        again.book()
        assert again.shop.verify() == ()


def test_a_shop_in_use_is_not_restored_though_others_may_be(north: Desk, south: Desk, tmp_path: Path) -> None:
    copy = north.shop.backup(tmp_path)
    with pytest.raises(Refused) as told:
        restored_shop.restore(north.where, copy, now=MORNING, who="counter")
    assert told.value.sentence == say("records", "server_in_use", where=north.shop.where, n=1)


def test_erasing_in_one_leaves_who_has_the_same_name_in_the_other(north: Desk, south: Desk) -> None:
    for desk in (north, south):
        job = desk.book(line(), name="Quill Zebedee", phone="(303) 555-0187")
        desk.bring_to(job.tapes[0], Station.READY, minutes=55.0)
        owed = desk.shop.ask(jobs.reprice, job.number).due.likely
        desk.hand_back(job, paid_minor=owed)
        desk.shop.run(drafts.keep, "counter", inventory(name="Quill Zebedee"))
    before = rows(south)
    erase(north.shop, "Quill Zebedee")
    assert not any("Zebedee" in row for _, row in rows(north))
    assert rows(south) == before
    assert north.shop.verify() == south.shop.verify() == ()


def test_a_shop_moves_in_beside_others_and_out_again(
    north: Desk, file_desk: Desk, server_shop: str, tmp_path: Path
) -> None:
    worked(north)
    worked(file_desk, "Bea Holloway")
    before, beside = rows(file_desk), rows(north)
    shop_move.move(file_desk.shop, at(server_shop, "east"))
    with opened(at(server_shop, "east"), "postgres") as east:
        assert rows(east) == before
        assert east.shop.verify() == ()
        worked(east)
        north.book()
        assert east.shop.verify() == north.shop.verify() == ()
        beside, before = rows(north), rows(east)
        shop_move.move(east.shop, str(tmp_path / "out.sqlite"))
    with Shop.open(tmp_path / "out.sqlite", clock=Clock(), create=False) as out:
        assert rows(Desk(out, Clock(), "", "sqlite")) == before
        assert out.verify() == ()
    assert rows(north) == beside
    with pytest.raises(Refused, match="was moved to"):
        Shop.open(at(server_shop, "east"), create=False)
    Shop.open(server_shop, create=False).close()


def test_a_shop_is_not_moved_onto_another(north: Desk, server_shop: str) -> None:
    with pytest.raises(Refused, match="is not empty"):
        shop_move.move(north.shop, server_shop)


def test_nobody_hears_of_the_other(north: Desk, south: Desk) -> None:
    south.shop.note_changes()
    watch = south.shop.watch()
    try:
        watch.next(lambda _: None)
        north.book()
        assert watch.next(lambda _: None) == frozenset()
        with north.shop.database.writing.begin() as connection:
            kinds = changes.read(connection)
        assert kinds
        assert (
            south.shop.database.changes.find(south.shop.ask(lambda unit: changes.read(unit.session)))
            == frozenset()
        )
    finally:
        watch.close()


def test_writers_of_two_shops_do_not_wait_for_each_other(north: Desk, south: Desk) -> None:
    with north.shop.database.writing.begin():
        south.book()


@pytest.mark.parametrize("name", ["North", "north%20side", "1st", "x" * 41, "a&shop=b"])
def test_what_is_no_name_is_refused(server_shop: str, name: str) -> None:
    with pytest.raises(WrongInput) as told:
        Shop.open(at(server_shop, name))
    assert say("records", "shop_name_accepted", n=40) in told.value.sentence


def test_a_shop_nobody_began_is_not_there(server_shop: str, capsys: pytest.CaptureFixture[str]) -> None:
    where = at(server_shop, "nroth")
    with pytest.raises(NoShopYet, match="shop=nroth"):
        Shop.open(where, create=False)
    assert entry.run(["--shop", where, "promises"]) != 0
    assert "shop=nroth" in capsys.readouterr().err


def test_a_new_server_holds_the_shop_that_was_begun_and_no_other(postgres_url: str) -> None:
    Shop.open(at(postgres_url, "north")).close()
    with pytest.raises(NoShopYet):
        Shop.open(postgres_url, create=False)
    Shop.open(at(postgres_url, "north"), create=False).close()


def test_by_command_line(server_shop: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    where = at(server_shop, "north")
    set_up(where)
    assert entry.run(["--shop", where, "backup", str(tmp_path), "--json"]) == 0
    copy = json.loads(capsys.readouterr().out)["file"]
    assert "-north-" in copy
    assert entry.run(["--shop", where, "verify", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sound"] is True


# --- what is done to the tables themselves -----------------------------------------------


def test_rows_that_a_migration_changes_are_told_to_each_history(north: Desk, south: Desk) -> None:
    for desk in (north, south):
        worked(desk)
    with north.shop.database.writing.begin() as connection, every_shop(connection):
        row_telling.tell(connection, row_digests.tables(connection))
    assert north.shop.verify() == south.shop.verify() == ()


def test_every_shop_is_copied_before_the_tables_are_changed(
    north: Desk, south: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    worked(north, "Zoe Quill")
    worked(south, "Bea Holloway")
    kept = dump_files.keep_server(south.shop.database, "before", MORNING)
    copies = {each.name: each.read_text(encoding="utf-8") for each in tmp_path.rglob("*.jsonl")}
    assert len(copies) == 3
    assert kept.name.startswith("before-south-")
    assert ["Holloway" in copies[each] for each in sorted(copies)] == [False, False, True]
    assert [dump.checked(each)[0] for each in tmp_path.rglob("*.jsonl")] == [schema.HEAD] * 3


def test_a_guard_lets_a_restore_of_one_shop_take_no_row_of_another(north: Desk, south: Desk) -> None:
    for desk in (north, south):
        worked(desk)
    before = rows(south)
    database = engines.open_database(north.where)
    try:
        with database.writing.begin() as connection:
            shop_rows.remove(connection)
            connection.execute(text("SELECT set_config('tapewright.replaced', 'north', true)"))
            with pytest.raises(Exception, match="append-only"):
                connection.execute(text("DELETE FROM events").execution_options(every_shop=True))
    finally:
        database.close()
    assert rows(south) == before
