"""The copies an order has ordered: made those of its tapes and wishes; what was handed over stays."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from core.model.inventory import Delivery
from core.model.quote_records import QuotedTape, Storage
from core.model.ranges import ZERO
from core.pricing import copy_sizes
from core.store import row_records
from core.store.tables import CopyRow, JobRow
from core.store.unit import Unit


def rows(storage: Storage) -> Iterator[CopyRow]:
    """A row for each piece that is likely to be needed."""
    for copy in storage.copies:
        for _ in range(round(copy.count.likely)):
            yield CopyRow(code=copy.code, words=copy.words)


def change(unit: Unit, row: JobRow, deliver: Sequence[Delivery], tapes: Sequence[QuotedTape]) -> Storage:
    """What the copies take up now; pieces that are no longer needed go, missing ones are added.

    Where neither the tapes nor the wishes changed, nothing does.
    """
    before = row_records.quote(row)
    if tuple(deliver) == before.inventory.deliver and _minutes(tapes) == _minutes(before.tapes):
        return before.storage
    each = [tape.minutes for tape in tapes]
    made = copy_sizes.storage(sum(each, ZERO), each, deliver)
    wanted = Counter((piece.code, piece.words) for piece in rows(made))
    for piece in list(row.copies):
        key = (piece.code, piece.words)
        if wanted[key]:
            wanted[key] -= 1
        elif piece.handed_back_at is None:
            row.copies.remove(piece)
            unit.session.delete(piece)
    row.copies += [CopyRow(code=code, words=words) for code, words in wanted.elements()]
    return made


def _minutes(tapes: Sequence[QuotedTape]) -> list[tuple[float, float, float]]:
    return sorted((tape.minutes.low, tape.minutes.likely, tape.minutes.high) for tape in tapes)
