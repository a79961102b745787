"""The money of a job: what it costs as it stands now, and a line for every payment, never altered.

A mistake gets another line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from core.model import common_random_numbers, entered_text
from core.model.accounts import payment_methods
from core.model.accounts.payment_methods import BALANCE, REFUND, ROUNDING, TAKEN
from core.model.copies.copy_records import DOWNLOAD
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.money import MoneyRange
from core.model.names import JobNumber
from core.model.own_shop.settings_records import Permission
from core.model.quote_records import Copy, Price, QuotedTape, Storage
from core.model.ranges import exactly
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from core.pricing import agreed_flat, box_price, disposition_rules, drawn_box
from core.pricing.drawn_box import AlikeTapes
from core.pricing.price_book import PriceBook
from core.scheduling import box_scenarios, opening_hours
from core.scheduling.plan_records import drawn_as
from core.services import billed_tapes
from core.services.accounts import cash_rounding
from core.store import current_prices, current_settings, history, lookup, permissions, row_records
from core.store.steps import step
from core.store.tables import CopyRow, JobRow, PaymentRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

MOST_MINOR = 100_000_000
"""A million of the usual currency: anything above is a slip of the finger."""


def price(unit: Unit, row: JobRow) -> Price:
    """Minutes played where known, else the likely ones; by the order's own price book, held to the ceiling.

    What a version of the agreement left out is not charged; the fee for calling off is.
    """
    return price_of(unit, row, lookup.standing_tapes(row), ceiling_minor=row.agreement[-1].ceiling_minor)


def price_of(
    unit: Unit,
    row: JobRow,
    tapes: Sequence[TapeRow],
    *,
    ceiling_minor: int | None,
    fee_minor: int | None = None,
    habits: ShopHabits | None = None,
    exempt: str | None = None,
    pieces: Storage | None = None,
) -> Price:
    """The price if ``tapes`` were all of an order; ``ceiling_minor`` None: nothing is taken off.

    ``fee_minor`` None: the fee as agreed so far. ``habits`` None: the likely minutes where nobody knows them;
    else they are a range, and so is the price, all tapes drawn together by these habits. ``exempt`` None:
    taxed as agreed so far. ``pieces`` None: with the copies as they are ordered.
    """
    book, job = book_of(unit, row), row_records.job(row)
    billed = [billed_tapes.as_it_stands(each, book.dispositions, exact=habits is None) for each in tapes]
    drawn, most = (None, None) if habits is None else _drawn(billed, book, habits)
    return box_price.price(
        billed,
        pieces or pieces_of(row, lookup.standing_copies(row), only_given=_has_nothing_to_copy(tapes)),
        _completed(unit, book, billed),
        rush=row.rush,
        agreed_ceiling=ceiling_minor,
        called_off_minor=row.agreement[-1].fee_minor if fee_minor is None else fee_minor,
        exempt=job.tax_exempt if exempt is None else exempt,
        agreed_flat=agreed_flat.owed(job, billed, book),
        drawn=drawn,
        at_most=most,
    )


def _drawn(
    tapes: Sequence[QuotedTape], book: PriceBook, habits: ShopHabits
) -> tuple[MoneyRange | None, int | None]:
    """As `drawn_box.copying` and `drawn_box.at_most`, from the numbers its quote was drawn from."""
    lots = [_lot(tape, habits) for tape in tapes if disposition_rules.is_played(tape, book.dispositions)]
    box = box_scenarios.of(habits)
    return drawn_box.copying(lots, book, box), drawn_box.at_most(lots, book, box)


def _lot(tape: QuotedTape, habits: ShopHabits) -> AlikeTapes:
    """One tape, drawn from its belief where that is still the one behind its minutes."""
    believed = drawn_as(facts(tape.draft), habits, tape.minutes)
    key = common_random_numbers.key(tape.line, tape.n)
    return AlikeTapes(tape, None if believed is None else believed[0], (key,))


def book_of(unit: Unit, row: JobRow) -> PriceBook:
    """The price book an order was quoted from; what is added to the order is priced from it as well."""
    return current_prices.in_force(unit, row.quote.made_at.date(), row.quote.made_at)


@step
def take(
    unit: Unit,
    number: JobNumber,
    minor: int,
    *,
    kind: str = BALANCE,
    note: str = "",
    method: str | None = None,
) -> Job:
    """Takes ``minor`` (more than zero) for a job, by one of `payment_methods.METHODS`.

    Cash that pays all but what the coins of the currency cannot pay settles the order (`cash_rounding`).
    WrongInput for another kind, amount or method.
    """
    if kind not in TAKEN:
        raise WrongInput(
            say("orders", "payment"), kind, say("orders", "payment_kinds", kinds=", ".join(TAKEN))
        )
    row = lookup.job_row(unit, number)
    enter(unit, row, kind, _checked(minor), note, method)
    if method == payment_methods.CASH:
        round_off(unit, row, price(unit, row).due.likely)
    unit.session.flush()
    return row_records.job(row)


@step
def refund(unit: Unit, number: JobNumber, minor: int, *, note: str, method: str | None = None) -> Job:
    """Gives ``minor`` (more than zero) back; ``note`` says why.

    Refused beyond what was paid, or when the person acting may not give money back; WrongInput without a
    reason or for another amount.
    """
    permissions.check(unit, Permission.REFUND)
    row = lookup.job_row(unit, number)
    paid = sum(each.minor for each in row.payments)
    if _checked(minor) > paid:
        was_paid = locale_figures.money(paid, row.quote.price.currency)
        raise Refused(say("orders", "more_than_paid", paid=was_paid, number=row.number))
    if not entered_text.line(say("orders", "why"), note):
        raise WrongInput(say("orders", "why"), note, say("orders", "why_refund"))
    enter(unit, row, REFUND, -minor, note, method)
    unit.session.flush()
    return row_records.job(row)


def enter(unit: Unit, row: JobRow, kind: str, minor: int, note: str = "", method: str | None = None) -> None:
    """Adds one line to a job at hand; a refund is negative. WrongInput for a method that is none."""
    said = entered_text.line(say("orders", "note"), note)
    how = payment_methods.checked(method)
    amount = locale_figures.money(abs(minor), row.quote.price.currency)
    words = say(
        "orders", "event_paid", kind=kind, money=amount, note=said, given=len(said), method=how or "untold"
    )
    line = history.append(unit, "paid", words, job=row.number, minor=minor, payment=kind, method=how)
    row.payments.append(
        PaymentRow(kind=kind, minor=minor, at=unit.now, by=unit.who, method=how, note=said, line=line)
    )


def round_off(unit: Unit, row: JobRow, due_minor: int) -> None:
    """Settles what is left of ``due_minor`` after cash where no coin can pay it, below or above 0."""
    left = due_minor - sum(each.minor for each in row.payments)
    if cash_rounding.is_unpayable(left, row.payments[-1].minor, row.quote.price.currency):
        enter(unit, row, ROUNDING, left, method=payment_methods.CASH)


def _completed(unit: Unit, book: PriceBook, tapes: Sequence[QuotedTape]) -> PriceBook:
    """The book of the quote; what it has no price for, such as a repair added since, is charged as now."""
    if {repair.code for tape in tapes for repair in tape.verdict.repairs} <= book.repairs.keys():
        return book
    today = opening_hours.today(current_settings.read(unit), unit.now)
    return book.completed_by(current_prices.in_force(unit, today))


def _checked(minor: int) -> int:
    if not 0 < minor <= MOST_MINOR:
        raise WrongInput(say("orders", "amount"), minor, say("orders", "amount_bounds", most=MOST_MINOR))
    return minor


def pieces_of(row: JobRow, copies: Sequence[CopyRow], *, only_given: bool = False) -> Storage:
    """The pieces of these copies, each counted once; ``only_given``: of those handed over.

    A download takes no piece, and what holds the rest of a copy that went before is not charged again.
    """
    counts: Counter[tuple[str, str]] = Counter()
    for each in copies:
        if each.code != DOWNLOAD and each.follows is None and (each.handed_back_at or not only_given):
            counts[each.code, each.words] += each.pieces or 1
    pieces = tuple(Copy(code, words, exactly(count)) for (code, words), count in counts.items())
    return replace(row_records.quote(row).storage, copies=pieces)


def _has_nothing_to_copy(tapes: Sequence[TapeRow]) -> bool:
    """Whether all are settled and none of them was copied, so that no copies are made."""
    became = [row_records.disposition(each) for each in tapes]
    return all(each is not None and not each.is_copied for each in became)
