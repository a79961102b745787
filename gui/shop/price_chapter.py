"""The chapter on prices: the price book in force, in full."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from PySide6.QtWidgets import QWidget

from core.catalogue.formats import catalogue
from core.pricing.price_book import CaptureRate, PriceBook
from core.pricing.price_book_file import Way
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.text import day, money, say
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import slip, words

_HEADS = 20 * theme.UNIT


class PriceChapter(Chapter):
    """The price book in force."""

    name = "prices"
    place = 100
    kinds = frozenset({"shop"})

    def open(self, view: ShopView) -> QWidget:
        return _prices(view.book)


CHAPTER = PriceChapter


def _prices(book: PriceBook) -> QWidget:
    """The price book in force, in full."""
    paper, column = slip("chapter-prices")
    column.addWidget(words(say("shop", "book", name=book.name, day=day(book.valid_from)), "heading"))
    if book.invented:
        column.addWidget(words(say("shop", "invented"), "attention"))
    column.addWidget(words(book.remark, "small"))
    facts = FactList(_HEADS)
    capture = [
        f"{catalogue().format(name).words}: {_rate(rate, book)}" for name, rate in book.capture.items()
    ]
    facts.add(say("shop", "capture"), capture)
    facts.add(say("shop", "repairs"), [f"{r.words}: {_money(r.minor, book)}" for r in book.repairs.values()])
    facts.add(say("shop", "media"), [f"{r.words}: {_money(r.minor, book)}" for r in book.media.values()])
    facts.add(say("shop", "terms"), list(_terms(book)))
    column.addWidget(facts)
    return paper


def _rate(rate: CaptureRate, book: PriceBook) -> str:
    price = _money(rate.minor, book)
    if rate.way is Way.PER_PERIOD:
        return say("shop", "per_period", price=price, minutes=rate.period_minutes)
    return say("shop", "per_tape" if rate.way is Way.PER_TAPE else "per_hour", price=price)


def _money(minor: Decimal | int, book: PriceBook) -> str:
    """Exact rates are shown as they are; most are whole minor units."""
    exact = Decimal(minor)
    if exact == exact.to_integral_value():
        return money(int(exact), book.currency)
    return f"{exact.scaleb(-book.minor_digits)} {book.currency}"


def _terms(book: PriceBook) -> Iterable[str]:
    yield book.tax.words
    yield book.tax.remark
    yield say("shop", "rush", percent=_percent(book.rush_percent))
    for one in book.breaks:
        yield say("shop", "break", n=one.after + 1, percent=_percent(one.percent))
    yield say("shop", "minimum", price=_money(book.minimum_minor, book))
    yield say("shop", "deposit", percent=_percent(book.deposit_percent))
    yield say("shop", "ceiling", percent=_percent(book.ceiling_percent))
    yield say("shop", "valid", days=book.quote_valid_days)


def _percent(value: Decimal) -> str:
    return f"{value.normalize():f}"
