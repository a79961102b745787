"""A small shop in which every table has a row, for what must hold for all of them."""

from __future__ import annotations

from dataclasses import replace

from sqlalchemy import select

from core.model.agreement_records import Consent
from core.model.copies.copy_records import CopiedFile, CopyContents, CopyStepKind
from core.model.dispositions import Disposition
from core.model.handover_records import ToldHow, ToldResult
from core.model.names import DonorPart, Finding, FormatName, Join, TapeCode
from core.model.own_shop.settings_records import Person
from core.model.stations import Station
from core.services import donors, drafts, promises, repair_attempts, repair_record, tape_dispositions
from core.services.accounts import drawer, invoicing
from core.services.after_ready import handover_wishes, noted_calls, telling
from core.services.agreement import agreements
from core.services.own_shop import people, settings_versions
from core.store import current_settings, day_events, history
from core.store.audits import copy_audit, sign_off_audit
from core.store.tables import (
    BoxOrderRow,
    CaptureRow,
    CeilingQuestionRow,
    CopyRow,
    CopyStepRow,
    DeckEventRow,
    ErasureRow,
    RecordingRow,
    SignOffRow,
    TapeRow,
)
from core.store.unit import Unit
from tests.support.booked import Desk, inventory, line
from tests.support.invented_job import captured

OWNER = Person("Ada", may=frozenset({"settings"}), pin=people.hashed("271828"))


def fill(desk: Desk) -> None:
    """Two orders and what happens to them, then a row in each table that is still empty."""
    job = desk.book(line(findings=[Finding.SNAPPED]), line())
    snapped, plain = job.tapes
    desk.allow(job)
    desk.bring_to(plain, Station.READY)
    desk.shop.run(donors.add, FormatName("vhs"), DonorPart.SHELL, 2)
    swap = {"succeeded": True, "part": DonorPart.SHELL, "note": "as Fenwick asked"}
    desk.shop.run(repair_attempts.record, snapped.code, "shell-swap", **swap)
    desk.shop.run(repair_record.splice, snapped.code, at_minutes=3.0, cut_cm=2.0, joined_with=Join.TAPE)
    desk.shop.run(promises.renew, job.number, "the deck broke down", agreed_with="Ada Fenwick")
    desk.shop.run(noted_calls.note, job.number, "it is nearly ready")
    desk.hand_back(job, [plain.code], paid_minor=100)
    other = desk.book(line(), name="Bea Holloway")
    desk.bring_to(other.tapes[0], Station.READY)
    told = (other.number, ToldHow.PHONE, ToldResult.REACHED)
    desk.shop.run(telling.tell, *told)
    desk.shop.run(handover_wishes.wish, other.number, collector="Cy Fenwick")
    lost = desk.book(line()).tapes[0]
    desk.shop.run(tape_dispositions.settle, lost.code, Disposition.LOST, note="not on its shelf")
    desk.shop.run(agreements.agree, job.number, "go on with the other one", Consent("Ada Fenwick"))
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, staff=(OWNER,)))
    desk.shop.run(people.check_pin, "Ada", "0000")
    desk.shop.who = "Ada"
    desk.shop.run(drafts.keep, "counter", inventory())
    desk.shop.run(_rest)


def fill_books(desk: Desk) -> None:
    """A row in each table of the books, which older shops have not."""
    desk.shop.run(drawer.count_float, 5_000)
    desk.shop.run(invoicing.give, desk.book(line()).number)


def _rest(unit: Unit) -> None:
    """What takes long to come about, as rows."""
    tape = unit.session.get_one(TapeRow, 1)
    now, who = unit.now, unit.who
    day_events.enter(unit, now.date(), "shut", "no power")
    unit.session.add(DeckEventRow(deck="VHS 1", kind="out", words="belt", at=now, by=who))
    unit.session.add(BoxOrderRow(numbers=("000019", "000018"), words="better", at=now, by=who))
    report = captured()[0].report
    struck = RecordingRow(tape_id=tape.id, sha256="0" * 64, report=report, at=now, by=who, struck_at=now)
    unit.session.add(struck)
    copy = unit.session.scalars(select(CopyRow)).first()
    assert copy is not None
    made = CopyContents((TapeCode(tape.code),), (CopiedFile("Fenwick.mp4", 7, "0" * 64),))
    step = CopyStepRow(kind=CopyStepKind.MADE, contents=made, at=now, by=who)
    copy.steps.append(step)
    said = {"files": ("0" * 64,), "accepted": (), "because": "", "command": None}
    signed = SignOffRow(tape_id=tape.id, name="Ada", at=now, by=who, **said)
    unit.session.add(signed)
    unit.session.flush()
    told = {"copy_step": step.id, "step_sha256": copy_audit.fingerprint(step)}
    history.append(unit, copy_audit.KIND, "made", job="000018", **told)
    told = {"sign_off": signed.id, "line_sha256": sign_off_audit.fingerprint(signed)}
    history.append(unit, sign_off_audit.KINDS[0], "signed off", job="000018", **told)
    told = {"speed": None, "recorded_as": None, "tv": None}
    unit.session.add(CaptureRow(tape_id=tape.id, minutes=61.5, at=now, by=who, **told))
    unit.session.add(ErasureRow(customer_id=2, is_open=False, at=now, by=who))
    unit.session.add(
        CeilingQuestionRow(
            job_id=1,
            tape_id=tape.id,
            version=1,
            stands_minor=10,
            ceiling_minor=9,
            bound_for=Station.PLAYING,
            at=now,
            by=who,
        )
    )
