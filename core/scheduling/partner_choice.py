"""What a shop does with a recording none of its decks can play: it says so, and names a partner."""

from __future__ import annotations

from collections.abc import Iterable

from core.model.inventory import TapeLine
from core.model.repair_records import Elsewhere
from core.model.settings_records import Deck, Partner
from core.scheduling import deck_choice


def elsewhere(decks: tuple[Deck, ...], partners: Iterable[Partner], line: TapeLine) -> Elsewhere | None:
    """Why the tapes of a line cannot be copied here and who may do it; None where a deck plays them."""
    why = deck_choice.not_here(decks, line.format, line.recorded_as, line.tv, line.speed)
    if why is None:
        return None
    wanted = {line.format, *deck_choice.possible_systems(line.format, line.recorded_as)}
    partner = next((each for each in partners if each.formats & wanted), None)
    return Elsewhere(why, partner.name, partner.price, partner.days) if partner else Elsewhere(why)
