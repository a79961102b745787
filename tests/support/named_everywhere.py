"""A customer who is named wherever one can be, and the search for the name in every byte that is left."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from sqlalchemy import Connection, text

from core.model.agreement_records import Consent
from core.model.copies.copy_records import CopiedFile, FileSystem
from core.model.dispositions import Disposition
from core.model.handover_records import ToldHow, ToldResult
from core.model.incident_records import IncidentKind
from core.model.inventory import CustomerDraft, Delivery
from core.model.job_records import Job
from core.model.names import Finding, Join, TapeCode
from core.model.signatures import Signature
from core.model.stations import Station
from core.services import (
    decks,
    drafts,
    incidents,
    jobs,
    paper_files,
    payments,
    promises,
    repair_record,
    tape_dispositions,
    tapes,
)
from core.services.after_ready import handover_wishes, noted_calls, telling
from core.services.agreement import agreements
from core.services.copies import copy_making, downloads, own_drives
from core.services.incident_photos import Photo
from core.services.privacy import erasures
from core.services.privacy.erasures import Erased
from core.services.records_door import Shop
from core.store import lookup
from core.store.shop_files import dump
from core.store.unit import Unit
from tests.support.booked import Desk, command, inventory, line

NAME, PHONE = "Quillona Zebedee", "(303) 555-0187"
TOLD = ("Zebedee", "zebedee", "Quillona", "5550187", "555-0187", "uillo")
"""What may not be found anywhere afterwards; the last as a search index would hold it, and no digest."""


def erase(shop: Shop, who: str, papers: Sequence[Path] = ()) -> Erased:
    """As window and command line do it: the step, then what follows."""
    return erasures.clean_up(shop, shop.once(command(), erasures.erase_rows, who).answer, papers)


def a_year_ago(desk: Desk, papers: Path | None = None) -> Job:
    """An order whose customer is named wherever one can be; in ``papers`` too, if there is such a folder."""
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
    if papers is not None:
        paper_files.of_booking(desk.shop.ask(jobs.get, job.number), front, paper_files.prepare(papers))
    owed = desk.shop.ask(jobs.get, job.number)
    due = desk.shop.ask(price_due, owed.number) - owed.paid_minor
    signed = Signature(NAME, (((0.1, 0.2), (0.5, 0.6)),))
    handed = desk.hand_back(job, signature=signed, paid_minor=due)
    if papers is not None:
        paper_files.of_pickup(handed, front, papers)
    desk.shop.run(drafts.keep, "counter", inventory(name=NAME))
    return desk.shop.ask(jobs.get, job.number)


def in_copies_and_incidents(desk: Desk) -> Job:
    """A further order of the same customer: named in the exemption from tax, the address of the download, the
    files on their own drive, what was lost of theirs, and what was noted when they were told."""
    working, shop = replace(desk, writes_copies=False), desk.shop
    job = working.book(
        line(count=2),
        name=NAME,
        phone=PHONE,
        deliver=(Delivery("files", "h264", "download"), Delivery("files", "h264", "own-drive")),
        tax_exempt="Zebedee Trust, certificate 7",
    )
    working.allow(job)
    lost, copied = (each.code for each in job.tapes)
    shop.run(tape_dispositions.settle, lost, Disposition.LOST, note=f"{NAME} saw it fall")
    shop.run(incidents.attach, lost, Photo("zebedee.png", "0" * 64), "as Zebedee sent it")
    shop.run(incidents.add, lost, IncidentKind.TOLD, f"told {NAME}")
    shop.run(incidents.add, lost, IncidentKind.SETTLED, "Zebedee takes 60.00")
    working.bring_to(job.tapes[1], Station.READY, minutes=60.0)
    _copied_for(desk, job, copied)
    shop.run(telling.tell, job.number, ToldHow.EMAIL, ToldResult.SENT, note="to q@zebedee.example")
    owed = shop.ask(jobs.get, job.number)
    due = shop.ask(price_due, owed.number) - owed.paid_minor
    desk.hand_back(owed, signature=Signature(NAME, (((0.1, 0.2), (0.5, 0.6)),)), paid_minor=due)
    return shop.ask(jobs.get, job.number)


def _copied_for(desk: Desk, job: Job, code: str) -> None:
    shop, file = desk.shop, CopiedFile("Zebedee wedding.mp4", 7, "0" * 64, TapeCode(code))
    download, drive = job.copies
    size = {"gigabytes": 64.0, "file_system": FileSystem.EXFAT}
    shop.run(own_drives.describe, job.number, drive.id, **size)
    for copy in (drive, download):
        shop.run(copy_making.made, job.number, copy.id, files=[file])
    shop.run(copy_making.strike, job.number, drive.id, because="on a drive of Zebedee's brother")
    shop.run(copy_making.made, job.number, drive.id, files=[file])
    for copy in (drive, download):
        shop.run(copy_making.checked, job.number, copy.id)
    until = desk.clock().date() + timedelta(days=14)
    shop.run(downloads.give, job.number, download.id, "https://files.example.org/Zebedee", until)


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


def everything(desk: Desk, folder: Path, without: Collection[str] = ()) -> Iterator[tuple[str, bytes]]:
    """All that can be found: the bytes of every file, and of every relation of a server."""
    for path in folder.rglob("*"):
        if path.is_file() and not set(path.relative_to(folder).parts) & set(without):
            yield path.name, path.read_bytes()
    if desk.kind == "postgres":
        with desk.shop.database.reading.connect() as connection:
            yield "rows", "\n".join(dump.lines(connection, desk.clock())).encode()
        with desk.shop.database.writing.execution_options(isolation_level="AUTOCOMMIT").connect() as whole:
            yield from _relations(whole)


def _relations(connection: Connection) -> Iterator[tuple[str, bytes]]:
    """The bytes of tables, indexes and what is kept to plan by, as the server writes them to its disk."""
    connection.execute(text("CHECKPOINT"))
    asked = text(
        "SELECT relname, pg_read_binary_file(pg_relation_filepath(oid)) FROM pg_class "
        "WHERE relkind IN ('r', 'i', 't') AND pg_relation_filepath(oid) IS NOT NULL "
        "AND (oid > 16383 OR relname LIKE 'pg_statistic%' OR relname = 'pg_toast_2619')"
    )
    for name, held in connection.execute(asked):
        yield name, bytes(held)


def found(desk: Desk, folder: Path, without: Collection[str] = ()) -> list[tuple[str, str]]:
    """Where a word of the name was found; folders of names in ``without`` are not looked into."""
    return [
        (name, word)
        for name, held in everything(desk, folder, without)
        for word in TOLD
        if word.encode() in held or word.encode("utf-16-le") in held
    ]
