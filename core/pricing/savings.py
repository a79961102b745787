"""Cheaper ways to hand over the same recordings, by the piece prices of the book.

Only what is cheaper even when the tapes turn out long is said, and what the customer gives up with it.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations_with_replacement

from core.model.errors import WrongInput
from core.model.inventory import Delivery
from core.model.money import rounded
from core.model.names import TvSystem
from core.model.own_shop import shop_additions
from core.model.quote_records import Storage
from core.model.ranges import Range
from core.pricing import bitrates, charges, copy_sizes, discs, sticks, whole_pieces
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode
from core.wording import locale_figures
from core.wording.messages import say, worded_cache

LEAST_SHARE = 0.2
"""Savings below a fifth of what those copies cost are not worth a sentence. (the shop's own line)"""
MOST_PIECES = 6
"""Nobody wants more sticks than this instead of something else. (the shop's own line)"""

MediaCounts = Mapping[str, int]
"""MediaCounts by what the price book calls them."""


def cheaper(
    minutes: Range,
    tapes: Sequence[Range],
    deliver: Sequence[Delivery],
    book: PriceBook,
    tv: TvSystem | None = None,
) -> tuple[str, ...]:
    """Sentences, one for each set of copies that could be had for less; the dearest saving first.

    ``minutes`` is the play time of all tapes together, ``tapes`` that of each, ``tv`` as of
    `copy_sizes.storage`. A set whose pieces have no price in the book is left alone.
    """
    return _cheaper(minutes, tuple(tapes), tuple(deliver) or (copy_sizes.USUAL,), book, tv)


@worded_cache(maxsize=256)
def _cheaper(
    minutes: Range,
    tapes: tuple[Range, ...],
    deliver: tuple[Delivery, ...],
    book: PriceBook,
    tv: TvSystem | None,
) -> tuple[str, ...]:
    found: list[tuple[int, str]] = []
    for delivery in deliver:
        now = copy_sizes.made(delivery, minutes, tapes, tv)
        cost = _likely(now, book)
        if not cost:
            continue
        offers = [
            (cost - _price(other, book), _sentence(words, now, other, cost, book))
            for words, other in _others(delivery, deliver, minutes, tapes, book, tv)
        ]
        found += sorted((each for each in offers if each[0] >= LEAST_SHARE * cost), reverse=True)[:1]
    return tuple(sentence for _, sentence in sorted(found, reverse=True))


def _others(
    delivery: Delivery,
    deliver: tuple[Delivery, ...],
    minutes: Range,
    tapes: tuple[Range, ...],
    book: PriceBook,
    tv: TvSystem | None,
) -> Iterator[tuple[str, MediaCounts]]:
    """Other pieces for one set of copies, enough for long tapes, with what is given up."""
    is_asked_for = delivery.carrier in ("download", "own-drive") or shop_additions.medium(
        delivery.carrier or ""
    )
    if delivery.kind == "files" and not is_asked_for:
        yield from _as_files(delivery.codec or "h264", minutes, tapes, book, "instead", tv)
    if delivery.kind != "dvd":
        return
    yield "shared", _shared_dvds(tapes)
    yield "layered", _layered_dvds(tapes)
    if not any(each.kind == "files" for each in deliver):
        yield from _as_files("h264", minutes, tapes, book, "files", tv)


def _as_files(
    codec: str,
    minutes: Range,
    tapes: tuple[Range, ...],
    book: PriceBook,
    words: str,
    tv: TvSystem | None,
) -> Iterator[tuple[str, MediaCounts]]:
    size = bitrates.size(codec, minutes, tv).high
    longest = max((bitrates.size(codec, tape, tv).high for tape in tapes), default=0.0)
    sold = {f"{carrier}-{gb}": sticks.holds(gb) for carrier in ("usb", "disk") for gb in sticks.sold(carrier)}
    fitting = {code: holds for code, holds in sold.items() if code in book.media and holds >= longest}
    mixes: list[Counter[str]] = [
        Counter({one: n, other: rest} if one != other else {one: n + rest})
        for one, other in combinations_with_replacement(fitting, 2)
        for n, rest in _counts(size, longest, fitting[one], fitting[other])
    ]
    if mixes:
        best = min(mixes, key=lambda mix: (_price(mix, book), mix.total()))
        yield words, best


def _counts(size: float, longest: float, one: float, other: float) -> Iterator[tuple[int, int]]:
    """How many of two kinds hold ``size``; between two pieces the room of one file may be lost."""
    for n in range(1, MOST_PIECES + 1):
        left = size - n * one
        if left <= one * whole_pieces.DUST and (n == 1 or size <= n * one - (n - 1) * longest):
            yield n, 0
            return
        room = other - longest
        needed = math.ceil((left + n * longest) / room - whole_pieces.DUST) if room > 0 else MOST_PIECES
        if n + needed <= MOST_PIECES and needed > 0:
            yield n, needed


def _shared_dvds(tapes: tuple[Range, ...]) -> MediaCounts:
    """Tapes one after the other onto DVDs, none of them begun on one disc and ended on the next."""
    return {"dvd-r": whole_pieces.in_order((tape.high for tape in tapes), discs.dvd_minutes())}


def _layered_dvds(tapes: tuple[Range, ...]) -> MediaCounts:
    """A disc of two layers for each tape that needs more than one of a single layer."""
    counted: Counter[str] = Counter()
    for tape in tapes:
        single = math.ceil(tape.high / discs.dvd_minutes() - whole_pieces.DUST)
        double = math.ceil(tape.high / discs.dvd_minutes(layers=2) - whole_pieces.DUST)
        counted["dvd-r-dl" if single > 1 else "dvd-r"] += double if single > 1 else single
    return counted


def _likely(storage: Storage, book: PriceBook) -> int:
    """What a set of copies most likely costs; 0 when the book does not know a piece."""
    try:
        return sum(charge.amount.likely for charge in charges.copies(storage, book))
    except WrongInput:
        return 0


def _price(counted: MediaCounts, book: PriceBook) -> int:
    """What pieces cost; more than anything when the book does not know one."""
    if any(code not in book.media for code, count in counted.items() if count):
        return 10**12
    return sum(rounded(book.media[code].minor * count) for code, count in counted.items() if count)


def _sentence(key: str, now: Storage, other: MediaCounts, cost: int, book: PriceBook) -> str:
    copies = {copy.code: round(copy.count.likely) for copy in now.copies}
    amount = book.spelled(cost - _price(other, book))
    ending = "-tax" if book.tax.mode is TaxMode.ON_TOP else ""
    pieces = {"other": _told(other, book), "now": _told(copies, book)}
    return say("quotes", f"{key}{ending}", amount=amount, **pieces)


def _told(counted: MediaCounts, book: PriceBook) -> str:
    """``1 × USB stick, 64 GB and 2 × DVD-R disc``."""
    named = {code: book.media[code].words if code in book.media else code for code in counted}
    return locale_figures.listed(
        [say("quotes", "pieces", count=n, what=named[code]) for code, n in counted.items() if n]
    )
