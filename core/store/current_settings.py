"""The settings of the shop as they hold now or held at a moment, and the clock on its wall."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import lru_cache, partial
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from sqlalchemy import select

from core.catalogue import formats
from core.model import serialization
from core.model.errors import WrongInput
from core.model.own_shop import shop_additions
from core.model.own_shop.settings_records import Deck, ShopSettings
from core.store.shop_tables import SettingsVersionRow
from core.store.unit import Unit
from core.wording.messages import say

PART = "shop"
"""What their versions are kept under."""
_READ = "settings_read"
T = TypeVar("T")


def read(unit: Unit) -> ShopSettings:
    """Decks, hours and people of this shop; those of a new shop as long as nobody has set any.

    What the shop has of its own is in force from here on, in the whole process: another counter may have
    added to it.
    """
    settings = _settings(unit, newest(unit))
    put_in_force(settings)
    return settings


def put_in_force(settings: ShopSettings) -> None:
    """The shop's own formats, findings, repairs and media are known from now on."""
    formats.put_in_force(settings.formats)
    shop_additions.put_in_force(settings.additions)


def as_of(unit: Unit, moment: datetime) -> ShopSettings:
    """The settings in force at a moment (with a timezone), as papers of that moment were printed with."""
    asked = rows().where(SettingsVersionRow.at <= moment).order_by(SettingsVersionRow.number.desc())
    return _settings(unit, unit.session.scalars(asked.limit(1)).one_or_none())


def newest(unit: Unit) -> SettingsVersionRow | None:
    """The version in force; None as long as nobody has set any."""
    return remembered(unit, PART, partial(_newest, unit))


def _newest(unit: Unit) -> SettingsVersionRow | None:
    found: SettingsVersionRow | None = unit.session.scalars(
        rows().order_by(SettingsVersionRow.number.desc()).limit(1)
    ).one_or_none()
    return found


def remembered(unit: Unit, part: str, read: Callable[[], T]) -> T:
    """What ``read`` finds of a part, read once a transaction: a step asks some ten times for its settings.

    Nobody else can write meanwhile: a step holds the lock of all writers, a question looks at a steady view.
    """
    known = unit.session.info.setdefault(_READ, {})
    if part not in known:
        known[part] = read()
    found: T = known[part]
    return found


def forget(unit: Unit) -> None:
    """The step itself has added an entry: what is in force is read anew."""
    unit.session.info.pop(_READ, None)


def rows() -> Any:
    """The versions, to be narrowed and put in order."""
    return select(SettingsVersionRow).where(SettingsVersionRow.part == PART)


def deck(unit: Unit, name: str) -> Deck:
    """The deck of a name; WrongInput when the shop has none of it."""
    known = {each.name: each for each in read(unit).decks}
    if name not in known:
        listed = ", ".join(known)
        accepted = say("decks", "no_such_deck", decks=listed) if known else say("decks", "no_decks")
        raise WrongInput(say("decks", "deck"), name, accepted)
    return known[name]


def local(unit: Unit, moment: datetime) -> datetime:
    """The moment as the clock on the shop's wall shows it."""
    return moment.astimezone(ZoneInfo(read(unit).front.timezone))


def _settings(unit: Unit, row: SettingsVersionRow | None) -> ShopSettings:
    return unit.new_shop() if row is None else of_text(row.value)


@lru_cache(maxsize=8)
def of_text(value: str) -> ShopSettings:
    """The settings a version holds. They are asked for in every step and hardly ever changed."""
    return serialization.loads(ShopSettings, value)
