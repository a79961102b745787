"""Whether what the shop's tables say is what its history tells: the check that sees one altered figure."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator
from contextlib import closing
from typing import Any

from sqlalchemy import Text, func, select, type_coerce
from sqlalchemy.exc import SQLAlchemyError

from core.model import serialization
from core.model.repair_records import Splice
from core.store import history, lookup, row_records
from core.store.audits import copy_audit, handover_audit, row_audit, sign_off_audit
from core.store.job_tables import AgreementVersionRow, JobRow, PaymentRow, PickupRow
from core.store.shop_tables import SettingsVersionRow
from core.store.tape_tables import DonorRow, IncidentRow, RecordingRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

_UNREADABLE = (ValueError, LookupError, TypeError, AttributeError, ArithmeticError)
"""What comes of a row that no program of ours wrote."""


def verify(unit: Unit) -> tuple[str, ...]:
    """One sentence for each place where tables and history differ; none when all is well."""
    found: list[str] = []
    for part in (history.verify, _by_meaning, row_audit.differences):
        try:
            found.extend(part(unit))
        except _UNREADABLE:
            found.append(say("records", "audit_unreadable"))
    return tuple(dict.fromkeys(found))


def _by_meaning(unit: Unit) -> tuple[str, ...]:
    """What each line of history tells of a thing, beside that thing: says best what an alteration means."""
    found: list[str] = []
    try:
        told = _Told(unit)
        for part in (_tapes, _papers, _agreements, _money, _donors, _incidents, _settings):
            found.extend(part(unit, told))
        found.extend(handover_audit.differences(unit, told.erased))
        found.extend(sign_off_audit.differences(unit, told.erased))
        found.extend(copy_audit.differences(unit, told.erased))
    except (*_UNREADABLE, SQLAlchemyError):
        found.append(say("records", "audit_unreadable"))
    return tuple(found)


class _Told:
    """What the history says about each tape, job and pickup."""

    def __init__(self, unit: Unit) -> None:
        self.tapes: dict[str, dict[str, Any]] = defaultdict(dict)
        self.quotes: dict[str, str] = {}
        self.pickups: dict[str, str] = {}
        self.paid: dict[str, int] = defaultdict(int)
        self.donors: dict[int, int] = {}
        self.incidents: dict[int, str] = {}
        self.agreements: dict[tuple[str, int], str] = {}
        self.settings: dict[tuple[str, int], str] = {}
        self.erased: set[str] = set()
        """Orders whose lines say nothing any more: their rows have digests, and nothing else."""
        for event in history.lines(unit):
            if history.is_erased(event):
                self.erased.add(event.job or "")
                continue
            self._take(event.kind, event.job or "", event.tape, _payload(event.payload))

    def _take(self, kind: str, job: str, tape: str | None, said: dict[str, Any]) -> None:
        if kind == "incident":
            self.incidents[int(said.pop("incident", 0))] = str(said.pop("line_sha256", ""))
        if tape is not None:
            self.tapes[tape].update(said)
        elif kind == "booked":
            self.quotes[job] = str(said.get("quote_sha256"))
            self._take_version(job, said)
        elif kind == "pickup":
            self.pickups[str(said.get("command"))] = str(said.get("record_sha256"))
        elif kind == "paid":
            self.paid[job] += int(said.get("minor", 0))
        elif kind in ("settings", "prices"):
            self.settings[str(said.get("part")), int(said.get("number", 0))] = str(said.get("value_sha256"))
        elif kind == "agreement":
            self._take_version(job, said)
        elif kind == history.DONOR:
            self.donors[int(said.get("donor", 0))] = int(said.get("left", 0))

    def _take_version(self, job: str, said: dict[str, Any]) -> None:
        if "version_sha256" in said:  # older orders were booked without
            self.agreements[job, int(said.get("number", 0))] = str(said["version_sha256"])


def _checksums(unit: Unit) -> dict[int, list[str]]:
    """By tape id: the SHA-256 of the files that stand, oldest first."""
    found: dict[int, list[str]] = {}
    for tape, sha in unit.session.execute(
        select(RecordingRow.tape_id, RecordingRow.sha256)
        .where(RecordingRow.struck_at.is_(None))
        .order_by(RecordingRow.id)
    ):
        found.setdefault(tape, []).append(sha)
    return found


def _payload(text: str) -> dict[str, Any]:
    try:
        said = json.loads(text)
    except ValueError:
        return {}  # the chain has named this line already
    return said if isinstance(said, dict) else {}


def _tapes(unit: Unit, told: _Told) -> Iterator[str]:
    asked = lookup.whole_tapes().order_by(TapeRow.id).execution_options(yield_per=500)
    seen, files = set(), _checksums(unit)
    for row in _to_the_end(unit.session.scalars(asked)):
        seen.add(row.code)
        if row.code[:6] in told.erased:
            continue
        said = told.tapes.get(row.code, {})
        for name, value in _facts(row, files.get(row.id, [])).items():
            if _as_read(name, said.get(name, _UNTOLD[name])) != value:
                yield say(
                    "records",
                    "audit_tape_differs",
                    code=locale_figures.tape_code(row.code),
                    name=name,
                    value=f"{value!r}",
                    get=f"{said.get(name)!r}",
                )
    yield from (
        say("records", "audit_tape_unknown", code=locale_figures.tape_code(code))
        for code in told.tapes
        if code not in seen
    )


_UNTOLD: dict[str, Any] = {
    "station": None,
    "findings": None,
    "settled": [],
    "not_for_reuse": False,
    "marked": False,
    "played_minutes": None,
    "splices": [],
    "files": [],
    "tried": [],
    "look": None,
    "label_astray": False,
    "rests_until": None,
    "disposition": None,
    "signed_off_by": None,
}
"""What holds as long as the history does not say otherwise."""


def _facts(row: TapeRow, files: list[str]) -> dict[str, Any]:
    record = row_records.tape(row)
    facts: dict[str, Any] = serialization.plain(
        {
            "station": row.station,
            "findings": row.findings,
            "settled": row.settled,
            "not_for_reuse": row.not_for_reuse,
            "marked": row.marked_at is not None,
            "played_minutes": row.played_minutes,
            "splices": record.splices,
            "files": files,
            "tried": row_records.trials(row),
            "look": row.look,
            "label_astray": record.label_astray,
            "rests_until": record.rests_until,
            "disposition": row.disposition,
            "signed_off_by": row.signed_off_by,
        }
    )
    return facts


def _as_read(name: str, said: Any) -> Any:
    """What an older line says in the words of today: what splices have gained since then is unknown there."""
    if name != "splices":
        return said
    try:
        return serialization.plain(serialization.record_of(tuple[Splice, ...], said))
    except ValueError:
        return said


def _to_the_end(rows: Any) -> Iterator[Any]:
    """Every row; a server's cursor is let go of even where one of them cannot be read."""
    with closing(rows):
        yield from rows


