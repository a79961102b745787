"""What a customer says yes to after booking: kept as a version, and tapes that waited for it go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from core.model import entered_text
from core.model.agreement_records import (
    AgreementKind,
    CeilingChoice,
    Consent,
    OfferedChoice,
)
from core.model.errors import WrongInput
from core.model.inventory import LONGEST_EXEMPTION
from core.model.job_records import Job
from core.model.names import JobNumber, TapeCode
from core.model.promise_records import Promise
from core.services import payments, promise_entries, promises
from core.services.agreement import (
    agreement_versions,
    ceiling_choices,
    ceiling_watch,
    left_out,
    standing_quote,
)
from core.services.agreement.agreement_versions import NewVersion
from core.store import lookup, row_records
from core.store.steps import step
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@step
def agree(
    unit: Unit,
    number: JobNumber,
    words: str,
    consent: Consent,
    *,
    ceiling_minor: int | None = None,
    promise: Promise | None = None,
    tax_exempt: str | None = None,
    based_on: int | None = None,
) -> Job:
    """Keeps what the customer said yes to after booking; a new ceiling or date holds from now on.

    ``tax_exempt``: why no tax is charged any more (nothing: it is charged again).

    ``words`` say what was agreed; tapes that waited because of the price go on where the new ceiling covers
    it. WrongInput without words or who agreed, or for an amount that cannot be.
    """
    row = lookup.job_row(unit, number)
    said, consent = agreement_versions.checked_reason(words), agreement_versions.checked_consent(consent)
    _check_ceiling(ceiling_minor)
    exempt = None if tax_exempt is None else why_exempt(tax_exempt)
    agreement_versions.check_newest(row, based_on)
    draft = NewVersion(
        _kind(row), said, consent, ceiling_minor=ceiling_minor, promise=promise, tax_exempt=exempt
    )
    _promise(unit, row, promise, said, consent)
    questions = ceiling_watch.open_questions(unit, row)
    agreement_versions.enter(unit, row, draft)
    ceiling_watch.send_on(unit, row, questions)
    ceiling_watch.keep_asking(unit, row)
    return row_records.job(row)


@step
def answer(
    unit: Unit,
    number: JobNumber,
    choice: CeilingChoice,
    consent: Consent,
    *,
    words: str = "",
    tape: TapeCode | None = None,
    ceiling_minor: int | None = None,
    based_on: int | None = None,
) -> Job:
    """Keeps the customer's answer to a price that would go over what was agreed, and sends the tapes on.

    ``tape`` as in `ceiling_choices.choices`; ``ceiling_minor`` is the new ceiling of *go on* where it is
    another than the one offered. Refused when no price is asked about; WrongInput for a ceiling that does not
    cover what the order costs already.
    """
    row, consent = lookup.job_row(unit, number), agreement_versions.checked_consent(consent)
    _check_ceiling(ceiling_minor)
    agreement_versions.check_newest(row, based_on)
    questions = ceiling_watch.open_questions(unit, row)
    about = ceiling_choices.about_tape(row, questions, tape)
    offered = _with_ceiling(
        unit, row, ceiling_choices.offered(unit, row, questions, choice, about), ceiling_minor
    )
    said = words.strip() or say("agreement", f"said_{choice.value.replace('-', '_')}")
    draft = replace(_draft(unit, row, offered, said), consent=consent)
    _leave(unit, row, offered, said)
    ceiling_watch.send_on(unit, row, questions, offered)
    draft = _requoted(unit, row, draft, consent)
    agreement_versions.enter(unit, row, draft)
    ceiling_watch.keep_asking(unit, row)
    return row_records.job(row)


def why_exempt(text: str) -> str:
    """Why a customer pays no tax, as it is kept; WrongInput when it is too long."""
    place, said = say("orders", "tax_exempt"), entered_text.line(say("orders", "tax_exempt"), text)
    if len(said) > LONGEST_EXEMPTION:
        raise WrongInput(place, said, say("readers", "why_exempt"))
    return said


def _kind(row: JobRow) -> AgreementKind:
    held = agreement_versions.current(row)
    return AgreementKind.AGREED if held.kind is AgreementKind.QUOTED else AgreementKind.REVISED


def _draft(unit: Unit, row: JobRow, offered: OfferedChoice, said: str) -> NewVersion:
    leaves = set(offered.leaves)
    whole = all(each.code in leaves for each in lookup.standing_tapes(row))
    fee = agreement_versions.current(row).fee_minor
    if offered.choice is CeilingChoice.RETURN_ALL:
        fee += ceiling_choices.fee_for(unit, row, [each for each in row.tapes if each.code in leaves])
    return NewVersion(
        AgreementKind.CANCELLED if whole else AgreementKind.REVISED,
        said,
        ceiling_minor=offered.ceiling_minor,
        given_away_minor=offered.given_away_minor,
        fee_minor=fee,
        choice=offered.choice,
    )


def _with_ceiling(unit: Unit, row: JobRow, offered: OfferedChoice, ceiling: int | None) -> OfferedChoice:
    if ceiling is None:
        return offered
    stands = ceiling_watch.standing_of(unit, row)
    least = stands.stands_minor - stands.given_away_minor
    if offered.choice is not CeilingChoice.GO_ON or ceiling < least:
        accepted = say("agreement", "ceiling_covers", least=locale_figures.money(least, stands.currency))
        raise WrongInput(say("orders", "ceiling"), ceiling, accepted)
    return replace(offered, ceiling_minor=ceiling)


def _leave(unit: Unit, row: JobRow, offered: OfferedChoice, said: str) -> None:
    number = agreement_versions.current(row).number + 1
    leaves: Sequence[TapeRow] = [each for each in row.tapes if each.code in set(offered.leaves)]
    left_out.leave_out(unit, row, leaves, number, said)


def _requoted(unit: Unit, row: JobRow, draft: NewVersion, consent: Consent) -> NewVersion:
    """The version with the order quoted as it stands after the answer, and the day that it leads to."""
    promise = promises.as_it_looks(unit, row)
    _promise(unit, row, promise if promise != row.promise else None, draft.reason, consent)
    quote = standing_quote.of(unit, row, row_records.quote(row).inventory)
    return replace(draft, quote=quote, codes=standing_quote.codes(row), promise=promise)


def _promise(unit: Unit, row: JobRow, promise: Promise | None, said: str, consent: Consent) -> None:
    if promise is not None:
        row.promise = promise
        promise_entries.enter(unit, row, promise, said, consent.who)


def _check_ceiling(minor: int | None) -> None:
    if minor is not None and not 0 <= minor <= payments.MOST_MINOR:
        raise WrongInput(say("orders", "ceiling"), minor, say("orders", "amount_not_negative"))
