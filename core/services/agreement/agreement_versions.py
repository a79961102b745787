"""The versions of an order's agreement: each one appended, numbered, and never changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.model import entered_text, numbers
from core.model.agreement_records import AgreementKind, AgreementVersion, CeilingChoice, Consent
from core.model.errors import Conflict, WrongInput
from core.model.names import JobNumber, TapeCode
from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.pricing.agreement_differences import AgreementDifference, differences
from core.store import history as chain
from core.store import lookup, row_records
from core.store.tables import AgreementVersionRow, JobRow
from core.store.unit import Unit
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class NewVersion:
    """What a new version says; None: as in the version before."""

    kind: AgreementKind
    reason: str = ""
    consent: Consent | None = None
    quote: Quote | None = None
    codes: tuple[str, ...] | None = None
    ceiling_minor: int | None = None
    given_away_minor: int | None = None
    fee_minor: int | None = None
    promise: Promise | None = None
    choice: CeilingChoice | None = None
    tax_exempt: str | None = None
    """Why no tax is charged from now on; nothing: it is charged again; None: tax was not the question."""


def versions(unit: Unit, number: JobNumber) -> tuple[AgreementVersion, ...]:
    """Every version of an order's agreement, the first one first."""
    return of_row(lookup.job_row(unit, number))


def with_differences(
    unit: Unit, number: JobNumber
) -> tuple[tuple[AgreementVersion, tuple[AgreementDifference, ...]], ...]:
    """Every version with what it changed of the one before; the first one changed nothing."""
    found = versions(unit, number)
    changed = [differences(before, after) for before, after in pairwise(found)]
    return tuple(zip(found, ((), *changed), strict=True))


def of_row(row: JobRow) -> tuple[AgreementVersion, ...]:
    """Every version of an order at hand."""
    return tuple(_records(row))


def current(row: JobRow) -> AgreementVersionRow:
    """The version that holds."""
    return row.agreement[-1]


def begin(unit: Unit, row: JobRow, consent: Consent | None, told: Sequence[str] = ()) -> None:
    """Version 1 of an order that is booked now; the line of history that it was booked tells of it."""
    row.agreement.append(
        AgreementVersionRow(
            number=1,
            kind=AgreementKind.QUOTED if consent is None else AgreementKind.AGREED,
            quote=None,
            codes=None,
            ceiling_minor=row.quote.price.ceiling_minor,
            given_away_minor=0,
            fee_minor=0,
            promise=row.promise,
            reason="",
            choice=None,
            tax_exempt=None,
            command=None,
            content=None,
            at=unit.now,
            by=unit.who,
            agreed_by=consent.who if consent else None,
            how=consent.how if consent else None,
            strokes=consent.strokes if consent else (),
            told=tuple(told),
        )
    )


def enter(unit: Unit, row: JobRow, draft: NewVersion) -> AgreementVersionRow:
    """Appends the next version and its line of history."""
    before = current(row)
    made = AgreementVersionRow(
        number=before.number + 1,
        kind=draft.kind,
        quote=draft.quote,
        codes=draft.codes,
        ceiling_minor=_or(draft.ceiling_minor, before.ceiling_minor),
        given_away_minor=_or(draft.given_away_minor, before.given_away_minor),
        fee_minor=_or(draft.fee_minor, before.fee_minor),
        promise=draft.promise or row.promise,
        reason=draft.reason,
        choice=draft.choice,
        tax_exempt=draft.tax_exempt,
        command=None,
        content=None,
        at=unit.now,
        by=unit.who,
        agreed_by=draft.consent.who if draft.consent else None,
        how=draft.consent.how if draft.consent else None,
        strokes=draft.consent.strokes if draft.consent else (),
        told=(),
    )
    row.agreement.append(made)
    _tell(unit, row)
    unit.session.flush()
    return made


def check_newest(row: JobRow, based_on: int | None) -> None:
    """Conflict when there is a newer version than ``based_on``, the one that was looked at."""
    newest = current(row)
    if based_on is not None and based_on != newest.number:
        raise Conflict(
            say("agreement", "changed_meanwhile", who=newest.by, n=newest.number, number=row.number)
        )


def checked_consent(consent: Consent) -> Consent:
    """WrongInput unless it says who agreed, or where strokes lie off the pad."""
    who = entered_text.line(say("orders", "who_agreed"), consent.who)
    if not who:
        raise WrongInput(say("orders", "agreement"), consent.who, say("orders", "what_and_who"))
    if not all(0 <= x <= 1 and 0 <= y <= 1 for stroke in consent.strokes for x, y in stroke):
        off = say("handing_back", "stroke_off_pad")
        raise WrongInput(say("handing_back", "signature"), off, say("handing_back", "points"))
    return Consent(who, consent.how, consent.strokes)


def checked_reason(reason: str) -> str:
    """The reason of a change; WrongInput without one."""
    said = entered_text.line(say("orders", "what_was_agreed"), reason)
    if not said:
        raise WrongInput(say("orders", "agreement"), reason, say("orders", "what_and_who"))
    return said


def _records(row: JobRow) -> Iterator[AgreementVersion]:
    quote, number = row.quote, JobNumber(row.number)
    codes = tuple(numbers.tape_code(number, place) for place in range(1, len(quote.tapes) + 1))
    for each in row.agreement:
        quote = each.quote or quote
        codes = codes if each.codes is None else tuple(TapeCode(code) for code in each.codes)
        yield _record(each, quote, codes)


def _record(row: AgreementVersionRow, quote: Quote, codes: tuple[TapeCode, ...]) -> AgreementVersion:
    return AgreementVersion(
        number=row.number,
        kind=row.kind,
        quote=quote,
        codes=codes,
        ceiling_minor=row.ceiling_minor,
        given_away_minor=row.given_away_minor,
        fee_minor=row.fee_minor,
        promise=row.promise,
        reason=row.reason,
        agreed_by=row.agreed_by,
        consent=row_records.consent(row),
        choice=row.choice,
        at=row.at,
        by=row.by,
        told=row.told,
    )


def _or(wanted: int | None, before: int) -> int:
    return before if wanted is None else wanted


def _tell(unit: Unit, row: JobRow) -> None:
    """The line of history: what is compared with the table, and the words for a person."""
    made = current(row)
    words = say(
        "agreement",
        "event",
        kind=made.kind.value,
        n=made.number,
        who=made.agreed_by or "",
        how=made.how.value if made.how else "none",
        reason=made.reason,
        given=len(made.reason),
    )
    sha = row_records.fingerprint(made)
    chain.append(
        unit,
        "agreement",
        words,
        job=row.number,
        number=made.number,
        version_sha256=sha,
        ceiling=made.ceiling_minor,
        promise=made.promise.day,
    )
