"""What the shop keeps of its customers, why, and for how long: one page for the owner to show."""

from __future__ import annotations

from dataclasses import dataclass

from core.services.own_shop import backup_places
from core.services.privacy import held_copies
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

KEPT = (
    *("customer", "orders", "money", "agreements", "calls", "history", "papers", "photos"),
    *("recordings", "drafts", "exports", "backups", "log"),
)
"""What there is, by the keys of `privacy.ftl`."""


@dataclass(frozen=True, slots=True)
class KeptEntry:
    """One kind of thing that is kept."""

    name: str
    what: str
    why: str
    how_long: str


def entries(unit: Unit) -> tuple[KeptEntry, ...]:
    """The page line by line, with the figures of this shop and the backups there are at this moment."""
    state = backup_places.read(unit)
    last = held_copies.last_day(state, unit.now)
    figures = {"days": state.plan.keep_days, "weeks": state.plan.keep_weeks, "years": state.plan.keep_years}
    figures |= {"keep": state.plan.keep, "places": len(state.places), "made": 0 if last is None else 1}
    until = "" if last is None else locale_figures.full_day(last)
    return tuple(
        KeptEntry(
            name,
            say("privacy", f"kept-{name}"),
            say("privacy", f"kept-{name}-why"),
            say("privacy", f"kept-{name}-long", until=until, **figures),
        )
        for name in KEPT
    )
