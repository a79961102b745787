"""The copies an order has ordered: made those of its tapes and wishes; what was handed over stays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.model.copies.copy_records import DOWNLOAD
from core.model.inventory import Delivery
from core.model.quote_records import Copy, QuotedTape, Storage
from core.model.ranges import ZERO
from core.pricing import bitrates, copy_sizes
from core.pricing.bitrates import words as codec_words
from core.services.agreement import agreement_versions
from core.store import lookup, row_records
from core.store.copy_tables import CopyRow
from core.store.job_tables import JobRow
from core.store.unit import Unit
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class _Wanted:
    """One copy as it is ordered now."""

    delivery: Delivery
    code: str
    words: str
    pieces: int


def rows(storage: Storage, deliver: Sequence[Delivery]) -> Iterator[CopyRow]:
    """A row for each copy that is likely to be needed: every set of each order is one."""
    return map(_row, _wanted(storage, deliver))


def change(unit: Unit, row: JobRow, deliver: Sequence[Delivery], tapes: Sequence[QuotedTape]) -> Storage:
    """What the copies take up now; copies that are no longer needed go, missing ones are added.

    Where neither the tapes nor the wishes changed, nothing does. A copy that was made and is not wanted any
    more is kept as left out.
    """
    before = row_records.quote(row)
    if tuple(deliver) == before.inventory.deliver and _minutes(tapes) == _minutes(before.tapes):
        return before.storage
    each = [tape.minutes for tape in tapes]
    made = copy_sizes.storage(sum(each, ZERO), each, deliver, bitrates.tv_of(tape.draft.tv for tape in tapes))
    left = [each for each in lookup.standing_copies(row) if each.follows is None]
    missing = [each for each in _wanted(made, deliver) if not _kept(left, each)]
    for wanted in list(missing):
        if _made_over(left, wanted):
            missing.remove(wanted)
    for copy in left:
        drop(unit, row, copy)
    row.copies.extend(map(_row, missing))
    return made


def drop(unit: Unit, row: JobRow, copy: CopyRow) -> None:
    """Takes a copy off an order, unless it was handed over; what was done to it stays on record."""
    if copy.handed_back_at is not None:
        return
    if copy.steps:
        copy.left_out_in = agreement_versions.current(row).number + 1
    else:
        row.copies.remove(copy)
        unit.session.delete(copy)


def _wanted(storage: Storage, deliver: Sequence[Delivery]) -> Iterator[_Wanted]:
    ordered = tuple(deliver) or (copy_sizes.USUAL,)
    for delivery in ordered:
        if delivery.carrier == DOWNLOAD and storage.gigabytes.high:
            files = codec_words(delivery.codec or "h264")
            yield _Wanted(delivery, DOWNLOAD, say("media", "download-of", files=files), 1)
        copy = next((each for each in storage.copies if is_for(each.code, delivery)), None)
        if copy is not None and (pieces := _pieces(copy, ordered.count(delivery))):
            yield _Wanted(delivery, copy.code, copy.words, pieces)


def is_for(code: str, delivery: Delivery) -> bool:
    """Whether a piece of this code is what an order is made on."""
    if delivery.kind != "files":
        return code == {"dvd": "dvd-r", "bluray": "bd-r"}[delivery.kind]
    carrier = delivery.carrier or "usb"
    return code.startswith(f"{carrier}-") if carrier in ("usb", "disk") else code == carrier


def _pieces(copy: Copy, sets: int) -> int:
    return round(copy.count.likely / sets)


def _row(wanted: _Wanted) -> CopyRow:
    return CopyRow(code=wanted.code, words=wanted.words, pieces=wanted.pieces, delivery=wanted.delivery)


def _kept(left: list[CopyRow], wanted: _Wanted) -> bool:
    """Whether a copy is there already as it is wanted; it is taken out of ``left``.

    Of an order booked before copies were followed it is as many single pieces.
    """
    pieces = [each for each in left if (each.code, each.words) == (wanted.code, wanted.words)]
    same = [each for each in pieces if each.delivery == wanted.delivery and each.pieces == wanted.pieces]
    older = [each for each in pieces if each.delivery is None][: wanted.pieces]
    found = same[:1] or (older if len(older) == wanted.pieces else [])
    for each in found:
        left.remove(each)
    return bool(found)


def _made_over(left: list[CopyRow], wanted: _Wanted) -> bool:
    """Whether another size of the same order, not begun yet, could be made what is wanted."""
    unmade = (each for each in left if each.delivery == wanted.delivery)
    found = next((each for each in unmade if each.handed_back_at is None and not each.steps), None)
    handed = next((each for each in left if each.delivery == wanted.delivery and each.handed_back_at), None)
    if handed is not None:
        left.remove(handed)
        return True
    if found is None:
        return False
    found.code, found.words, found.pieces = wanted.code, wanted.words, wanted.pieces
    left.remove(found)
    return True


def _minutes(tapes: Sequence[QuotedTape]) -> list[tuple[float, float, float]]:
    return sorted((tape.minutes.low, tape.minutes.likely, tape.minutes.high) for tape in tapes)
