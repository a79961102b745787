"""What a price book would change: three boxes, and the newest quotes, by the old book and by the new one.

`read` takes from the records what is needed; `changes` is pure, so that it runs beside the window.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import select

from core.catalogue import written_tapes
from core.model.errors import WrongInput
from core.model.inventory import Inventory, TapeLine
from core.model.names import Finding, FormatName, JobNumber
from core.model.quote_records import Price, Quote
from core.playtime.habits import ShopHabits
from core.pricing import box_price, charges, ways_to_agree, whole_box
from core.pricing.price_book import PriceBook
from core.scheduling import opening_hours
from core.services import deck_queue, quoting
from core.services.own_shop import price_books, shop_document
from core.services.own_shop.price_books import PriceBookVersion
from core.services.own_shop.shop_document import SettingsView
from core.store import current_prices, current_settings
from core.store.tables import JobRow
from core.store.unit import Unit

QUOTES = 50
"""How many of the newest quotes are priced anew."""
BOXES: tuple[tuple[TapeLine, ...], ...] = (
    (TapeLine(3, FormatName("vhs"), "T-120"),),
    (
        TapeLine(6, FormatName("vhs"), "T-120"),
        TapeLine(3, FormatName("vhs-c")),
        TapeLine(2, FormatName("minidv")),
        TapeLine(1, FormatName("hi8")),
    ),
    (TapeLine(1, FormatName("hi8"), findings=(Finding.SNAPPED,)),),
)
"""The boxes shown until the owner chooses others."""


@dataclass(frozen=True, slots=True)
class PreviewBasis:
    """What prices are compared on: the book in force, what is known of tapes, the newest quotes."""

    book: PriceBook
    habits: ShopHabits
    quotes: tuple[tuple[JobNumber, Quote], ...]
    """Newest first."""


@dataclass(frozen=True, slots=True)
class PriceChange:
    """What is owed by the old book and the new, in minor units; ``now`` is None where that has no price."""

    words: str
    was: int | None
    now: int | None


@dataclass(frozen=True, slots=True)
class PricePreview:
    """The boxes one by one, the orders one by one."""

    boxes: tuple[PriceChange, ...]
    orders: tuple[PriceChange, ...]

    @property
    def was(self) -> int:
        """The totals together of those orders both books have prices for."""
        return sum(each.was or 0 for each in self.orders if each.now is not None)

    @property
    def now(self) -> int:
        return sum(each.now or 0 for each in self.orders)


@dataclass(frozen=True, slots=True)
class PriceOverview:
    """All that is shown where prices are changed."""

    view: SettingsView
    versions: tuple[PriceBookVersion, ...]
    """Newest first."""
    basis: PreviewBasis

    @property
    def can_take_back(self) -> bool:
        """Whether a price book stands that could be taken back."""
        gone = {each.undoes for each in self.versions}
        return any(each.undoes is None and each.number not in gone for each in self.versions)


def overview(unit: Unit) -> PriceOverview:
    """The prices, their versions, and what new ones are compared on."""
    return PriceOverview(shop_document.view(unit), price_books.versions(unit), read(unit))


def read(unit: Unit) -> PreviewBasis:
    """The basis as the records tell it now."""
    today = opening_hours.today(current_settings.read(unit), unit.now)
    rows = unit.session.execute(select(JobRow.number, JobRow.quote).order_by(JobRow.id.desc()).limit(QUOTES))
    return PreviewBasis(
        current_prices.in_force(unit, today),
        deck_queue.habits(unit),
        tuple((JobNumber(number), quote) for number, quote in rows),
    )


def changes(basis: PreviewBasis, boxes: Sequence[Sequence[TapeLine]], book: PriceBook) -> PricePreview:
    """Each box and each kept quote by ``book``: boxes against the book in force, quotes against themselves.

    A quote keeps its tapes, minutes and copies; only the prices are others. What counting its tapes together
    changes stays the same share of what they cost one by one.
    """
    return PricePreview(
        tuple(_of_box(basis, box, book) for box in boxes),
        tuple(PriceChange(number, _by_play(quote), _repriced(quote, book)) for number, quote in basis.quotes),
    )


def _of_box(basis: PreviewBasis, box: Sequence[TapeLine], book: PriceBook) -> PriceChange:
    inventory = Inventory(tuple(box))
    tapes, copies = quoting.tapes_and_copies(inventory, basis.habits)
    priced = quoting.priced_box(inventory, tapes, copies, basis.habits)

    def total(by: PriceBook) -> int | None:
        try:
            return ways_to_agree.price_by_play(priced, by).due.likely
        except WrongInput:
            return None

    return PriceChange(written_tapes.written(box), total(basis.book), total(book))


def _by_play(quote: Quote) -> int:
    """What is owed by what plays, also of an order agreed at a flat sum."""
    return quote.price.due.likely if quote.ways is None else quote.ways.by_play.likely


def _repriced(quote: Quote, book: PriceBook) -> int | None:
    try:
        return _of_quote(quote, book).due.likely
    except WrongInput:
        return None


def _of_quote(quote: Quote, book: PriceBook) -> Price:
    box, amounts = quote.inventory, [each for _, of in charges.captures(quote.tapes, book) for each in of]
    drawn = whole_box.in_proportion(quote.price, amounts, book)
    return box_price.price(
        quote.tapes, quote.storage, book, rush=box.rush, exempt=box.tax_exempt, drawn=drawn
    )
