"""Files signed off by name, finding by finding; a sign-off withdrawn with its reason."""

from __future__ import annotations

from collections.abc import Mapping

from core.capture.check_records import Accepted, Severity, TapeCheck, unmet
from core.model import entered_text
from core.model.errors import Refused, WrongInput, one_of
from core.model.names import TapeCode
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.services.checking import file_checking
from core.services.own_shop import people
from core.store import current_settings, history, lookup, permissions, row_records
from core.store.audits import sign_off_audit
from core.store.steps import step
from core.store.tables import SignOffRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say

NOTHING_ACCEPTED: Mapping[str, str] = {}


@step
def sign_off(
    unit: Unit,
    code: TapeCode,
    *,
    name: str,
    accept: Mapping[str, str] = NOTHING_ACCEPTED,
) -> TapeCheck:
    """Keeps that ``name`` checked the files of a tape, which may then be ready.

    ``accept``: by its code every finding that is not fine, with why it may stay so; needed where it says
    stop. Refused while a finding is not accepted, without files, or before the tape has played to its end;
    WrongInput for a name that is nobody's here, or a finding that there is not.
    """
    row = lookup.tape_in_the_shop(unit, code)
    said = {each: entered_text.line(say("file_check", "why"), why) for each, why in accept.items()}
    signer = entered_text.line(say("file_check", "by"), name)
    found = file_checking.check_of(unit, row)
    _check_place(row, found)
    _check_name(unit, signer)
    accepted = _accepted(found, said)
    _keep(
        unit,
        row,
        name=signer,
        files=tuple(each.report.sha256 for each in found.files),
        accepted=accepted,
    )
    return file_checking.check_of(unit, row)


@step
def withdraw(unit: Unit, code: TapeCode, *, because: str) -> TapeCheck:
    """Withdraws the sign-off of a tape, which is checked again; the history keeps why.

    Refused where nothing is signed off or the tape has gone home; WrongInput without a reason.
    """
    row = lookup.tape_in_the_shop(unit, code)
    reason = entered_text.reason(say("file_check", "why-withdraw"), because)
    signed = file_checking.signed(unit, row)
    if signed is None:
        raise Refused(say("file_check", "not-signed", code=tape_code(row.code)))
    permissions.check_strike(unit, signed.by)
    _keep(unit, row, name=None, because=reason)
    check_again(unit, row)
    return file_checking.check_of(unit, row)


def check_again(unit: Unit, row: TapeRow) -> None:
    """Brings a tape back to checking that was ready as copied and whose files are not signed off any more."""
    became = row_records.disposition(row)
    if row.station is not Station.READY or (became is not None and not became.is_copied):
        return
    now = file_checking.check_of(unit, row)
    if row_records.is_recorded(row) and (not now.files or now.is_signed_off):
        return
    row.station, row.since, row.disposition = Station.BEING_CHECKED, unit.now, None
    history.append_of_tape(unit, row, "moved", say("file_check", "event-check-again"))


def _check_place(row: TapeRow, found: TapeCheck) -> None:
    code = tape_code(row.code)
    if not found.files:
        raise Refused(say("file_check", "no-file", code=code))
    if row.station not in (Station.BEING_CHECKED, Station.READY):
        raise Refused(say("file_check", "not-there", code=code, station=spoken(row.station)))
    if found.is_signed_off and found.signed is not None:
        raise Refused(say("file_check", "signed-already", code=code, name=found.signed.name))


def _check_name(unit: Unit, name: str) -> None:
    """Where people work here by name it is one of them; one with a PIN signs only when signed in."""
    if not name:
        raise WrongInput(say("file_check", "by"), name, say("file_check", "a-name"))
    if not current_settings.read(unit).working_staff:
        return
    if people.person(unit, name).pin and name != unit.who:
        raise Refused(say("file_check", "signs-alone", name=name))


def _accepted(found: TapeCheck, said: Mapping[str, str]) -> tuple[Accepted, ...]:
    wanted = {each.code: each for each in found.findings if not each.is_fine}
    for code in said:
        if code not in wanted:
            raise WrongInput(say("file_check", "finding"), code, one_of(wanted))
    if left := unmet(found.findings, said):
        stops = locale_figures.listed([each.code for each in left if each.severity is Severity.STOP])
        names = locale_figures.listed([each.code for each in left])
        code = tape_code(found.tape)
        raise Refused(
            say("file_check", "not-accepted", code=code, names=names, stops=stops, given=len(stops))
        )
    return tuple(Accepted(code, each.severity, each.words, said[code]) for code, each in wanted.items())


def _keep(
    unit: Unit,
    row: TapeRow,
    *,
    name: str | None,
    files: tuple[str, ...] = (),
    accepted: tuple[Accepted, ...] = (),
    because: str = "",
) -> None:
    made = SignOffRow(
        tape_id=row.id,
        name=name,
        files=files,
        accepted=accepted,
        because=because,
        command=unit.command,
        at=unit.now,
        by=unit.who,
    )
    unit.session.add(made)
    unit.session.flush()
    row.signed_off_by = name
    kind, words = "signed-off", _signed_words(made)
    if name is None:
        kind, words = "sign-off-withdrawn", say("file_check", "event-withdrawn", reason=because)
    sha = sign_off_audit.fingerprint(made)
    history.append_of_tape(unit, row, kind, words, sign_off=made.id, line_sha256=sha)


def _signed_words(row: SignOffRow) -> str:
    told = [
        say("file_check", "event-accepted", finding=each.words, why=each.note, given=len(each.note))
        for each in row.accepted
    ]
    head = say("file_check", "event-signed", name=row.name or "", files=len(row.files))
    return " ".join([head, *told])
