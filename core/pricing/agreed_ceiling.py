"""What is taken off so that nobody pays more than was agreed, or added too where a flat sum was agreed.

Tax and rounding are in what was agreed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from core.model.money import MoneyRange, shared_out
from core.model.price_terms import ChargeKind
from core.model.quote_records import Charge
from core.pricing import taxes
from core.pricing.price_book import PriceBook
from core.pricing.taxes import Bundle
from core.wording.messages import say


def held_to(ceiling: int, charges: Sequence[Charge], book: PriceBook, exempt: str) -> list[Charge]:
    """One charge below 0 for the charges that bear the same taxes, in proportion to what they add up to."""
    return _moved("ceiling", ceiling, charges, book, exempt)


def brought_to(agreed: int, charges: Sequence[Charge], book: PriceBook, exempt: str) -> list[Charge]:
    """The same, above 0 where the charges come to less: then the total is what was agreed in every column."""
    return _moved("flat", agreed, charges, book, exempt)


def _moved(code: str, agreed: int, charges: Sequence[Charge], book: PriceBook, exempt: str) -> list[Charge]:
    bundles, of = taxes.bundled(charges, book), taxes.bundles(book)
    kinds = {of[charge.kind]: charge.kind for charge in reversed(charges)}
    most = 2 * (agreed + 1) if code == "flat" else 0
    low, likely, high = (
        _taken_off(
            agreed,
            {bundle: getattr(amount, column) for bundle, amount in bundles.items()},
            book,
            exempt,
            most,
        )
        for column in ("low", "likely", "high")
    )
    return [
        _agreed(code, agreed, MoneyRange(-low[bundle], -likely[bundle], -high[bundle]), kinds[bundle], book)
        for bundle in bundles
        if low[bundle] or likely[bundle] or high[bundle]
    ]


def _taken_off(
    ceiling: int, sums: Mapping[Bundle, int], book: PriceBook, exempt: str, most_added: int
) -> Mapping[Bundle, int]:
    """The least that comes off each bundle of one column; a minor unit may be out of reach of the tax.

    Below 0 it is added, up to ``most_added``, which is beyond reach of what is agreed.
    """

    def left(cut: int) -> dict[Bundle, int]:
        return dict(zip(sums, shared_out(sum(sums.values()) - cut, tuple(sums.values())), strict=True))

    def is_within(cut: int) -> bool:
        return taxes.column_total(left(cut), book, exempt) <= ceiling

    if not sums or (is_within(0) and not most_added):
        return dict.fromkeys(sums, 0)
    too_little, enough = (-most_added, 0) if is_within(0) else (0, sum(sums.values()))
    while enough - too_little > 1:
        middle = (too_little + enough) // 2
        too_little, enough = (too_little, middle) if is_within(middle) else (middle, enough)
    kept = left(enough)
    return {bundle: minor - kept[bundle] for bundle, minor in sums.items()}


def _agreed(code: str, agreed: int, amount: MoneyRange, kind: ChargeKind | None, book: PriceBook) -> Charge:
    return Charge(
        code=code,
        text=say("charges", f"{code}-text"),
        because=say("charges", f"{code}-because", amount=book.spelled(agreed)),
        quantity="1",
        unit_minor=0,
        amount=amount,
        kind=kind,
    )
