"""What is owed of a box that was agreed at one flat sum, whatever its tapes played."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from core.model.job_records import Job
from core.model.quote_records import QuotedTape
from core.pricing import box_price, charges
from core.pricing.price_book import PriceBook


def owed(job: Job, now: Sequence[QuotedTape], book: PriceBook) -> int | None:
    """What is owed with tax and rounding, minor units; None where no flat sum was agreed.

    ``now`` are the tapes as they are charged today. The part of a tape that is not copied is not owed, only
    what the book charges for looking it over. Tapes and repairs that came after the agreement are owed as far
    as a yes has raised the ceiling above the flat sum.
    """
    quote, agreed = job.quote, job.quote.flat_minor
    if agreed is None or quote.ways is None:
        return None
    before = {_place(tape): tape for tape in quote.tapes}
    copied = [tape for tape in now if _is_copied(tape, book)]
    left = [tape for tape in now if not _is_copied(tape, book)]
    kept = [before[_place(tape)] for tape in copied if _place(tape) in before]

    def due(tapes: Sequence[QuotedTape], exempt: str = job.tax_exempt) -> int:
        """Each tape by itself: shares of a sum are compared, and every tape has to have its own."""
        return box_price.price(tapes, quote.storage, book, rush=job.rush, exempt=exempt).due.likely

    whole = due(quote.tapes, quote.inventory.tax_exempt)
    part, with_fees = due(kept), due([*kept, *left])
    more = due([*(_as_agreed(tape, before) for tape in copied), *left]) - with_fees
    sum_of_part = agreed if part == whole else round(agreed * part / max(1, whole))
    agreed_since = min(max(0, more), max(0, job.ceiling_minor - agreed))
    owed = min(job.ceiling_minor, sum_of_part + with_fees - part + agreed_since)
    return owed + book.rounding.to_add(owed, job.ceiling_minor)


def _as_agreed(tape: QuotedTape, before: dict[tuple[int, int], QuotedTape]) -> QuotedTape:
    """The tape with the minutes it was agreed with and the repairs it has now."""
    agreed = before.get(_place(tape))
    return tape if agreed is None else replace(agreed, verdict=tape.verdict)


def _place(tape: QuotedTape) -> tuple[int, int]:
    return tape.line, tape.n


def _is_copied(tape: QuotedTape, book: PriceBook) -> bool:
    return any(amounts for _, amounts in charges.captures([tape], book))
