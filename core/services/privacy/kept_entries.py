"""What the shop keeps of its customers, why, and for how long: one page for the owner to show."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.own_shop.settings_records import ShopSettings
from core.wording.messages import say

KEPT = (
    *("customer", "orders", "money", "agreements", "calls", "history", "papers", "photos"),
    *("recordings", "drafts", "backups", "log"),
)
"""What there is, by the keys of `privacy.ftl`."""


@dataclass(frozen=True, slots=True)
class KeptEntry:
    """One kind of thing that is kept."""

    name: str
    what: str
    why: str
    how_long: str


def entries(settings: ShopSettings) -> tuple[KeptEntry, ...]:
    """The page line by line, with the figures of this shop."""
    plan = settings.backup
    days = round(plan.keep * plan.every_hours / 24)
    return tuple(
        KeptEntry(
            name,
            say("privacy", f"kept-{name}"),
            say("privacy", f"kept-{name}-why"),
            say("privacy", f"kept-{name}-long", keep=plan.keep, places=len(plan.places), days=days),
        )
        for name in KEPT
    )
