"""What a shop does with a recording none of its decks can play: it says so, and names a partner."""

from __future__ import annotations

from collections.abc import Iterable

from core.catalogue.formats import catalogue
from core.model.inventory import TapeLine
from core.model.own_shop.settings_records import Deck, Partner
from core.model.repair_records import Elsewhere
from core.scheduling import deck_choice
from core.wording.messages import say


def elsewhere(
    decks: tuple[Deck, ...], partners: Iterable[Partner], line: TapeLine, *, is_priced: bool = True
) -> Elsewhere | None:
    """Why the tapes of a line cannot be copied here and who may do it; None where a deck plays them.

    What the shop has no price for is not taken in either.
    """
    why = deck_choice.not_here(decks, line.format, line.recorded_as, line.tv, line.speed)
    if why is None and not is_priced:
        why = say("dates", "not_priced", what=catalogue().format(line.format).words)
    if why is None:
        return None
    wanted = {line.format, *deck_choice.possible_systems(line.format, line.recorded_as)}
    partner = next((each for each in partners if each.formats & wanted), None)
    return Elsewhere(why, partner.name, partner.price, partner.days) if partner else Elsewhere(why)