def _papers(unit: Unit, told: _Told) -> Iterator[str]:
    """The quote as agreed and the receipts as signed are kept letter for letter."""
    quotes = unit.session.execute(select(JobRow.number, type_coerce(JobRow.quote, Text)).order_by(JobRow.id))
    for number, text in quotes:
        if number not in told.erased and history.fingerprint(text) != told.quotes.get(number):
            yield say("records", "audit_quote_altered", number=number)
    receipts = select(PickupRow.command, JobRow.number, type_coerce(PickupRow.record, Text)).join(
        JobRow, JobRow.id == PickupRow.job_id
    )
    found = set()
    for command, number, text in unit.session.execute(receipts):
        found.add(command)
        if number not in told.erased and history.fingerprint(text) != told.pickups.get(command):
            yield say("records", "audit_receipt_altered", number=number)
    if missing := told.pickups.keys() - found:
        yield say("records", "audit_receipts_missing", count=len(missing))


def _agreements(unit: Unit, told: _Told) -> Iterator[str]:
    """Each version as it was entered; those of orders booked before there were versions have no line."""
    rows = unit.session.execute(
        select(AgreementVersionRow, JobRow.number)
        .join(JobRow, JobRow.id == AgreementVersionRow.job_id)
        .order_by(AgreementVersionRow.id)
        .execution_options(yield_per=500)
    )
    left = dict(told.agreements)
    for row, number in _to_the_end(rows):
        if number in told.erased:
            continue
        said = left.pop((number, row.number), None)
        if said != row_records.fingerprint(row) and (said is not None or (number, 1) in told.agreements):
            yield say("records", "audit_agreement_altered", number=number, n=row.number)
    for number, n in left:
        if number not in told.erased:
            yield say("records", "audit_agreement_altered", number=number, n=n)


def _money(unit: Unit, told: _Told) -> Iterator[str]:
    paid = select(JobRow.number, func.coalesce(func.sum(PaymentRow.minor), 0)).join_from(
        JobRow, PaymentRow, isouter=True
    )
    for number, minor in unit.session.execute(paid.group_by(JobRow.number).order_by(JobRow.number)):
        if number not in told.erased and minor != told.paid.get(number, 0):
            said = told.paid.get(number, 0)
            yield say("records", "audit_payments_differ", number=number, minor=minor, said=said)


def _donors(unit: Unit, told: _Told) -> Iterator[str]:
    for row in unit.session.scalars(select(DonorRow).order_by(DonorRow.id)):
        if row.count != (said := told.donors.pop(row.id, None)):
            kind = f"{row.format} {row.part.value}"
            yield say("records", "audit_donors_differ", count=row.count, kind=kind, said=said)
    if told.donors:
        yield say("records", "audit_donors_missing", count=len(told.donors))


def _incidents(unit: Unit, told: _Told) -> Iterator[str]:
    """Every line about a lost or damaged tape is kept letter for letter."""
    asked = select(IncidentRow, TapeRow.code).join(TapeRow, TapeRow.id == IncidentRow.tape_id)
    rows = [row for row, code in unit.session.execute(asked) if code[:6] not in told.erased]
    found = {row.id: history.fingerprint(serialization.dumps(row_records.incident_line(row))) for row in rows}
    for key in sorted(found.keys() | told.incidents.keys()):
        if found.get(key) != told.incidents.get(key):
            yield say("records", "audit_incident_differs", number=key)


def _settings(unit: Unit, told: _Told) -> Iterator[str]:
    rows = unit.session.scalars(select(SettingsVersionRow).order_by(SettingsVersionRow.id))
    found = {(row.part, row.number): history.fingerprint(row.value) for row in rows if row.by}
    for key in sorted(found.keys() | told.settings.keys()):
        if found.get(key) != told.settings.get(key):
            yield say("records", "settings_differ", part=key[0], number=key[1])
