"""The single charges of a box: capture, repairs and copies, one for each inventory line and kind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import groupby
from math import ceil

from core.catalogue import amounts, formats
from core.model.inventory import TapeLine
from core.model.money import NOTHING, MoneyRange, flat, rounded, total
from core.model.names import FormatName
from core.model.own_shop.settings_records import Rate
from core.model.price_terms import ChargeKind
from core.model.quote_records import Charge, Copy, QuotedTape, Storage
from core.model.ranges import ZERO, Range
from core.model.spoken_names import spoken
from core.playtime import tape_minutes
from core.playtime.beliefs import as_range
from core.pricing.disposition_rules import is_played, is_repaired
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import Way
from core.pricing.price_rules import CaptureRate
from core.wording.messages import say, worded_cache

OWN_DRIVE = "own-drive"
"""Copying onto a drive that the customer brings: work, and nothing is sold."""


def captures(tapes: Iterable[QuotedTape], book: PriceBook) -> list[tuple[Charge, tuple[MoneyRange, ...]]]:
    """For each line its capture charge and the price of every tape in it.

    A tape that cannot be played is in no capture charge; it is named with nothing to pay. One that no deck of
    the shop plays is no part of the work at all: it is shown apart.
    """
    found: list[tuple[Charge, tuple[MoneyRange, ...]]] = []
    for line in _by_line(tape for tape in tapes if not tape.verdict.elsewhere):
        played = [tape for tape in line if is_played(tape, book.dispositions)]
        if played:
            found.append(_of_line(played, book))
        left_out = [tape for tape in line if not is_played(tape, book.dispositions)]
        found += [(each, ()) for each in _left_out(left_out, book)]
    return found


def repairs(tapes: Iterable[QuotedTape], book: PriceBook) -> list[Charge]:
    """One charge for each action on each line; on a tape that is not worked on nothing is done or charged.

    What the shop did again at its own cost stands beside it with nothing to pay.
    """
    charges: list[Charge] = []
    for line in _by_line(tapes):
        repaired = [each for each in line if is_repaired(each, book.dispositions)]
        counts = Counter(repair.code for tape in repaired for repair in tape.verdict.repairs)
        charges += [_repair(line[0].draft, book.repair_rate(code), count) for code, count in counts.items()]
        again = Counter(code for tape in repaired for code in tape.redone)
        charges += [_redone(line[0].draft, book.repair_rate(code), count) for code, count in again.items()]
    return charges


def copies(storage: Storage, book: PriceBook) -> list[Charge]:
    """One charge for each kind of disc or stick."""
    return [_copies(copy, book.media_rate(copy.code)) for copy in storage.copies]


def _by_line(tapes: Iterable[QuotedTape]) -> list[list[QuotedTape]]:
    in_order = sorted(tapes, key=lambda tape: (tape.line, tape.n))
    return [list(line) for _, line in groupby(in_order, key=lambda tape: tape.line)]


def _of_line(tapes: Sequence[QuotedTape], book: PriceBook) -> tuple[Charge, tuple[MoneyRange, ...]]:
    """The capture charge of a line; at pickup its tapes may differ in more than their minutes."""
    first = tapes[0]
    if any(tape.draft is not first.draft and tape.draft != first.draft for tape in tapes):
        return _capture(tapes, book)
    return _remembered(first, tuple([tape.minutes for tape in tapes]), book)


@worded_cache(maxsize=512)
def _remembered(
    first: QuotedTape, minutes: tuple[Range, ...], book: PriceBook
) -> tuple[Charge, tuple[MoneyRange, ...]]:
    """The capture charge of tapes alike but for their minutes: a key changes one line of a box, not all."""
    made = {each: replace(first, minutes=each) for each in set(minutes)}
    return _capture([made[each] for each in minutes], book)


def _capture(tapes: Sequence[QuotedTape], book: PriceBook) -> tuple[Charge, tuple[MoneyRange, ...]]:
    rate = rate_of(tapes[0], book)
    each = tuple(_each(tapes, lambda counted: max(_one_tape(counted, rate), rounded(rate.minimum)), rate))
    charge = Charge(
        code=f"capture-{tapes[0].draft.format}",
        text=say("charges", "line", count=len(tapes), what=_words(tapes[0].draft)),
        because=_why_at_least(tapes, rate, book),
        quantity=_quantity(tapes, rate),
        unit_minor=rounded(rate.minor),
        amount=total(each),
        kind=ChargeKind.COPYING,
    )
    return charge, each


def rate_of(tape: QuotedTape, book: PriceBook) -> CaptureRate:
    """How copying a tape is charged; WrongInput when the book has no price for it."""
    return book.capture_rate(_charged_as(tape, book))


def minor_by_count(tape: QuotedTape, rate: CaptureRate) -> int | None:
    """What copying a tape likely costs where that is not a matter of what it plays; None where it is."""
    counted = _counted(tape, rate)
    if rate.way is not Way.PER_TAPE and counted is tape.minutes:
        return None
    return max(_one_tape(counted.likely, rate), rounded(rate.minimum))


def counted_amount(tape: QuotedTape, rate: CaptureRate) -> Range | None:
    """The feet or pictures by which copying a tape is charged; None where it is charged by what it plays."""
    counted = _counted(tape, rate)
    return None if counted is tape.minutes else counted


def is_priced(line: TapeLine, book: PriceBook) -> bool:
    """Whether the book has a price for copying the tapes of a line."""
    return _priced_as(line, book) in book.capture


def _charged_as(tape: QuotedTape, book: PriceBook) -> FormatName:
    """The system it was recorded in when the book has a price for it, else the shell, else one like it."""
    return _priced_as(tape.draft, book)


def _priced_as(line: TapeLine, book: PriceBook) -> FormatName:
    shell = line.format
    like = formats.catalogue().format(shell).record.priced_like
    names = (line.recorded_as, shell, FormatName(like) if like else None)
    return next((name for name in names if name is not None and name in book.capture), shell)


def _one_tape(minutes: float, rate: CaptureRate) -> int:
    """The price of one tape; by the unit ``minutes`` are its feet, pictures or minutes."""
    if rate.way is Way.PER_TAPE:
        return rounded(rate.minor)
    if rate.way is Way.PER_UNIT:
        return rounded(rate.minor * Decimal(repr(round(minutes, 3))))
    if rate.way is Way.PER_PERIOD:
        return rounded(rate.minor * _periods(minutes, rate))
    return rounded(rate.minor * Decimal(repr(float(minutes))) / 60)


def _periods(minutes: float, rate: CaptureRate) -> int:
    """Started periods; at least one, and a hair over a full period (float dust) starts none."""
    return max(1, ceil(minutes / rate.period_minutes - 1e-9))


def _quantity(tapes: Sequence[QuotedTape], rate: CaptureRate) -> str:
    if rate.way is Way.PER_TAPE:
        return str(len(tapes))
    if rate.way is Way.PER_HOUR:
        hours = sum((tape.minutes for tape in tapes), ZERO).times(1 / 60)
        return say("charges", "hours", hours=spelled(hours, 2))
    if rate.way is Way.PER_UNIT:
        return spelled(sum((_counted(tape, rate) for tape in tapes), ZERO))
    count = total(_each(tapes, lambda minutes: _periods(minutes, rate), rate))
    pieces = spelled(Range(count.low, count.likely, count.high))
    return say("charges", "periods", count=pieces, minutes=rate.period_minutes)


def _why_at_least(tapes: Sequence[QuotedTape], rate: CaptureRate, book: PriceBook) -> str:
    why = _why(tapes, rate)
    if not rate.minimum or rate.way is Way.PER_TAPE:
        return why
    return say("charges", "at-least", why=why, amount=book.spelled(rounded(rate.minimum)))


def _why(tapes: Sequence[QuotedTape], rate: CaptureRate) -> str:
    """The way of charging first: where room is short, it stands alone."""
    if rate.way is Way.PER_TAPE:
        return say("charges", "per-tape")
    if rate.way is Way.PER_UNIT:
        amount = formats.catalogue().format(tapes[0].draft.format).record.amount
        return say("charges", f"per-unit-{amount.unit if amount else 'minutes'}")
    first = tapes[0].minutes
    how, minutes = ("each" if len(tapes) > 1 else "one"), first
    if any(tape.minutes != first for tape in tapes):
        how, minutes = "together", sum((tape.minutes for tape in tapes), ZERO)
    played = spelled(minutes)
    return say("charges", f"{rate.way.value}-{how}", minutes=played, period=rate.period_minutes)


@worded_cache(maxsize=512)
def _repair(line: TapeLine, rate: Rate, count: int) -> Charge:
    findings = ", ".join(spoken(finding) for finding in line.findings) or say("charges", "found-at-bench")
    return Charge(
        code=f"repair-{rate.code}",
        text=say("charges", "repair-line", count=count, repair=rate.words, tape=_words(line)),
        because=findings,
        quantity=str(count),
        unit_minor=rounded(rate.minor),
        amount=flat(rounded(rate.minor * count)),
        kind=ChargeKind.REPAIR,
    )


def _redone(draft: TapeLine, rate: Rate, count: int) -> Charge:
    return Charge(
        code=f"redone-{rate.code}",
        text=say("charges", "redone-line", count=count, repair=rate.words, tape=_words(draft)),
        because=say("charges", "redone-because"),
        quantity=str(count),
        unit_minor=0,
        amount=NOTHING,
        kind=ChargeKind.REPAIR,
    )


def _copies(copy: Copy, rate: Rate) -> Charge:
    count = spelled(copy.count)
    return Charge(
        code=f"media-{copy.code}",
        text=say("charges", "line", count=count, what=rate.words),
        because=say("charges", "copies-because"),
        quantity=count,
        unit_minor=rounded(rate.minor),
        amount=_columns(copy.count, lambda pieces: rounded(rate.minor * round(pieces))),
        kind=ChargeKind.COPYING if copy.code == OWN_DRIVE else ChargeKind.GOODS,
    )


def _left_out(tapes: Sequence[QuotedTape], book: PriceBook) -> list[Charge]:
    """Tapes of one line that are not charged for, those of one reason together."""
    reasons = Counter(_why_left_out(tape, book) for tape in tapes)
    return [
        Charge(
            code="not-played",
            text=say("charges", "line", count=count, what=_words(tapes[0].draft)),
            because=say("charges", reason),
            quantity=str(count),
            unit_minor=0,
            amount=NOTHING,
            kind=ChargeKind.COPYING,
        )
        for reason, count in reasons.items()
    ]


def _why_left_out(tape: QuotedTape, book: PriceBook) -> str:
    if tape.disposition is not None and not tape.disposition.is_copied:
        return f"left-out-{tape.disposition.value}"
    if tape.verdict.hold is not None:
        return f"left-out-{tape.verdict.hold.value}"
    return "not-played-inspected" if book.inspection_fee.minor else "not-played-because"


def _words(line: TapeLine) -> str:
    """``VHS T-120``: two lines of one format are told apart by what is printed on the shells."""
    words = formats.catalogue().format(line.format).words
    return f"{words} {line.marking}" if line.marking else words


def _each(tapes: Sequence[QuotedTape], make: Callable[[float], int], rate: CaptureRate) -> list[MoneyRange]:
    """Three columns for each tape, worked out once for tapes of the same minutes, or the same amount."""
    counted = [_counted(tape, rate) for tape in tapes]
    made = {each: _columns(each, make) for each in set(counted)}
    return [made[each] for each in counted]


def _counted(tape: QuotedTape, rate: CaptureRate) -> Range:
    """What the price is reckoned by: minutes, or by the unit the feet or pictures that are believed in."""
    form = formats.catalogue().format(tape.draft.format)
    if rate.way is not Way.PER_UNIT or form.record.amount is None or form.record.amount.unit == "minutes":
        return tape.minutes
    metres = tape_minutes.belief(tape.draft, tape.draft.tv).metres
    return amounts.of_metres(form, as_range(metres))


def _columns(values: Range, make: Callable[[float], int]) -> MoneyRange:
    return MoneyRange(make(values.low), make(values.likely), make(values.high))


def spelled(values: Range, digits: int = 0) -> str:
    """``62 to 361``, or one figure when the ends agree as printed."""
    low, high = f"{values.low:.{digits}f}", f"{values.high:.{digits}f}"
    return low if low == high else say("charges", "range", low=low, high=high)
