"""History can only grow, and every alteration shows."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from sqlalchemy.exc import DBAPIError

from core.model.agreement_records import Consent
from core.model.dispositions import Disposition
from core.model.handover_records import ToldHow, ToldResult
from core.model.names import Finding
from core.model.own_shop.settings_records import Person
from core.model.stations import Station
from core.services import jobs, tape_dispositions, tapes
from core.services.after_ready import handover_wishes, telling
from core.services.agreement import agreements
from core.services.own_shop import people, settings_versions
from core.services.records_door import Shop
from core.store import current_settings, history
from core.store.unit import Unit
from tests.support import beginnings
from tests.support.behind import behind
from tests.support.booked import Desk, line

APPEND_ONLY = (
    *("events", "payments", "agreement_versions", "ceiling_questions", "pickups", "handed_back"),
    *("settings_versions", "pin_tries", "incidents", "told", "handover_wishes"),
)


def _tell(desk: Desk) -> None:
    """A shop in which every append-only table has a row."""
    job = desk.book()
    tape = desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job, [tape.code], paid_minor=100)
    desk.shop.run(tape_dispositions.settle, job.tapes[1].code, Disposition.LOST, note="not on its shelf")
    desk.shop.run(agreements.agree, job.number, "go on with the other one", Consent("Ada Fenwick"))
    desk.bring_to(desk.book().tapes[0], Station.BEING_CHECKED, minutes=370)
    other = desk.book(line())
    desk.bring_to(other.tapes[0], Station.READY)
    told = (other.number, ToldHow.PHONE, ToldResult.REACHED)
    desk.shop.run(telling.tell, *told)
    desk.shop.run(handover_wishes.wish, other.number, collector="Bea Fenwick")
    owner = Person("Ada", may=frozenset({"settings"}), pin=people.hashed("271828"))
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, staff=(owner,)))
    desk.shop.run(people.check_pin, "Ada", "0000")


begun_file, begun_server = beginnings.begun_file(_tell), beginnings.begun_server(_tell)


@pytest.mark.parametrize("table", APPEND_ONLY)
@pytest.mark.parametrize("deed", ["update", "delete", "replace"])
def test_what_happened_cannot_be_changed(desk: Desk, table: str, deed: str) -> None:
    column = "tape_id" if table == "handed_back" else "seq" if table == "events" else "id"
    statements = {
        "update": f"UPDATE {table} SET {column} = {column}",
        "delete": f"DELETE FROM {table}",
        "replace": f"INSERT OR REPLACE INTO {table} SELECT * FROM {table}",
    }
    if desk.kind == "postgres":
        statements["replace"] = f"TRUNCATE {table} CASCADE"  # its own way around triggers for rows
    assert desk.shop.ask(_has_rows, table)
    with pytest.raises(DBAPIError, match="append-only"):
        _try(desk.shop, statements[deed])
    assert desk.shop.verify() == ()


def _has_rows(unit: Unit, table: str) -> bool:
    return unit.session.execute(behind(f"SELECT 1 FROM {table} LIMIT 1")).first() is not None


def _try(shop: Shop, statement: str) -> None:
    with shop.database.writing.begin() as connection:
        connection.execute(behind(statement))


def test_the_chain_holds_over_a_days_work(desk: Desk) -> None:
    assert desk.shop.ask(history.verify) == ()
    assert desk.shop.ask(history.latest) > 5


def test_each_line_says_who_did_what_and_when(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.CREASED])).tapes[0].code
    desk.clock.go_on(hours=1)
    desk.shop.who = "Robin"
    desk.shop.run(
        tapes.move, code, Station.LOOKED_OVER, findings=[Finding.SCRATCHED], note="hold it to the light"
    )
    lines = desk.shop.ask(tapes.history, code)
    assert [(each.by, each.words) for each in lines] == [
        ("Kim", "booked in; found: creased"),
        ("Robin", "booked in → looked over; found: scratched; hold it to the light"),
    ]
    assert lines[1].at == desk.clock()


def test_a_job_tells_all_that_happened_to_its_tapes(desk: Desk) -> None:
    job, _ = desk.book(line(count=2)), desk.book()
    desk.bring_to(job.tapes[1], Station.PLAYING)
    assert [each.words for each in desk.shop.ask(jobs.history, job.number)] == [
        "booked, 2 tapes",
        "booked in",
        "booked in",
        "booked in → looked over",
        "looked over → cleared to play",
        "cleared to play → playing",
    ]


@pytest.mark.parametrize(
    ("alteration", "found"),
    [
        ("UPDATE events SET words = words || '!' WHERE seq = 3", "line 3 .* was altered"),
        (
            "UPDATE events SET payload = replace(payload, 'booked', 'looked') WHERE kind = 'tape-booked-in'",
            "line .* altered",
        ),
        ("UPDATE events SET \"by\" = 'Robin' WHERE seq = 3", "line 3 .* was altered"),
        ("DELETE FROM events WHERE seq = 3", "line 3 is missing"),
        ("DELETE FROM events WHERE seq IN (3, 4)", "lines 3 to 4 are missing"),
        ("DELETE FROM events WHERE seq > 4", "missing at the end"),
        ("UPDATE events SET seq = 99 WHERE seq = 3", "missing"),
    ],
)
def test_an_alteration_behind_the_programs_back_shows(desk: Desk, alteration: str, found: str) -> None:
    _behind_the_back(desk, alteration)
    problems = desk.shop.verify()
    assert any(_matches(found, problem) for problem in problems), problems


@pytest.mark.parametrize(
    ("alteration", "found"),
    [
        ("UPDATE tapes SET station = 'ready' WHERE id = 2", "Tape 000018 002 2: “station”"),
        ("UPDATE tapes SET not_for_reuse = (1 = 1) WHERE id = 2", "“not_for_reuse”"),
        ("UPDATE tapes SET played_minutes = 7 WHERE id = 2", "“played_minutes”"),
        ("UPDATE payments SET minor = 1", "Order 000018: 1 minor units"),
        ("UPDATE jobs SET quote = replace(quote, 'USD', 'EUR')", "not the one that was agreed"),
        ("UPDATE pickups SET record = replace(record, 'Ada', 'Eve')", "not the one that was signed"),
        ("UPDATE counters SET last = 4 WHERE name = 'job'", "1 order is missing"),
    ],
)
def test_a_figure_altered_behind_the_programs_back_shows(desk: Desk, alteration: str, found: str) -> None:
    _behind_the_back(desk, alteration)
    problems = desk.shop.verify()
    assert any(_matches(found, problem) for problem in problems), problems


def _matches(pattern: str, problem: str) -> bool:
    return re.search(pattern, problem) is not None


def _behind_the_back(desk: Desk, statement: str) -> None:
    """As somebody with another tool could: without the triggers."""
    with desk.shop.database.writing.begin() as connection:
        if desk.kind == "postgres":
            connection.execute(behind("SET LOCAL session_replication_role = replica"))
        else:
            names = (
                connection.execute(behind("SELECT name FROM sqlite_master WHERE type = 'trigger'"))
                .scalars()
                .all()
            )
            for name in names:
                connection.execute(behind(f"DROP TRIGGER {name}"))
        connection.execute(behind(statement))
