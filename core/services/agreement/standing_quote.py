"""An order quoted anew from its tapes as they stand: played minutes where known, by its own price book."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from itertools import groupby

from core.model.inventory import Inventory, TapeLine
from core.model.quote_records import Quote, QuotedTape, Storage
from core.model.ranges import ZERO
from core.services import billed_tapes, deck_queue, payments
from core.store import current_settings, lookup, row_records
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit


def of(
    unit: Unit,
    row: JobRow,
    inventory: Inventory,
    storage: Storage | None = None,
    exempt: str | None = None,
) -> Quote:
    """The quote of an order at hand; ``inventory`` says all but its lines, ``storage`` and
    ``exempt`` (why no tax is charged) None: as before.

    Tapes that are left out are in no line; the others are numbered anew.
    """
    before = row_records.quote(row)
    lines = _renumbered(row)
    book = payments.book_of(unit, row)
    rules = book.dispositions
    tapes = tuple(billed_tapes.as_it_stands(each, rules, exact=False) for each in _in_order(row))
    now = current_settings.local(unit, unit.now)
    exempt = row_records.job(row).tax_exempt if exempt is None else exempt
    inventory = replace(inventory, tax_exempt=exempt)
    habits = deck_queue.habits_of_order(unit, row.id)
    price = payments.price_of(unit, row, _in_order(row), ceiling_minor=None, habits=habits, exempt=exempt)
    return Quote(
        inventory=replace(inventory, lines=lines),
        book=book.name,
        made_at=now,
        valid_until=now.date() + timedelta(days=book.quote_valid_days),
        tapes=tapes,
        capture_hours=sum((each.minutes for each in tapes), ZERO).times(1 / 60),
        price=price,
        storage=storage or before.storage,
        promise=row.promise,
        questions=(),
        warnings=tuple(dict.fromkeys(_told(tapes))),
        example_prices=before.example_prices,
        own_tapes=habits.captures,
    )


def codes(row: JobRow) -> tuple[str, ...]:
    """The codes of the tapes that stand, in the order of the quote."""
    return tuple(each.code for each in _in_order(row))


def _renumbered(row: JobRow) -> tuple[TapeLine, ...]:
    """The lines of the tapes that stand, tapes alike in one; each tape is given its line and number."""
    lines: list[TapeLine] = []
    for _, group in groupby(_in_order(row), key=lambda tape: (tape.line, replace(tape.draft, count=1))):
        tapes = list(group)
        lines.append(replace(tapes[0].draft, count=len(tapes)))
        for n, tape in enumerate(tapes, 1):
            tape.line, tape.n, tape.draft = len(lines), n, lines[-1]
    for tape in row.tapes:
        if tape.left_out_in is not None:
            tape.line = tape.n = 0
    return tuple(lines)


def _in_order(row: JobRow) -> list[TapeRow]:
    return sorted(lookup.standing_tapes(row), key=lambda tape: (tape.line, tape.n, tape.place))


def _told(tapes: Sequence[QuotedTape]) -> list[str]:
    return [sentence for tape in tapes for sentence in tape.verdict.told]
