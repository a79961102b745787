"""Erased: the name is found nowhere, the books and the chain hold."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import text

from core.cli import entry
from core.model.agreement_records import Consent
from core.model.errors import NotPermitted, Refused, WrongInput
from core.model.handover_records import ToldHow, ToldResult
from core.model.inventory import CustomerDraft
from core.model.job_records import Job
from core.model.names import Finding, Join
from core.model.own_shop.settings_records import Person
from core.model.signatures import Signature
from core.model.stations import Station
from core.services import decks, drafts, jobs, paper_files, payments, promises, repair_record, tapes
from core.services.after_ready import handover_wishes, noted_calls, telling
from core.services.agreement import agreements
from core.services.own_shop import settings_versions
from core.services.privacy import erasures
from core.store import current_settings, history, lookup, row_digests
from core.store.shop_files import dump
from core.store.unit import Unit
from core.wording import record_heads
from tests.support.booked import Desk, events, inventory, line

NAME, PHONE = "Quillona Zebedee", "(303) 555-0187"
TOLD = ("Zebedee", "zebedee", "Quillona", "5550187", "555-0187", "ebede")
"""What may not be found anywhere afterwards; the last as a search index would hold it."""


def a_year_ago(desk: Desk, papers: Path) -> Job:
    """An order whose customer is named wherever one can be."""
    lines = (replace(line(findings=[Finding.SNAPPED]), label="Zebedee wedding"), line())
    job = desk.book(*lines, name="Quilona Zebedee", phone="(303) 555-0100")
    desk.shop.run(jobs.correct_customer, job.number, CustomerDraft(NAME, PHONE, "q@zebedee.example"))
    first, second = job.tapes
    consent = Consent(NAME, strokes=(((0.1, 0.2), (0.3, 0.4)),))
    desk.shop.run(agreements.agree, job.number, f"{NAME} said yes", consent, ceiling_minor=90_000)
    desk.shop.run(repair_record.splice, first.code, at_minutes=3.0, cut_cm=2.0, joined_with=Join.TAPE)
    desk.shop.run(repair_record.mark, first.code)
    desk.shop.run(promises.renew, job.number, "Zebedee asked", agreed_with=NAME)
    desk.bring_to(second, Station.READY)
    desk.shop.run(repair_record.clear_finding, first.code, Finding.SNAPPED, "as Zebedee wished")
    walk(desk, first.code)
    desk.write_copies(job.number)
    desk.shop.run(telling.tell, job.number, ToldHow.PHONE, ToldResult.LEFT_WORD, note=NAME)
    desk.shop.run(handover_wishes.wish, job.number, collector=f"Ozias {NAME}", said_by=NAME)
    desk.shop.run(noted_calls.note, job.number, f"all is ready, {NAME}")
    front = desk.shop.ask(decks.settings).front
    paper_files.of_booking(desk.shop.ask(jobs.get, job.number), front, paper_files.prepare(papers))
    owed = desk.shop.ask(jobs.get, job.number)
    due = desk.shop.ask(price_due, owed.number) - owed.paid_minor
    signed = Signature(NAME, (((0.1, 0.2), (0.5, 0.6)),))
    handed = desk.hand_back(job, signature=signed, paid_minor=due)
    paper_files.of_pickup(handed, front, papers)
    desk.shop.run(drafts.keep, "counter", inventory(name=NAME))
    return desk.shop.ask(jobs.get, job.number)


def price_due(unit: Unit, number: str) -> int:
    return payments.price(unit, lookup.job_row(unit, number)).due.likely


def walk(desk: Desk, code: str) -> None:
    for station in (
        Station.LOOKED_OVER,
        Station.CLEARED_TO_PLAY,
        Station.PLAYING,
        Station.BEING_CHECKED,
        Station.READY,
    ):
        more = {"minutes": 55.0} if station is Station.READY else {}
        desk.shop.run(tapes.move, code, station, note="Zebedee waits", **more)


def everything(desk: Desk, folder: Path) -> Iterator[tuple[str, bytes]]:
    """All that can be found: the bytes of every file, or the rows of a server."""
    for path in folder.rglob("*"):
        if path.is_file():
            yield path.name, path.read_bytes()
    if desk.kind == "postgres":
        with desk.shop.database.reading.connect() as connection:
            yield "rows", "\n".join(dump.lines(connection, desk.clock())).encode()


def found(desk: Desk, folder: Path) -> list[tuple[str, str]]:
    return [
        (name, word)
        for name, held in everything(desk, folder)
        for word in TOLD
        if word.encode() in held or word.encode("utf-16-le") in held
    ]


def test_the_name_is_found_nowhere_and_everything_holds(desk: Desk, tmp_path: Path) -> None:
    papers = tmp_path / "papers"
    kept = desk.book(line(), name="Ada Fenwick")
    job = a_year_ago(desk, papers)
    assert {word for _, word in found(desk, tmp_path)} >= {"Zebedee", "Quillona"}
    assert len(list(papers.iterdir())) >= 4
    done = erasures.erase(desk.shop, job.number, [papers])
    assert done.orders == (job.number,)
    assert found(desk, tmp_path) == []
    assert not list(papers.iterdir())
    assert desk.shop.verify() == ()
    after = desk.shop.ask(jobs.get, job.number)
    assert after.customer.name == "(erased)"
    assert after.customer.phone is None
    assert (after.payments, after.paid_minor) == (job.payments, job.paid_minor)
    assert [each.played_minutes for each in after.tapes] == [each.played_minutes for each in job.tapes]
    assert after.quote.price == job.quote.price
    assert desk.shop.ask(jobs.get, kept.number) == kept


def test_the_head_of_before_is_still_held_and_the_history_says_who_erased(desk: Desk, tmp_path: Path) -> None:
    job = a_year_ago(desk, tmp_path / "papers")
    head, count = desk.shop.ask(history.head), desk.shop.ask(history.latest)
    erasures.erase(desk.shop, NAME)
    assert desk.shop.ask(history.holds, head) == count
    lines = desk.shop.ask(jobs.history, job.number)
    assert {each.words for each in lines} == {""}
    assert len(lines) > 10
    assert found(desk, tmp_path / "nothing") == []


def test_nobody_can_try_names_against_what_is_left(desk: Desk, tmp_path: Path) -> None:
    """A digest without a salt would tell whether a guessed name was right; the salts are gone."""
    job = a_year_ago(desk, tmp_path / "papers")
    with desk.shop.database.reading.connect() as connection:
        rows = {
            name: [dict(row) for row in connection.execute(text(f"SELECT * FROM {name}")).mappings()]
            for name in ("customers", "jobs")
        }
        salts = [row["salt"] for name in rows for row in rows[name]]
        salts += connection.execute(text("SELECT salt FROM events WHERE job IS NOT NULL")).scalars().all()
    said = "".join(event.payload for event in events(desk.shop, row_digests.KIND))
    for name, held in rows.items():
        for row in held:
            assert row_digests.digest(name, row, row["salt"]) in said
            assert row_digests.digest(name, row, "") not in said
    erasures.erase(desk.shop, job.number)
    left = b"".join(held for _, held in everything(desk, tmp_path))
    assert not [salt for salt in salts if salt.encode() in left]


def test_erased_at_the_command_line_the_papers_beside_the_shop_go_as_well(
    file_desk: Desk, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = a_year_ago(file_desk, tmp_path / "papers")
    copy = file_desk.shop.backup(tmp_path / "copies")
    code = entry.run(["erase", PHONE, "--shop", file_desk.where, "--json"])
    told = json.loads(capsys.readouterr().out)
    assert (code, told["erased"]) == (0, [job.number])
    assert len(told["removed"]) >= 4
    copy.unlink()
    assert found(file_desk, tmp_path) == []
    assert (
        entry.run(["verify", "--shop", file_desk.where, "--head", record_heads.in_name(copy.name) or ""]) == 0
    )


def test_somebody_is_erased_once_everything_is_home_and_paid(desk: Desk) -> None:
    job = desk.book(line(), name=NAME)
    with pytest.raises(Refused, match="still open"):
        erasures.erase(desk.shop, job.number)
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job)
    with pytest.raises(Refused, match="still owed"):
        erasures.erase(desk.shop, job.number)
    assert desk.shop.ask(jobs.get, job.number).customer.name == NAME


def test_exactly_one_customer_is_meant(desk: Desk) -> None:
    desk.book(line(), name="Ada Fenwick", phone="(303) 555-0111")
    desk.book(line(), name="Ada Fenwick", phone="(303) 555-0122")
    with pytest.raises(WrongInput, match="2 customers match"):
        erasures.erase(desk.shop, "Ada Fenwick")
    with pytest.raises(WrongInput, match="somebody who was here"):
        erasures.erase(desk.shop, "Nobody Atall")


def test_records_that_do_not_agree_with_their_history_are_not_erased(file_desk: Desk, tmp_path: Path) -> None:
    job = a_year_ago(file_desk, tmp_path / "papers")
    with file_desk.shop.database.writing.begin() as connection:
        connection.exec_driver_sql("UPDATE copies SET words = 'another'")
    with pytest.raises(Refused, match="don't agree with their history"):
        erasures.erase(file_desk.shop, job.number)


def test_nobody_erases_without_the_right(desk: Desk) -> None:
    staff = (Person("Ada", may=frozenset({"settings", "erase"})), Person("Kit"))
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, staff=staff), needs=None)
    desk.shop.who = "Kit"
    with pytest.raises(NotPermitted):
        erasures.erase(desk.shop, NAME)
