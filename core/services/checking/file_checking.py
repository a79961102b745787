"""The files of a tape, held against what is known of it; whether that lets the tape be ready."""

from __future__ import annotations

from dataclasses import replace

from sqlalchemy import select

from core.capture import file_checks
from core.capture.check_records import Severity, SignOff, TapeCheck, TapeFacts
from core.capture.file_report import CapturedFile
from core.catalogue.formats import catalogue
from core.model.deck_showing import NOTHING
from core.model.errors import Refused
from core.model.names import Finding, TapeCode
from core.playtime.deck_readings import found
from core.store import current_settings, lookup
from core.store.tables import CaptureRow, RecordingRow, SignOffRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say


def check(unit: Unit, code: TapeCode) -> TapeCheck:
    """What was found in the files of a tape, and whether it is signed off; WrongInput for an unknown code."""
    return check_of(unit, lookup.tape_row(unit, code))


def check_of(unit: Unit, row: TapeRow) -> TapeCheck:
    """As `check`, of a tape at hand."""
    files = tuple(record(each, row) for each in standing(unit, row))
    found_in = file_checks.findings([each.report for each in files], facts_of(unit, row))
    return TapeCheck(TapeCode(row.code), files, found_in, signed(unit, row))


def check_may_be_ready(unit: Unit, row: TapeRow) -> None:
    """Refused for a tape whose files nobody has signed off, or that has none where the shop wants one."""
    found_now = check_of(unit, row)
    code = {"code": tape_code(row.code), "typed": row.code}
    if not found_now.files:
        if current_settings.read(unit).file_for_ready and not is_counted(row):
            raise Refused(say("file_check", "needs-file", **code))
    elif not found_now.is_signed_off:
        worst = [each.code for each in found_now.open if each.severity is Severity.STOP]
        named = locale_figures.listed(worst or [each.code for each in found_now.open])
        raise Refused(say("file_check", "not-signed-off", n=len(found_now.open), names=named, **code))


def facts_of(unit: Unit, row: TapeRow) -> TapeFacts:
    """What the files of a tape at hand are held against: as it was booked, and as a deck showed it."""
    newest = select(CaptureRow).where(CaptureRow.tape_id == row.id).order_by(CaptureRow.id.desc()).limit(1)
    capture, shown = unit.session.scalars(newest).first(), row.shown or NOTHING
    seen = shown.tv or (capture.tv if capture else None)
    draft = found(row.draft, shown)
    return TapeFacts(
        picture="any"
        if is_counted(row)
        else catalogue().format(draft.recorded_as or draft.format).record.picture,
        tv=seen or draft.tv,
        tv_is_seen=seen is not None,
        deck_minutes=None if capture is None or is_counted(row) else capture.minutes,
        has_no_sound=Finding.SOUND_MISSING in row.findings,
    )


def is_counted(row: TapeRow) -> bool:
    """Whether it is film, pictures or a disc, which no TV system and no deck's counter concerns."""
    return catalogue().format(row.draft.format).record.amount is not None


def standing(unit: Unit, row: TapeRow) -> list[RecordingRow]:
    """The files of a tape at hand that are not struck out, oldest first."""
    files = select(RecordingRow).where(RecordingRow.tape_id == row.id, RecordingRow.struck_at.is_(None))
    return list(unit.session.scalars(files.order_by(RecordingRow.id)))


def files_of(unit: Unit, row: TapeRow) -> tuple[CapturedFile, ...]:
    """The files of a tape at hand, each with what was left as it is when it was signed off."""
    files = tuple(record(each, row) for each in standing(unit, row))
    signing = signed(unit, row) if files and row.signed_off_by else None
    return files if signing is None else tuple(replace(each, known=signing.about(each)) for each in files)


def record(row: RecordingRow, tape: TapeRow) -> CapturedFile:
    """A file in the shop's books as it leaves them."""
    return CapturedFile(TapeCode(tape.code), row.report, row.at, row.by)


def signed(unit: Unit, row: TapeRow) -> SignOff | None:
    """The last sign-off of a tape at hand; None where there is none or it was withdrawn."""
    newest = select(SignOffRow).where(SignOffRow.tape_id == row.id).order_by(SignOffRow.id.desc()).limit(1)
    last = unit.session.scalars(newest).first()
    if last is None or last.name is None:
        return None
    return SignOff(last.name, last.at, last.by, last.files, last.accepted)
