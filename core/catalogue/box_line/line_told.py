"""How a line was understood, as sentences that both doors tell."""

from __future__ import annotations

from functools import reduce

from core.catalogue import formats
from core.catalogue.box_line.line_records import LineCustomer, LineReading, LineRow, LineStretch
from core.catalogue.box_line.line_words import ROOM
from core.model.spoken_names import spoken
from core.wording.locale_figures import listed
from core.wording.messages import say


def understood(reading: LineReading) -> str:
    """``8 tapes: 5 × VHS T-120 · 3 × VHS-C``; nothing while the line names no tapes and nobody."""
    told = [] if reading.customer is None else [customer_words(reading.customer)]
    if reading.rows:
        tapes = say(ROOM, "tapes", tapes=sum(row.count for row in reading.rows))
        rows = reduce(_beside, map(row_words, reading.rows))
        told.insert(0, say(ROOM, "understood", tapes=tapes, rows=rows))
    return reduce(_beside, told) if told else ""


def customer_words(customer: LineCustomer) -> str:
    """``for Ada Fenwick, (607) 555-0101``."""
    if not customer.phone:
        return say(ROOM, "for-name", name=customer.name)
    key = "for-name-and-phone" if customer.name else "for-phone"
    return say(ROOM, key, name=customer.name, phone=customer.phone)


def _beside(one: str, other: str) -> str:
    return say(ROOM, "rows-apart", one=one, other=other)


def row_words(row: LineRow) -> str:
    """``5 × VHS T-120, SP, mold``."""
    name = formats.catalogue().format(row.format).words if row.format else say(ROOM, "no-format")
    details = [name if row.marking is None else f"{name} {row.marking}"]
    if row.recorded_as is not None:
        details.append(say(ROOM, "as-recorded", format=formats.catalogue().format(row.recorded_as).words))
    details += [row.speed.words] if row.speed else []
    details += [row.tv.value.upper()] if row.tv else []
    details += [spoken(finding) for finding in row.findings]
    details += [say(ROOM, "with-label", label=row.label)] if row.label else []
    what = reduce(lambda so_far, more: say(ROOM, "row-details", what=so_far, details=more), details)
    return what if row.count == 1 else say(ROOM, "understood-row", count=row.count, what=what)


def not_understood(reading: LineReading, stretch: LineStretch) -> str:
    """The sentence on words that were not taken, with what may have been meant."""
    word = reading.words(stretch)
    if stretch.because:
        return stretch.because
    if stretch.offers:
        return say(ROOM, "did-you-mean", word=word, offers=listed(stretch.offers, "or"))
    return say(ROOM, "not-understood", word=word)


def first_fault(reading: LineReading) -> tuple[int, str] | None:
    """Where the first thing is that was not understood, counted from 0, and the sentence on it."""
    faults = [(each.start, not_understood(reading, each)) for each in reading.unread]
    for place, row in enumerate(reading.rows):
        if row.format is None and not row.unread:
            own = [each for each in reading.stretches if each.row == place]
            words = reading.text[own[0].start : own[-1].end]
            faults.append((own[0].start, say(ROOM, "no-format-named", word=words)))
    return min(faults, default=None)
