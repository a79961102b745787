"""What the shop keeps of its customers, why, and for how long: one page for the owner to show."""

from __future__ import annotations

from core.model.backup_records import BackupState
from core.model.own_shop.kept_entry import KeptEntry
from core.services.own_shop import backup_places
from core.services.privacy import held_copies
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

KEPT = (
    *("customer", "orders", "money", "agreements", "calls", "history", "papers", "photos"),
    *("paper-places", "recordings", "drafts", "shop-notes", "exports", "backups", "log"),
)
"""What there is, by the keys of `privacy.ftl`."""


def entries(unit: Unit) -> tuple[KeptEntry, ...]:
    """The page line by line, with the figures of this shop and the backups there are at this moment."""
    state = backup_places.read(unit)
    last = held_copies.last_day(state, unit.now)
    until = "" if last is None else locale_figures.full_day(last)
    return tuple(
        KeptEntry(
            name,
            say("privacy", f"kept-{name}"),
            say("privacy", f"kept-{name}-why"),
            _how_long(name, state, until),
        )
        for name in KEPT
    )


def _how_long(name: str, state: BackupState, until: str) -> str:
    plan = state.plan
    return say(
        "privacy",
        f"kept-{name}-long",
        keep=plan.keep,
        days=plan.keep_days,
        weeks=plan.keep_weeks,
        years=plan.keep_years,
        places=len(state.places),
        made=1 if until else 0,
        until=until,
    )
