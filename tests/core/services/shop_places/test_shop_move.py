"""A shop moved from a file to a server and back: all of it or nothing; and the old place says so."""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

import pytest

from core.cli import entry
from core.model.errors import NoShopYet, Refused, Unavailable, WrongInput
from core.model.stations import Station
from core.services import decks, drafts, jobs
from core.services.records_door import Shop
from core.services.shop_places import shop_move
from core.store import moved_shops
from core.store.shop_files import dump
from tests.support.booked import MORNING, Clock, Desk, inventory, line

pytestmark = pytest.mark.postgres


@pytest.fixture
def place(desk: Desk, postgres_url: str, tmp_path: Path) -> str:
    """An empty place of the other kind."""
    return postgres_url if desk.kind == "sqlite" else str(tmp_path / "new" / "shop.sqlite")


@pytest.fixture
def worked(desk: Desk) -> Desk:
    """A shop with something in most tables."""
    job = desk.book(line(count=2), name="Zoë Łukasiewicz")
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job, codes=[job.tapes[0].code])
    desk.shop.run(decks.broke_down, desk.shop.ask(decks.settings).decks[0].name, "belt")
    desk.shop.run(drafts.keep, "counter Kim", inventory())
    return desk


def rows(shop: Shop) -> list[tuple[str, str]]:
    with shop.database.reading.begin() as connection:
        return list(dump.rows(connection, MORNING))


def test_everything_is_there_and_work_goes_on(worked: Desk, place: str) -> None:
    before = rows(worked.shop)
    moved = shop_move.move(worked.shop, place)
    with Shop.open(place, clock=Clock(), who="Kim", create=False) as shop:
        assert rows(shop) == before
        assert sum(moved.rows.values()) == len(before)
        assert moved.rows.keys() == {table for table, _ in before}
        assert shop.verify() == ()
        there = Desk(shop, worked.clock, place, "other")
        assert there.book().number == "000026"


def test_the_old_place_stays_as_it_was_and_can_be_neither_opened_nor_changed(
    worked: Desk, place: str
) -> None:
    before = rows(worked.shop)
    with Shop.open(worked.where, clock=Clock(), who="Lee", create=False) as still_open:
        shop_move.move(worked.shop, place)
        with pytest.raises(Refused, match="was moved to"):
            Desk(still_open, worked.clock, worked.where, worked.kind).book()
        assert len(still_open.ask(jobs.open_jobs)) == 1
    with pytest.raises(Refused, match="was moved to"):
        Shop.open(worked.where, clock=Clock(), create=False)
    marked = {"shop_moves", "change_numbers"}
    after = rows(worked.shop)
    assert [row for row in after if row[0] not in marked] == [row for row in before if row[0] not in marked]


@pytest.mark.parametrize("filled", ["another shop", "another program"])
def test_a_place_that_is_not_empty_is_refused(worked: Desk, place: str, filled: str) -> None:
    if filled == "another shop":
        Shop.open(place, clock=Clock()).close()
    else:
        _make_foreign_table(place)
    with pytest.raises(Refused, match="is not empty"):
        shop_move.move(worked.shop, place)
    worked.book()


def test_a_copy_that_differs_is_thrown_away(
    worked: Desk, place: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    honest = dump.lines

    def altered(*asked: object) -> list[str]:
        return [each.replace("Łukasiewicz", "Lukasiewicz") for each in honest(*asked)]  # type: ignore[arg-type]

    with monkeypatch.context() as broken:
        broken.setattr(dump, "lines", altered)
        with pytest.raises(Unavailable, match="not the same"):
            shop_move.move(worked.shop, place)
    with pytest.raises(NoShopYet):
        Shop.open(place, clock=Clock(), create=False)
    assert shop_move.move(worked.shop, place).was_there is False


def test_a_move_that_was_cut_off_before_the_mark_is_finished_by_the_same_words(
    worked: Desk, place: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def power_cut(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as broken:
        broken.setattr(moved_shops, "mark", power_cut)
        with pytest.raises(KeyboardInterrupt):
            shop_move.move(worked.shop, place)
    assert shop_move.move(worked.shop, place).was_there
    with pytest.raises(Refused, match="was moved to"):
        Shop.open(worked.where, clock=Clock(), create=False)


def test_a_shop_is_not_moved_onto_itself(worked: Desk) -> None:
    with pytest.raises(WrongInput):
        shop_move.move(worked.shop, worked.where)


def test_there_and_back_by_command_line(
    worked: Desk, place: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = rows(worked.shop)
    back = tmp_path / "back.sqlite"
    assert entry.run(["move-shop", worked.where, place, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["rows"] == len(before) == sum(told["tables"].values())
    assert entry.run(["move-shop", place, str(back), "--json"]) == 0
    assert entry.run(["--shop", worked.where, "promises"]) == 3
    with Shop.open(back, clock=Clock(), create=False) as shop:
        assert rows(shop) == before


def _make_foreign_table(place: str) -> None:
    if "://" in place:
        import psycopg

        with psycopg.connect(place) as server:
            server.execute("CREATE TABLE songs (name text)")
        return
    Path(place).parent.mkdir(parents=True)
    file = sqlite3.connect(place)
    file.execute("CREATE TABLE songs (name text)")
    file.close()
