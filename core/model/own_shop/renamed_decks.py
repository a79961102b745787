"""Decks under other names: their outages follow, and what was written under the old name stays their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from core.model.own_shop.settings_records import Deck, ShopSettings


def renamed(settings: ShopSettings, names: Mapping[str, str]) -> ShopSettings:
    """The settings with decks called by ``names`` (old to new, all at once) wherever they are named."""
    return replace(
        settings,
        decks=tuple(_called(deck, names.get(deck.name, deck.name)) for deck in settings.decks),
        outages=tuple(replace(each, deck=names.get(each.deck, each.deck)) for each in settings.outages),
    )


def _called(deck: Deck, new: str) -> Deck:
    if new == deck.name:
        return deck
    before = [name for name in deck.formerly if name not in (deck.name, new)]
    return replace(deck, name=new, formerly=(*before, deck.name))
