"""Whether a caller is who they say, asked first: by the digits of their phone number or a pass-phrase."""

from __future__ import annotations

from core.model import folding
from core.model.handover_records import HandoverWishes
from core.model.job_records import Customer
from core.model.names import JobNumber
from core.services.after_ready import handover_wishes
from core.store import history, lookup, row_records
from core.store.steps import special_step, step
from core.store.unit import Unit
from core.wording.messages import say

NO, DIGITS, PASS_PHRASE, NAME = "no", "digits", "pass-phrase", "name"
DIGITS_ASKED = 4


def wanted(rule: str, customer: Customer, wishes: HandoverWishes) -> str:
    """What is asked first by the shop's ``rule``: nothing, the pass-phrase, the last digits of the phone
    number, or only the name where the order has neither."""
    if rule == NO:
        return NO
    if rule == PASS_PHRASE and wishes.pass_phrase:
        return PASS_PHRASE
    return DIGITS if len(last_digits(customer)) == DIGITS_ASKED else NAME


@special_step(secrets=("answer",))
def fits(unit: Unit, number: JobNumber, asked: str, answer: str) -> bool:
    """Whether a caller's answer to what was ``asked`` is right. A wrong one is written into the history."""
    row = lookup.job_row(unit, number)
    customer = row_records.customer(row.customer)
    wishes = handover_wishes.of_row(unit, row)
    if asked == PASS_PHRASE:
        is_right = bool(wishes.pass_phrase) and handover_wishes.fits(wishes.pass_phrase, answer)
    else:
        is_right = _ends(customer, answer)
    if not is_right:
        history.append(unit, "caller-unsure", say("telling", "event_unsure", asked=asked), job=row.number)
    return is_right


@step
def vouch(unit: Unit, number: JobNumber) -> None:
    """Writes down that whoever is here knows the caller and answered without digits or pass-phrase."""
    row = lookup.job_row(unit, number)
    history.append(unit, "caller-known", say("telling", "event_known"), job=row.number)


def is_told_by(query: str, customer: Customer) -> bool:
    """Whether what was typed to find the order were the last digits already."""
    return not any(sign.isalpha() for sign in query) and _ends(customer, query)


def last_digits(customer: Customer) -> str:
    """The digits that are asked for; fewer when the phone number has no more."""
    return folding.digits(customer.phone or "")[-DIGITS_ASKED:]


def _ends(customer: Customer, answer: str) -> bool:
    said = folding.digits(answer)
    return len(said) >= DIGITS_ASKED and folding.digits(customer.phone or "").endswith(said)
