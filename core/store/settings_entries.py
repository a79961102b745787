"""Entries of the record of settings and prices: numbered without gaps in each part, told in the history."""

from __future__ import annotations

from sqlalchemy import func, select

from core.store import current_settings, history
from core.store.shop_tables import SettingsVersionRow
from core.store.unit import Unit


def number(unit: Unit, part: str) -> int:
    """The number of the newest entry of a part; 0 before the first."""
    newest = select(func.max(SettingsVersionRow.number)).where(SettingsVersionRow.part == part)
    return unit.session.scalar(newest) or 0


def append(
    unit: Unit,
    part: str,
    kind: str,
    value: str,
    words: str,
    *,
    valid_from: str | None = None,
    undoes: int | None = None,
) -> None:
    """Adds an entry to a part, and the line of history (of ``kind``) by which the audit knows its value."""
    row = SettingsVersionRow(
        part=part,
        number=number(unit, part) + 1,
        valid_from=valid_from,
        value=value,
        words=words,
        undoes=undoes,
        at=unit.now,
        by=unit.who,
    )
    unit.session.add(row)
    unit.session.flush()
    current_settings.forget(unit)
    history.append(unit, kind, words, part=part, number=row.number, value_sha256=history.fingerprint(value))
