"""A deck under another name: its outages follow, and what was written under the old name stays its own."""

from __future__ import annotations

from dataclasses import replace

from core.model.settings_records import Deck, ShopSettings


def renamed(settings: ShopSettings, old: str, new: str) -> ShopSettings:
    """The settings with deck ``old`` called ``new`` everywhere; as they were where there is no such deck."""
    if old == new:
        return settings
    return replace(
        settings,
        decks=tuple(_called(deck, new) if deck.name == old else deck for deck in settings.decks),
        outages=tuple(replace(each, deck=new) if each.deck == old else each for each in settings.outages),
    )


def _called(deck: Deck, new: str) -> Deck:
    before = [name for name in deck.formerly if name not in (deck.name, new)]
    return replace(deck, name=new, formerly=(*before, deck.name))
