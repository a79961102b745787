"""The shop's names as a person says them: a finding, a station, a disposition, a way of joining, a part."""

from __future__ import annotations

from core.model.dispositions import Disposition
from core.model.names import AnyFinding, DonorPart, FindingKey, Join
from core.model.own_shop import shop_additions
from core.model.price_ways import PriceWay
from core.model.stations import Station
from core.wording.messages import say


def spoken(
    name: AnyFinding | Station | Disposition | Join | DonorPart | PriceWay, language: str | None = None
) -> str:
    """The name as it stands within a sentence: ``off the hub``, ``at the bench``."""
    if isinstance(name, FindingKey):
        return shop_additions.finding_words(name)
    return say("names", f"{type(name).__name__.lower()}-{name.value}", language=language)
