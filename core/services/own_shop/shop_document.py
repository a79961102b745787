"""All settings and prices as one document: shown, changed key by key, written to a file and read back."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from core.model.errors import WrongInput
from core.model.own_shop import renamed_decks, settings_differences
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.pricing import price_book, price_csv
from core.scheduling import opening_hours
from core.services.own_shop import price_books, readiness, settings_versions, shop_settings
from core.services.own_shop.readiness import Readiness
from core.store import current_prices, current_settings
from core.store.steps import special_step, step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

PRICES = "prices"
BOOKS = "price_book"
_COUNTS = ("minutes", "after", "after_days", "quote_valid_days", "minor_digits")
"""Keys of a price book that hold whole numbers; amounts and percentages are texts."""


def read(unit: Unit) -> dict[str, Any]:
    """The settings, and under ``prices`` the price book in force today."""
    content = shop_settings.document(current_settings.read(unit))
    return {**content, PRICES: dict(price_books.document_in_force(unit, _today(unit)))}


@dataclass(frozen=True, slots=True)
class SettingsView:
    """Everything the pages of the settings show, with the versions it was read from."""

    settings: ShopSettings
    number: int
    prices: Mapping[str, Any]
    """The price book in force today as the plain tables of its file."""
    prices_number: int
    are_prices_confirmed: bool
    readiness: Readiness
    today: date


def view(unit: Unit) -> SettingsView:
    """The settings and prices as they stand, for the screens."""
    settings, today = current_settings.read(unit), _today(unit)
    return SettingsView(
        settings=settings,
        number=settings_versions.number(unit),
        prices=price_books.document_in_force(unit, today),
        prices_number=price_books.number(unit),
        are_prices_confirmed=current_prices.is_confirmed(unit, today),
        readiness=readiness.read(unit),
        today=today,
    )


@step
def set_texts(unit: Unit, typed: Sequence[tuple[str, str | None]], *, valid_from: date | None = None) -> None:
    """Changes keys by what was typed, all in one step; ``None`` takes an entry out.

    A path is written with dots, ``deck.VHS 1.in_service``; new prices hold from ``valid_from``, today if no
    day is named. WrongInput for a key that is not there, or a value that does not fit.
    """
    before = content = read(unit)
    for place, text in typed:
        path = tuple(place.split("."))
        settings_differences.value_at(content, path[:-1], say("settings", "the-settings"))
        if text is not None and path[0] == "deck" and path[2:] == ("name",):
            content = _with_deck_renamed(content, path[1], text)
        else:
            content = settings_differences.with_value(content, path, _value(content, path, text))
    prices = content.pop(PRICES, None)
    if prices != before[PRICES]:
        price_books.enter(unit, dated(prices, valid_from or _today(unit)))
    settings = shop_settings.of_document(content, say("settings", "the-settings"))
    settings_versions.change(unit, settings, confirms=_touched(typed))


@step
def confirm(unit: Unit, pages: Sequence[SetupPage]) -> None:
    """Keeps that somebody looked at these pages and left them; example prices become the shop's own."""
    if SetupPage.PRICES in pages and not current_prices.is_confirmed(unit, _today(unit)):
        price_books.enter(unit, _own(price_books.document_in_force(unit, _today(unit)), _today(unit)))
    settings_versions.change(unit, current_settings.read(unit), confirms=pages)


@special_step(again=view)
def leave_page(
    unit: Unit,
    page: SetupPage,
    settings: ShopSettings,
    prices: Mapping[str, Any],
    *,
    based_on: int | None = None,
    prices_based_on: int | None = None,
) -> SettingsView:
    """Keeps a page of the set-up as it was left; the prices page makes example prices the shop's own.

    Conflict when somebody changed the settings, or the prices, since the versions named.
    """
    settings_versions.change(unit, settings, based_on=based_on, confirms=[page])
    if page is SetupPage.PRICES:
        day = _today(unit)
        price_books.enter(unit, _own(prices, day), based_on=prices_based_on)
    return view(unit)


