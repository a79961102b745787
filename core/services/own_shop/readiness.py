"""Whether the shop is set up far enough to take in a real order, and what is still to be filled in."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import NEEDED, NotSetUp, SetupPage
from core.scheduling import opening_hours
from core.store import current_prices, current_settings
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Readiness:
    """The pages still to be filled in, those an order waits for first."""

    needed: tuple[SetupPage, ...]
    """No real order is taken in before these are filled in."""
    later: tuple[SetupPage, ...]
    """These may be left for later."""

    @property
    def is_ready(self) -> bool:
        return not self.needed


NOTHING_OPEN = Readiness((), ())


def read(unit: Unit) -> Readiness:
    """What is still to be filled in; nothing in a shop to practise in."""
    return with_settings(unit)[1]


def with_settings(unit: Unit) -> tuple[ShopSettings, Readiness]:
    """The settings, and what is still to be filled in there: what the window asks when it opens."""
    settings = current_settings.read(unit)
    return settings, NOTHING_OPEN if settings.front.practice else _open_pages(unit, settings)


def _open_pages(unit: Unit, settings: ShopSettings) -> Readiness:
    open_pages = [page for page in SetupPage if not _is_filled_in(unit, settings, page)]
    needed = tuple(page for page in open_pages if page in NEEDED)
    return Readiness(needed, tuple(page for page in open_pages if page not in NEEDED))


def check(unit: Unit) -> None:
    """NotSetUp, naming the pages, when no real order may be taken in yet."""
    found = read(unit)
    if not found.is_ready:
        pages = locale_figures.listed([say("settings", f"page-{page.value}") for page in found.needed])
        raise NotSetUp(say("settings", "not-set-up", pages=pages), found.needed)


def _is_filled_in(unit: Unit, settings: ShopSettings, page: SetupPage) -> bool:
    if page is SetupPage.PRICES:
        return current_prices.is_confirmed(unit, opening_hours.today(settings, unit.now))
    if page.value not in settings.confirmed:
        return False
    if page is SetupPage.FRONT:
        return settings.front.name != unit.new_shop().front.name
    if page is SetupPage.HOURS:
        return bool(settings.openings)
    if page is SetupPage.DECKS:
        return any(deck.in_service for deck in settings.decks)
    return True
