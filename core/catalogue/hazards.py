"""Standing cautions about what can hurt somebody, a machine or the tape."""

from __future__ import annotations

from core.catalogue.format_file import Hazard
from core.wording.messages import say

WITH_ANY_REPAIR = (Hazard.SMALL,)
"""Said with every repair of a shell that names it."""
WITH_A_SPLICE = (Hazard.FOIL,)
"""Said with a splice on a shell that names it."""
IN_A_SHELL = (
    *(Hazard.MOULD, Hazard.BLADES, Hazard.SPRINGS, Hazard.SOLVENT, Hazard.GLUE, Hazard.OXIDE),
    Hazard.MAINS,
)
"""What can be met where a shell is opened or a tape mended; it may have to be freed from a deck first."""
IN_A_DECK = (Hazard.MAINS, Hazard.CHARGE, Hazard.MOVING, Hazard.OXIDE, Hazard.SOLVENT)
"""What can be met where a deck is opened, cleaned or mended."""


def in_a_deck() -> tuple[str, ...]:
    """What to be careful of with a deck that is opened, cleaned or mended, in words."""
    return tuple(map(caution, IN_A_DECK))


def brief(hazard: Hazard) -> str:
    """What to wear and to leave, on one line; the caution has it in full, with whose rules go first."""
    return say("findings", f"brief-{hazard.value}")


def caution(hazard: Hazard) -> str:
    """The caution in words."""
    return say("findings", hazard.value)
