"""From rows to the frozen records that leave the shop's books."""

from __future__ import annotations

import hashlib
from itertools import pairwise

from core.catalogue import condition, formats
from core.model import serialization
from core.model.agreement_records import AgreementKind, Consent
from core.model.copies.copy_records import CopyRecord, CopyStep
from core.model.dispositions import Disposition, as_it_stands
from core.model.incident_records import IncidentLine
from core.model.job_records import Agreement, Customer, Job, Payment
from core.model.names import JobNumber, Measure, TapeCode
from core.model.quote_records import Quote
from core.model.repair_records import AfterRepair, RepairAttempt, Splice, StruckSplice
from core.model.tape_records import TapeRecord
from core.store.copy_tables import CopyRow, CopyStepRow
from core.store.job_tables import AgreementVersionRow, CustomerRow, JobRow, PaymentRow
from core.store.tape_tables import IncidentRow, RepairRow, SpliceRow, TapeRow


def customer(row: CustomerRow) -> Customer:
    return Customer(row.name, row.phone, row.email)


def job(row: JobRow) -> Job:
    return Job(
        number=JobNumber(row.number),
        customer=customer(row.customer),
        booked_at=row.booked_at,
        booked_by=row.booked_by,
        rush=row.rush,
        quote=quote(row),
        promise=row.promise,
        tapes=tuple(tape(each) for each in row.tapes),
        copies=tuple(copy(each) for each in row.copies if each.left_out_in is None),
        payments=tuple(_payment(each) for each in row.payments),
        agreements=tuple(
            _agreement(before, each)
            for before, each in pairwise(row.agreement)
            if each.kind is not AgreementKind.SETTLED
        ),
        agreed_ceiling_minor=row.agreement[-1].ceiling_minor if row.agreement else None,
        told=row.agreement[0].told if row.agreement else (),
        consent=consent(row.agreement[0]) if row.agreement else None,
    )


def quote(row: JobRow) -> Quote:
    """The quote that holds: the newest one agreed on, else the one it was booked on."""
    return next((each.quote for each in reversed(row.agreement) if each.quote is not None), row.quote)


def consent(row: AgreementVersionRow) -> Consent | None:
    """Who said yes to a version and how; None where nobody wrote down either."""
    who, how = row.agreed_by, row.how
    return None if who is None or how is None else Consent(who, how, row.strokes)


def tape(row: TapeRow) -> TapeRecord:
    return TapeRecord(
        code=TapeCode(row.code),
        line=row.line,
        n=row.n,
        format=row.draft.format,
        format_words=formats.catalogue().format(row.draft.format).words,
        marking=row.draft.marking,
        label=row.draft.label,
        station=row.station,
        since=row.since,
        findings=row.findings,
        verdict=row.verdict,
        minutes=row.minutes,
        played_minutes=row.played_minutes,
        splices=tuple(splice(each) for each in row.splices if each.struck_at is None),
        not_for_reuse=row.not_for_reuse,
        marked_at=row.marked_at,
        draft=row.draft,
        deck=row.deck,
        note=row.note,
        struck=tuple(
            StruckSplice(splice(each), each.struck_at, each.struck_by, each.struck_because or "")
            for each in row.splices
            if each.struck_at is not None
        ),
        tried=tuple(tried(row, each) for each in row.repairs if each.struck_at is None),
        after_repair=_after_repair(row),
        label_astray=row.astray_since is not None,
        rests_until=row.rests_until,
        disposition=disposition(row),
        note_is_told=bool(row.note_is_told),
        is_counted=formats.catalogue().format(row.draft.format).record.amount is not None,
        left_out_in=row.left_out_in,
        shown=row.shown,
        signed_off_by=row.signed_off_by,
        settled=row.settled,
    )


def disposition(row: TapeRow) -> Disposition | None:
    """What became of a tape, None while that is not settled."""
    return as_it_stands(row.disposition, row.station, row.returned_from, is_recorded(row))


def is_recorded(row: TapeRow) -> bool:
    """Whether anybody can say how much was copied: minutes are on record, or it is counted by its amount."""
    counted = formats.catalogue().format(row.draft.format).record.amount
    return row.played_minutes is not None or counted is not None


def copy(row: CopyRow) -> CopyRecord:
    return CopyRecord(
        id=row.id,
        code=row.code,
        words=row.words,
        handed_back_at=row.handed_back_at,
        pieces=row.pieces or 1,
        delivery=row.delivery,
        steps=tuple(copy_step(each) for each in row.steps),
        follows=row.follows,
    )


def copy_step(row: CopyStepRow) -> CopyStep:
    return CopyStep(row.kind, row.at, row.by, row.contents, row.drive, row.download, row.reason)


def splice(row: SpliceRow) -> Splice:
    return Splice(
        at_minutes=row.at_minutes,
        cut_cm=row.cut_cm,
        joined_with=row.joined_with,
        seconds_removed=row.seconds_removed,
        seconds_disturbed=row.seconds_disturbed,
        by=row.by,
        at=row.at,
        at_metres=row.at_metres,
        measured=row.measured or Measure.MINUTES,
        reckoned=row.reckoned,
        section=row.section,
        removed=row.removed,
        disturbed=row.disturbed,
        redone=bool(row.redone),
    )


def tried(tape: TapeRow, row: RepairRow) -> RepairAttempt:
    words = condition.repair(row.code, tape.draft.format).words
    return RepairAttempt(row.code, words, row.succeeded, row.part, row.came_from, row.note, row.by, row.at)


def trials(tape: TapeRow) -> list[dict[str, object]]:
    """The repairs that stand as the history keeps them: names only, since words may be bettered."""
    standing = (each for each in tape.repairs if each.struck_at is None)
    return [
        {"repair": each.code, "succeeded": each.succeeded, "part": each.part, "came_from": each.came_from}
        for each in standing
    ]


def incident_line(row: IncidentRow) -> IncidentLine:
    return IncidentLine(row.kind, row.words, row.moment, row.photo, row.sha256, row.at, row.by)


def _after_repair(row: TapeRow) -> AfterRepair | None:
    if row.repaired_at is None:
        return None
    return AfterRepair(row.repaired_at, row.look, row.looked_by, row.looked_at)


def _payment(row: PaymentRow) -> Payment:
    return Payment(row.kind, row.minor, row.at, row.by, row.method, row.note or "")


def _agreement(before: AgreementVersionRow, row: AgreementVersionRow) -> Agreement:
    raised = row.ceiling_minor if row.ceiling_minor != before.ceiling_minor else None
    return Agreement(row.at, row.by, row.agreed_by or "", row.reason, raised, row.tax_exempt, row.number)


def fingerprint(row: AgreementVersionRow) -> str:
    """SHA-256 of all that a version of an agreement says; its line of history holds it."""
    said = [
        *(row.number, row.kind, row.quote, row.codes, row.ceiling_minor, row.given_away_minor),
        *(row.fee_minor, row.promise, row.reason, row.agreed_by, row.how, row.strokes, row.told),
        *(row.choice, row.tax_exempt),
    ]
    return hashlib.sha256(serialization.dumps(said).encode()).hexdigest()
