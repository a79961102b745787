"""The shop stands before every key of every table; a file holds one shop."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Inspector, inspect
from sqlalchemy.exc import IntegrityError

from core.services import jobs
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from core.services.restoring import shop_there
from core.store import history
from core.store.tables import StoredTable
from tests.core.filled_shop import fill
from tests.support.behind import behind
from tests.support.booked import Desk
from tests.support.older import as_kept_since_salts

BEFORE = "0018"


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


def keys(there: Inspector, table: str) -> Iterator[tuple[str, list[str | None]]]:
    """Every key of a table with its columns; indexes of trigrams have no order."""
    yield "primary key", list(there.get_pk_constraint(table)["constrained_columns"])
    for each in there.get_unique_constraints(table):
        yield f"unique {each['name']}", list(each["column_names"])
    for link in there.get_foreign_keys(table):
        yield f"link {link['name']}", list(link["constrained_columns"])
        yield f"link {link['name']} to", list(link["referred_columns"])
    for index in there.get_indexes(table):
        if "trigram" not in str(index["name"]):
            yield f"index {index['name']}", list(index["column_names"])


@pytest.mark.postgres
@pytest.mark.parametrize("desk", ["postgres"], indirect=True)
def test_on_a_server_the_shop_leads_every_key(desk: Desk) -> None:
    with desk.shop.database.reading.connect() as connection:
        there = inspect(connection)
        for table in StoredTable.metadata.tables:
            for name, columns in keys(there, table):
                assert columns[0] == "shop", (table, name)
            (shop,) = (each for each in there.get_columns(table) if each["name"] == "shop")
            assert (shop["nullable"], shop["default"]) == (False, None), "no row lands in some shop by chance"


def test_a_file_takes_in_no_row_of_another_shop(file_desk: Desk) -> None:
    with file_desk.shop.database.reading.connect() as connection:
        there = inspect(connection)
        for table in StoredTable.metadata.tables:
            assert "shop = 'main'" in {each["sqltext"] for each in there.get_check_constraints(table)}, table
    with (
        file_desk.shop.database.writing.begin() as connection,
        pytest.raises(IntegrityError, match="CHECK constraint failed"),
    ):
        connection.execute(behind("UPDATE counters SET shop = 'north'"))


def test_whoever_restores_over_a_shop_from_before_is_asked_by_its_people(desk: Desk, older: str) -> None:
    """Its settings are read from tables that know no shops yet."""
    desk.shop.run(shop_document.set_texts, [("front.name", "Reels and More")])
    as_kept_since_salts(desk, older, BEFORE)
    there = shop_there.settings(older, desk.clock())
    assert there is not None
    assert there.front.name == "Reels and More"
    assert shop_there.beginning(older) == shop_there.beginning(desk.where) is not None


def test_a_shop_from_before_becomes_the_main_one_and_keeps_every_digest(desk: Desk, older: str) -> None:
    fill(desk)
    as_kept_since_salts(desk, older, BEFORE)
    before = desk.shop.ask(history.head), desk.shop.ask(jobs.open_jobs)
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert shop.verify() == ()
        heads = {each.digest for each in shop.ask(lambda unit: list(history.lines(unit)))}
        assert before[0] in heads, "what was told stands"
        assert shop.ask(jobs.open_jobs) == before[1]
        Desk(shop, desk.clock, older, desk.kind).book()
        assert shop.verify() == ()
        with shop.database.reading.connect() as connection:
            for table in StoredTable.metadata.tables:
                found = connection.execute(behind(f"SELECT DISTINCT shop FROM {table}")).scalars().all()
                assert found in ([], ["main"]), table
