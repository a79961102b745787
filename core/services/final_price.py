"""What a job costs as it stands now: the figure on the receipt, never above what was agreed."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from core.model.names import Outcome
from core.model.quote_records import Copy, Price, QuotedTape, Storage
from core.model.ranges import ZERO, Range, exactly
from core.model.stations import Station
from core.pricing import box_price
from core.services import price_books
from core.store import row_records
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit

UNPLAYED = (Station.CANNOT_BE_PLAYED, Station.KEPT_APART)
"""A tape that goes home from here was not copied, and its capture is not charged."""


def price(unit: Unit, row: JobRow) -> Price:
    """Minutes played where known, else the likely ones; by the price book the quote was made from."""
    return box_price.price(
        [_tape(each) for each in row.tapes],
        _copies(row),
        price_books.in_force(unit, row.quote.made_at.date(), row.quote.made_at),
        rush=row.rush,
        agreed_ceiling=row_records.job(row).ceiling_minor,
    )


def _tape(row: TapeRow) -> QuotedTape:
    if not _is_charged(row):
        verdict = replace(row.verdict, outcome=Outcome.CANNOT)
        return QuotedTape(row.line, row.n, row.draft, ZERO, verdict)
    return QuotedTape(row.line, row.n, row.draft, _minutes(row), row.verdict)


def _is_charged(row: TapeRow) -> bool:
    if row.returned_from is not None:
        return row.returned_from not in UNPLAYED
    return row.station is not Station.CANNOT_BE_PLAYED and row.verdict.outcome is not Outcome.CANNOT


def _minutes(row: TapeRow) -> Range:
    return exactly(row.minutes.likely if row.played_minutes is None else row.played_minutes)


def _copies(row: JobRow) -> Storage:
    """The pieces that are really there, each counted once."""
    counts = Counter((each.code, each.words) for each in row.copies)
    pieces = tuple(Copy(code, words, exactly(count)) for (code, words), count in counts.items())
    return replace(row.quote.storage, copies=pieces)
