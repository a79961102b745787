"""The settings of the shop as they hold now, and the clock on its wall."""

from __future__ import annotations

from datetime import datetime
from functools import lru_cache
from zoneinfo import ZoneInfo

from core.model import serialization
from core.model.errors import WrongInput
from core.model.settings_records import Deck, ShopSettings
from core.store.shop_tables import SettingRow
from core.store.unit import Unit
from core.wording.messages import say

_NAME = "fittings"
"""The name of their row since the first version."""


def read(unit: Unit) -> ShopSettings:
    """Decks, hours and people of this shop; those of a new shop as long as nobody has set any."""
    row = unit.session.get(SettingRow, _NAME)
    return unit.new_shop() if row is None else _read(row.value)


def keep(unit: Unit, settings: ShopSettings) -> None:
    """Keeps settings that were checked; they hold from now on."""
    row = unit.session.get(SettingRow, _NAME)
    if row is None:
        unit.session.add(SettingRow(name=_NAME, value=serialization.dumps(settings)))
    else:
        row.value = serialization.dumps(settings)


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


@lru_cache(maxsize=8)
def _read(value: str) -> ShopSettings:
    """They are asked for in every step and hardly ever changed."""
    return serialization.loads(ShopSettings, value)
