"""What lies on a counter and is not booked yet, kept so that a power cut costs seconds."""

from __future__ import annotations

from core.customers import text
from core.errors import WrongInput
from core.inventory import Inventory
from core.tables import DraftRow
from core.unit import Unit


def keep(unit: Unit, key: str, inventory: Inventory | None) -> None:
    """Keeps the draft of one counter; None throws it away."""
    name = _named(key)
    row = unit.session.get(DraftRow, name)
    if inventory is None:
        if row is not None:
            unit.session.delete(row)
    elif row is None:
        unit.session.add(DraftRow(name=name, inventory=inventory, kept_at=unit.now, kept_by=unit.who))
    else:
        row.inventory, row.kept_at, row.kept_by = inventory, unit.now, unit.who


def kept(unit: Unit, key: str) -> Inventory | None:
    """The draft of one counter as it was last kept."""
    row = unit.session.get(DraftRow, _named(key))
    return None if row is None else row.inventory


def _named(key: str) -> str:
    name = text("draft", key)
    if not 0 < len(name) <= 80:
        raise WrongInput("draft", key, "a name of 1 to 80 letters is accepted")
    return name
