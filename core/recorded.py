"""From rows to the frozen records that leave the shop's books."""

from __future__ import annotations

from core import customers, formats
from core.names import JobNumber, TapeCode
from core.records import Agreement, CopyRecord, Job, Payment, Splice, TapeRecord
from core.tables import AgreementRow, CopyRow, JobRow, PaymentRow, SpliceRow, TapeRow


def job(row: JobRow) -> Job:
    return Job(
        number=JobNumber(row.number),
        customer=customers.record(row.customer),
        booked_at=row.booked_at,
        booked_by=row.booked_by,
        rush=row.rush,
        quote=row.quote,
        promise=row.promise,
        tapes=tuple(tape(each) for each in row.tapes),
        copies=tuple(copy(each) for each in row.copies),
        payments=tuple(_payment(each) for each in row.payments),
        agreements=tuple(_agreement(each) for each in row.agreements),
    )


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
        splices=tuple(_splice(each) for each in row.splices if each.struck_at is None),
        not_for_reuse=row.not_for_reuse,
        marked_at=row.marked_at,
        draft=row.draft,
        deck=row.deck,
        note=row.note,
    )


def copy(row: CopyRow) -> CopyRecord:
    return CopyRecord(row.id, row.code, row.words, row.handed_back_at)


def _splice(row: SpliceRow) -> Splice:
    return Splice(
        row.at_minutes,
        row.cut_cm,
        row.joined_with,
        row.seconds_removed,
        row.seconds_disturbed,
        row.by,
        row.at,
    )


def _payment(row: PaymentRow) -> Payment:
    return Payment(row.kind, row.minor, row.at, row.by)


def _agreement(row: AgreementRow) -> Agreement:
    return Agreement(row.at, row.by, row.who_agreed, row.words, row.ceiling_minor)
