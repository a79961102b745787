"""What a box of tapes costs, charge by charge, with the reason for each figure.

Three columns: the 10th, 50th and 90th percentile of the total. The charge of a line is what each of its tapes
by itself would cost at that percentile of its own play time. Figures of single tapes do not add up to those
of a box (`drawn_box`), so one charge more says what counting the tapes together changes, and every column
adds up.

Rounding: the price of each tape, each action, each piece, each percentage, each tax is rounded once to
minor units (`core.model.money`); everything after that is a sum of whole numbers. Adding a tape, a minute, a
repair or a copy never makes the total smaller. What is owed may then be rounded to coins there are; that is a
figure of its own beside the total.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from core.model.money import NOTHING, MoneyRange, by_column, flat, rounded, total
from core.model.price_terms import ChargeKind, InspectionWay
from core.model.quote_records import Charge, Price, QuotedTape, Storage
from core.pricing import agreed_ceiling as ceilings
from core.pricing import taxes, whole_box
from core.pricing.charges import captures, copies, repairs
from core.pricing.disposition_rules import is_inspected_only
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode
from core.wording.messages import say

PERCENT = taxes.PERCENT


def price(
    tapes: Sequence[QuotedTape],
    storage: Storage,
    book: PriceBook,
    *,
    rush: bool,
    agreed_ceiling: int | None = None,
    exempt: str = "",
    agreed_flat: int | None = None,
    called_off_minor: int = 0,
    drawn: MoneyRange | None = None,
    at_most: int | None = None,
) -> Price:
    """The price of these tapes with their copies, after this book.

    ``agreed_ceiling`` (gross, minor units) is what was promised at the counter: the total is held to
    it by a charge of its own. At pickup the tapes come with the minutes that were really played, so
    that the three columns agree. ``exempt``: why the customer pays no tax. ``agreed_flat`` is what is owed in
    every column whatever the charges come to, in place of a ceiling; ``called_off_minor`` the fee for what
    was called off. ``drawn`` is what copying the tapes costs together (`drawn_box.copying`); None: each by
    itself, as where their minutes are known. The ceiling is made from ``at_most``, what copying them seldom
    costs more than (`drawn_box.at_most`); None: from the highest estimate.
    WrongInput when the book has no price for a format, repair or piece.
    """
    played = captures(tapes, book)
    charges = [charge for charge, _ in played] + repairs(tapes, book)
    less = whole_box.quantity_break([each for _, each in played], book)
    apart = total(charge.amount for charge in (*(charge for charge, _ in played), *less))
    each = [amount for _, amounts in played for amount in amounts]
    charges += less + whole_box.counted_together(drawn, apart, each, book)
    further = 0 if at_most is None else max(0, at_most - _copying(charges).high)
    charges += _rush(charges, book) if rush else []
    charges += copies(storage, book)
    charges += (smallest := _smallest_job(charges, book))
    charges += inspection_fee(tapes, book)
    charges += _called_off(called_off_minor, book)
    if agreed_flat is not None:
        charges += ceilings.brought_to(agreed_flat, charges, book, exempt)
        return _at_flat(_settled(tuple(charges), book, agreed_flat, exempt), agreed_flat, book)
    if agreed_ceiling is not None:
        charges += ceilings.held_to(agreed_ceiling, charges, book, exempt)
    made = _settled(tuple(charges), book, agreed_ceiling, exempt)
    if not further or agreed_ceiling is not None:
        return made
    further = _dearer(further, total(one.amount for one in smallest).high, book, rush=rush, exempt=exempt)
    return replace(made, ceiling_minor=_ceiling(max(made.gross.high, made.due.high) + further, book))


def _copying(charges: Iterable[Charge]) -> MoneyRange:
    return total(charge.amount for charge in charges if charge.code.startswith(whole_box.COPYING))


def _dearer(work: int, topped_up: int, book: PriceBook, *, rush: bool, exempt: str) -> int:
    """By how much an order is dearer, all in all, with so much more work of copying in it.

    ``topped_up``: what its smallest order adds, which the work takes the place of.
    """
    work = max(0, work + (_percent(work, book.rush_percent) if rush else 0) - topped_up)
    rates = () if exempt or book.tax.mode is TaxMode.INSIDE else book.taxes
    percent = sum((rate.percent for rate in rates if ChargeKind.COPYING in rate.on), Decimal(0))
    return work + _percent(work, percent)


def _rush(charges: Sequence[Charge], book: PriceBook) -> list[Charge]:
    """A percentage of the work; one charge for the charges that bear the same taxes."""
    of = taxes.bundles(book)
    by_taxes: dict[taxes.Bundle, list[Charge]] = {}
    for charge in charges:
        by_taxes.setdefault(of[charge.kind], []).append(charge)
    return [
        _hurried(total(one.amount for one in work), work[0].kind, book) for work in by_taxes.values()
    ] or [_hurried(NOTHING, ChargeKind.COPYING, book)]


def _hurried(work: MoneyRange, kind: ChargeKind | None, book: PriceBook) -> Charge:
    return Charge(
        code="rush",
        text=say("charges", "rush-text", percent=str(book.rush_percent)),
        because=say("charges", "rush-because"),
        quantity=say("charges", "rush-quantity", percent=str(book.rush_percent)),
        unit_minor=0,
        amount=by_column(lambda column: _percent(column[0], book.rush_percent), [work]),
        kind=kind,
    )


def _smallest_job(charges: Sequence[Charge], book: PriceBook) -> list[Charge]:
    """A top-up where the work in the box costs less than the smallest job.

    What bears other taxes than copying does not count: else work could take the place of a top-up that bears
    more tax, and cost less.
    """
    amount = taxes.bundled(charges, book).get(taxes.bundles(book)[ChargeKind.COPYING], NOTHING)
    if amount.high <= 0:
        return []
    missing = by_column(lambda column: max(0, book.minimum_minor - column[0]), [amount])
    if missing == NOTHING:
        return []
    return [
        Charge(
            code="minimum",
            text=say("charges", "minimum-text"),
            because=say("charges", "minimum-because", amount=book.spelled(book.minimum_minor)),
            quantity="1",
            unit_minor=book.minimum_minor,
            amount=missing,
            kind=ChargeKind.COPYING,
        )
    ]


def _called_off(minor: int, book: PriceBook) -> list[Charge]:
    """The fee for what was called off, after all that counts work."""
    if not minor:
        return []
    because = say(
        "charges",
        "canceled-because",
        price=book.spelled(book.cancellation_minor),
        percent=str(book.cancellation_percent),
    )
    text = say("charges", "canceled-text")
    return [Charge("cancellation", text, because, "1", minor, flat(minor), ChargeKind.COPYING)]


def cancellation_fee(book: PriceBook, net_minor: int, *, whole: bool) -> int:
    """What calling off work worth ``net_minor`` (before tax) costs; ``whole``: it is the whole order."""
    return _percent(net_minor, book.cancellation_percent) + (book.cancellation_minor if whole else 0)


def inspection_fee(tapes: Iterable[QuotedTape], book: PriceBook) -> list[Charge]:
    """What is charged where tapes are looked over and not copied, for each or once."""
    fee, count = book.inspection_fee, sum(is_inspected_only(tape, book.dispositions) for tape in tapes)
    if not fee.minor or not count:
        return []
    times = count if fee.way is InspectionWay.PER_TAPE else 1
    return [
        Charge(
            code="inspection",
            text=say("charges", "inspection-text"),
            because=say("charges", f"inspection-{fee.way.value}", tapes=count),
            quantity=str(times),
            unit_minor=fee.minor,
            amount=flat(fee.minor * times),
            kind=ChargeKind.COPYING,
        )
    ]


def _settled(charges: tuple[Charge, ...], book: PriceBook, agreed_ceiling: int | None, exempt: str) -> Price:
    """The charges with their taxes, and what is owed of them."""
    found = taxes.taxed(charges, book, exempt)
    gross = found.gross
    rounding = by_column(lambda column: book.rounding.to_add(column[0], agreed_ceiling), [gross])
    due = gross + rounding
    deposit = _percent(due.likely, book.deposit_percent)
    return Price(
        currency=book.currency,
        charges=found.charges,
        net=found.net,
        tax=found.tax,
        gross=gross,
        tax_words=found.words,
        ceiling_minor=_ceiling(max(gross.high, due.high), book) if agreed_ceiling is None else agreed_ceiling,
        deposit_minor=deposit + book.rounding.to_add(deposit),
        taxes=found.taxes,
        rounding=rounding,
        exempt=exempt if book.taxes else "",
        inspection_fee=book.inspection_fee if book.inspection_fee.minor else None,
        storage_fee=book.storage_fee if book.storage_fee.minor else None,
    )


def _at_flat(made: Price, agreed: int, book: PriceBook) -> Price:
    """The same with what is owed as agreed: a minor unit may be out of reach of the tax, and is rounding."""
    if not made.charges:
        return made
    deposit = _percent(agreed, book.deposit_percent)
    return replace(
        made,
        rounding=by_column(lambda column: agreed - column[0], [made.gross]),
        deposit_minor=deposit + book.rounding.to_add(deposit),
    )


def _ceiling(highest: int, book: PriceBook) -> int:
    """The highest estimate with the book's margin, up to a whole unit of the currency."""
    with_margin = highest + _percent(highest, book.ceiling_percent)
    return -(-with_margin // book.whole_unit) * book.whole_unit


def _percent(minor: int, percent: Decimal) -> int:
    return rounded(minor * percent / PERCENT)
