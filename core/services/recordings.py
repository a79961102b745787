"""The files recorded from tapes, in the shop's books: attached to a tape, listed for a job, struck out."""

from __future__ import annotations

from dataclasses import replace

from sqlalchemy import Select, select

from core.capture.file_report import CapturedFile, Report, clock
from core.model import entered_text
from core.model.errors import Refused
from core.model.names import JobNumber, TapeCode
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.services import tape_facts
from core.services.agreement import ceiling_watch
from core.services.checking import file_checking, sign_offs
from core.store import history, lookup, permissions
from core.store.steps import step
from core.store.tables import RecordingRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say


@step
def attach(unit: Unit, code: TapeCode, report: Report, *, sure: bool = False) -> CapturedFile:
    """Keeps a file as recorded from a tape; its minutes to be charged become the minutes the tape played.

    The shop learns from those minutes too, beside the speed that the deck showed (`queue.played`). A tape
    may have several files; their minutes add up. The same file again changes nothing but what an older
    reading had not told. A tape that was ready goes back to be checked. Refused for a tape that has not
    played, and for a file that is attached to another tape: one of the two is mixed up.
    Unconfirmed for files far longer than the tape unless somebody is ``sure``.
    """
    row = lookup.tape_row(unit, code)
    _check_played(row)
    known = _standing_with(unit, report.sha256)
    if known is not None:
        return _known_again(unit, known, row, report)
    kept = RecordingRow(tape_id=row.id, sha256=report.sha256, report=report, at=unit.now, by=unit.who)
    unit.session.add(kept)
    unit.session.flush()
    before, row.signed_off_by = ceiling_watch.before_step(unit, row), None
    _count_minutes(unit, row, sure=sure)
    minutes = locale_figures.figure(report.billable_minutes, digits=1)
    _tell(
        unit,
        row,
        "file-attached",
        say("tapes", "event_file", name=report.name, length=clock(report.seconds), minutes=minutes),
    )
    sign_offs.check_again(unit, row)
    ceiling_watch.follow(unit, row, before)
    return file_checking.record(kept, row)


@step
def strike(unit: Unit, code: TapeCode, *, because: str) -> tuple[CapturedFile, ...]:
    """Strikes out the last file of a tape; it stays readable in the books. Gives the files that remain.

    What was charged and learned from it goes with it: the minutes read off the deck count again. Refused when
    the tape has none or has gone home; WrongInput without a reason.
    """
    row = lookup.tape_in_the_shop(unit, code)
    reason = entered_text.reason(say("tapes", "why_strike_file"), because)
    standing = file_checking.standing(unit, row)
    if not standing:
        raise Refused(say("tapes", "no_file_to_strike", code=tape_code(row.code)))
    permissions.check_strike(unit, standing[-1].by)
    before = ceiling_watch.before_step(unit, row)
    standing[-1].struck_at, standing[-1].struck_because = unit.now, reason
    unit.session.flush()
    _count_minutes(unit, row)
    _tell(
        unit,
        row,
        "file-struck-out",
        say("tapes", "event_file_struck", name=standing[-1].report.name, reason=reason),
    )
    sign_offs.check_again(unit, row)
    ceiling_watch.follow(unit, row, before)
    ceiling_watch.release(unit, row.job)
    return of_tape(unit, code)


def of_tape(unit: Unit, code: TapeCode) -> tuple[CapturedFile, ...]:
    """The files of a tape, oldest first."""
    row = lookup.tape_row(unit, code)
    return tuple(file_checking.record(each, row) for each in file_checking.standing(unit, row))


def of_job(unit: Unit, number: JobNumber) -> tuple[CapturedFile, ...]:
    """The files of all tapes of a job with what is known of each, tape by tape, oldest first."""
    job = lookup.job_row(unit, number)
    return tuple(file for row in job.tapes for file in file_checking.files_of(unit, row))


def _check_played(row: TapeRow) -> None:
    if not row.station.may_have_files:
        stations = locale_figures.listed([spoken(each) for each in Station if each.may_have_files], "or")
        raise Refused(
            say(
                "tapes",
                "not_played",
                code=tape_code(row.code),
                station=spoken(row.station),
                stations=stations,
            )
        )


def _known_again(unit: Unit, known: RecordingRow, row: TapeRow, report: Report) -> CapturedFile:
    if known.tape_id != row.id:
        other = known.tape.code
        raise Refused(
            say(
                "tapes",
                "other_tapes_file",
                name=report.name,
                other=tape_code(other),
                code=tape_code(row.code),
            )
        )
    if report.is_measured and not known.report.is_measured:
        known.report = replace(report, name=known.report.name, billable_minutes=known.report.billable_minutes)
        unit.session.flush()
        _tell(unit, row, "file-read-again", say("file_check", "event-read-again", name=known.report.name))
    return file_checking.record(known, row)


def _count_minutes(unit: Unit, row: TapeRow, *, sure: bool = True) -> None:
    exact = tape_facts.minutes_of_files(unit, row)
    if exact is not None:
        tape_facts.take_minutes(row, exact, sure=sure)
    else:
        row.played_minutes = tape_facts.minutes_off_deck(unit, row)


def _standing() -> Select[RecordingRow]:
    return select(RecordingRow).where(RecordingRow.struck_at.is_(None)).order_by(RecordingRow.id)


def _standing_with(unit: Unit, sha256: str) -> RecordingRow | None:
    return unit.session.scalars(_standing().where(RecordingRow.sha256 == sha256)).first()


def _tell(unit: Unit, row: TapeRow, kind: str, words: str) -> None:
    files = [each.sha256 for each in file_checking.standing(unit, row)]
    history.append_of_tape(unit, row, kind, words, played_minutes=row.played_minutes, files=files)
