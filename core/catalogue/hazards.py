"""Standing cautions about what can hurt somebody, a machine or the tape."""

from __future__ import annotations

from core.catalogue.format_file import Hazard
from core.wording.messages import say

WITH_ANY_REPAIR = (Hazard.SMALL,)
"""Said with every repair of a shell that names it."""
WITH_A_SPLICE = (Hazard.FOIL,)
"""Said with a splice on a shell that names it."""


def caution(hazard: Hazard) -> str:
    """The caution in words."""
    return say("findings", hazard.value)