def export(unit: Unit) -> str:
    """The settings and every price book that stands, as a TOML text that `take_over` reads."""
    content = shop_settings.document(current_settings.read(unit))
    books = [dict(each) for each in price_books.standing_documents(unit)]
    return shop_settings.written({**content, BOOKS: books} if books else content)


@step
def take_over(unit: Unit, text: str, where: str) -> None:
    """Puts the settings and price books of an exported file in force; WrongInput when one does not fit."""
    content = shop_settings.parsed(text, where)
    books = content.pop(BOOKS, [])
    settings = shop_settings.of_document(content, where)
    settings_versions.change(unit, settings, confirms=tuple(SetupPage))
    if not isinstance(books, list):
        raise WrongInput(f"{where}, {BOOKS}", books, say("files", "list"))
    for number, book in enumerate(books, 1):
        price_books.enter(unit, book, where=f"{where}, {BOOKS} {number}")


def export_prices(unit: Unit) -> str:
    """The price book in force today as a CSV text that `take_over_prices` reads."""
    return price_csv.written(price_books.document_in_force(unit, _today(unit)))


@step
def take_over_prices(unit: Unit, text: str, where: str, *, valid_from: date | None = None) -> None:
    """Puts the price book of a CSV file in force, from the day in it or from ``valid_from``.

    WrongInput by row and column when something does not fit.
    """
    content = price_csv.parsed(text, where)
    price_books.enter(unit, dated(content, valid_from or content["valid_from"]), where=where)


@step
def raise_prices(unit: Unit, percent: Any, rounded_to: Any, valid_from: date | None = None) -> None:
    """Raises every price in force by ``percent``, rounded to a multiple of ``rounded_to`` whole units."""
    day = valid_from or _today(unit)
    book = price_book.raised(current_prices.in_force(unit, day), percent, rounded_to)
    price_books.enter(unit, dated(price_book.document(book), day))


def _value(content: Mapping[str, Any], path: Sequence[str], text: str | None) -> Any:
    """The typed text as the kind of value that stands there; a list or table is typed as in a TOML file."""
    if text is None:
        settings_differences.value_at(content, path, say("settings", "the-settings"))
        return None
    try:
        before = settings_differences.value_at(content, path, "")
    except WrongInput:
        before = None
    if isinstance(before, str) or path[0] == "words":
        return text
    try:
        found = tomllib.loads(f"value = {text}")["value"]
    except (ValueError, RecursionError):  # no TOML, or what only a machine can have made
        return text
    is_figure = isinstance(found, (int, float)) and not isinstance(found, bool)
    return text if is_figure and path[0] == PRICES and path[-1] not in _COUNTS else found


def _with_deck_renamed(content: Mapping[str, Any], old: str, new: str) -> dict[str, Any]:
    own = {key: value for key, value in content.items() if key != PRICES}
    settings = shop_settings.of_document(own, say("settings", "the-settings"))
    changed = shop_settings.document(renamed_decks.renamed(settings, {old: new}))
    return {**changed, PRICES: content[PRICES]}


def _touched(typed: Sequence[tuple[str, str | None]]) -> list[SetupPage]:
    """Pages a change belongs to, also where the new value is the old one."""
    pages = {settings_versions.page_of(place.split(".")) for place, _ in typed}
    return [page for page in SetupPage if page in pages]


def _own(prices: Mapping[str, Any], day: date) -> dict[str, Any]:
    """Prices somebody looked at: no example any more; in force from ``day`` if they were one."""
    if not prices.get("invented"):
        return dict(prices)
    own = {**prices, "invented": False, "remark": say("settings", "own-prices")}
    return dict(dated(own, day))


def dated(prices: Any, day: date) -> Any:
    """A price book valid from another day, and named by it."""
    if not isinstance(prices, dict) or prices.get("valid_from") == day:
        return prices
    return {
        **prices,
        "valid_from": day,
        "name": say("settings", "prices-of", day=locale_figures.full_day(day)),
    }


def _today(unit: Unit) -> date:
    return opening_hours.today(current_settings.read(unit), unit.now)
