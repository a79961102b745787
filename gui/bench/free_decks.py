"""The decks a tape may go on now."""

from __future__ import annotations

from collections.abc import Collection

from core.model.own_shop.settings_records import Deck
from core.model.tape_records import TapeRecord
from core.scheduling.deck_choice import suited


def free_decks(fitted: tuple[Deck, ...], taken: Collection[str], tape: TapeRecord) -> tuple[str, ...]:
    """Names of the decks in service that play this tape and are empty; ``taken``: the others."""
    draft = tape.draft
    could = suited(fitted, draft.format, draft.recorded_as, draft.tv, draft.speed).decks
    return tuple(name for place in could if (name := fitted[place].name) not in taken)
