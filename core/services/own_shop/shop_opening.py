"""What is read of a shop when it is opened, in one look: the settings, and whether the clock is right."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.errors import TapewrightError
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import clock_check
from core.store import current_settings, failures
from core.store.unit import Unit


@dataclass(frozen=True, slots=True)
class ShopAtOpening:
    """As the records tell it."""

    settings: ShopSettings
    clock: str
    """What is said of a clock that was set back; nothing where it is right or the history is damaged."""


def read(unit: Unit) -> ShopAtOpening:
    """The settings are read first: a damaged history must not hide who has to be proven."""
    settings = current_settings.read(unit)
    try:
        said = clock_check.sentence(unit)
    except (TapewrightError, *failures.FAILURES):
        said = ""
    return ShopAtOpening(settings, said)
