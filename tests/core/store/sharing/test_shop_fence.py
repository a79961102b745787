"""No statement goes out to a server that does not say of which shop."""

from __future__ import annotations

import pytest
from sqlalchemy import event, insert, select, text, update
from sqlalchemy.orm import Session

from core.services import jobs
from core.services.records_door import Shop
from core.store.sharing import shop_fence, shop_scope
from core.store.sharing.shop_fence import ShopNotSaid
from core.store.tables import CounterRow, DraftRow, JobRow, StoredTable
from core.store.unit import Unit
from tests.support.booked import Desk

OURS = frozenset(StoredTable.metadata.tables)
SAID = (
    "SELECT jobs.id FROM jobs WHERE jobs.shop = %(shop)s",
    "SELECT tapes_1.id FROM jobs JOIN tapes AS tapes_1 ON tapes_1.job_id = jobs.id "
    "AND tapes_1.shop = %(shop)s WHERE jobs.shop = %(shop)s",
    "UPDATE counters SET last=(counters.last + 1) WHERE counters.name = 'job' AND counters.shop = %(shop)s",
    "INSERT INTO drafts (shop, name) VALUES (%(shop)s, %(name)s)",
    "DELETE FROM drafts WHERE drafts.shop = %(shop)s",
    "SELECT version_num FROM alembic_version",
    "SELECT anon_1.id FROM (SELECT customers.id FROM customers WHERE customers.shop = %(shop)s) AS anon_1",
    "VACUUM FULL jobs",
)
UNSAID = (
    ("SELECT jobs.id FROM jobs", "jobs"),
    ("SELECT count(*) FROM tapes WHERE tapes.job_id = 1", "tapes"),
    ("SELECT jobs.id FROM jobs, tapes WHERE jobs.shop = %(shop)s", "tapes"),
    ("SELECT j.id FROM jobs AS j WHERE jobs.shop = %(shop)s", "jobs"),
    (
        "SELECT 1 FROM jobs JOIN customers ON customers.id = jobs.customer_id WHERE jobs.shop = 'x'",
        "customers",
    ),
    ("SELECT 1 FROM jobs JOIN tapes ON tapes.job_id = jobs.id AND tapes.shop = jobs.shop", "jobs"),
    ("select jobs.shop from jobs", "jobs"),
    ("UPDATE counters SET last = 1 WHERE counters.name = 'job'", "counters"),
    ("DELETE FROM drafts", "drafts"),
    ("INSERT INTO drafts (name) VALUES (%(name)s)", "drafts"),
    ('SELECT * FROM "events" WHERE seq = 1', "events"),
    ("WITH some AS (SELECT id FROM copies) SELECT id FROM some", "copies"),
)


@pytest.mark.parametrize("statement", SAID)
def test_a_statement_that_says_its_shop_passes(statement: str) -> None:
    assert shop_fence.first_unsaid(statement, OURS) is None


@pytest.mark.parametrize(("statement", "table"), UNSAID)
def test_a_statement_that_does_not_is_stopped(statement: str, table: str) -> None:
    assert shop_fence.first_unsaid(statement, OURS) == table
    with pytest.raises(ShopNotSaid, match=table):
        shop_fence.check(statement, OURS)


def test_every_table_is_fenced_in() -> None:
    for name in StoredTable.metadata.tables:
        assert shop_fence.first_unsaid(f"SELECT {name}.* FROM {name}", OURS) == name


def _by_text(unit: Unit) -> None:
    unit.session.execute(text("SELECT number FROM jobs"))


def _past_the_session(unit: Unit) -> None:
    unit.session.connection().execute(select(JobRow.number))


def _by_hand(unit: Unit) -> None:
    unit.session.connection().exec_driver_sql("UPDATE jobs SET rush = true")


def _inserted(unit: Unit) -> None:
    unit.session.connection().execute(text("INSERT INTO counters (name, last) VALUES ('x', 1)"))


def _in_a_plain_session(unit: Unit) -> None:
    with Session(unit.session.get_bind()) as plain:
        plain.scalars(select(DraftRow)).all()


@pytest.mark.postgres
@pytest.mark.parametrize("desk", ["postgres"], indirect=True)
@pytest.mark.parametrize("leak", [_by_text, _past_the_session, _by_hand, _inserted, _in_a_plain_session])
def test_the_fence_stands_whatever_way_is_taken(desk: Desk, leak: object) -> None:
    with pytest.raises(ShopNotSaid):
        desk.shop.run(leak)  # type: ignore[arg-type]  # one of the above


@pytest.mark.postgres
@pytest.mark.parametrize("desk", ["postgres"], indirect=True)
def test_what_a_session_reads_and_changes_says_its_shop_by_itself(desk: Desk) -> None:
    said: list[str] = []

    def note(*sent: object) -> None:
        said.append(str(sent[2]))

    event.listen(desk.shop.database.writing, "before_cursor_execute", note)
    desk.book()
    desk.shop.run(lambda unit: unit.session.execute(update(CounterRow).values(last=CounterRow.last)))
    desk.shop.run(lambda unit: unit.session.connection().execute(_an_insert()))
    desk.shop.ask(jobs.open_jobs)
    ours = [each for each in said if any(f" {name}" in each for name in StoredTable.metadata.tables)]
    assert len(ours) > 10
    assert all("shop" in each for each in ours)


def _an_insert() -> object:
    return insert(CounterRow.__table__).values(name="another", last=0)  # type: ignore[arg-type]  # a table


@pytest.mark.postgres
@pytest.mark.parametrize("desk", ["postgres"], indirect=True)
def test_the_fence_is_not_taken_down_for_long(desk: Desk, server_shop: str) -> None:
    with Shop.open(server_shop) as shop, shop.database.reading.connect() as connection:
        with shop_scope.every_shop(connection):
            connection.execute(text("SELECT count(*) FROM jobs"))
        with pytest.raises(ShopNotSaid):
            connection.execute(text("SELECT count(*) FROM jobs"))
