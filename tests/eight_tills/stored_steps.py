"""What the history of a shop says was stored, transaction by transaction."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import column, select, table

from core.store import history, row_digests
from core.store.columns import StoredTable
from core.store.sharing.shop_scope import narrowed
from core.store.tables import ErasureRow, EventRow
from core.store.unit import Unit

Rows = Mapping[str, Mapping[str, str | None]]
"""By table and key the digests of the rows that one transaction wrote."""


@dataclass(frozen=True, slots=True)
class StoredSteps:
    """Every transaction of a shop, oldest first."""

    transactions: tuple[Rows, ...]

    @property
    def commands(self) -> Counter[str]:
        """How often each command was stored; an erasure empties those before it and stores its own."""
        found: Counter[str] = Counter()
        for rows in self.transactions:
            stored = rows.get("commands", {}).keys()
            found.update(stored - found.keys() if is_erasure(rows) else stored)
        return found

    def by_command(self) -> dict[str, Rows]:
        found: dict[str, Rows] = {}
        for rows in self.transactions:
            stored = rows.get("commands", {}).keys()
            found |= dict.fromkeys(stored - found.keys() if is_erasure(rows) else stored, rows)
        return found


def read(unit: Unit) -> StoredSteps:
    """Reads the lines of rows of the whole history; what is too long for one line goes on in the next."""
    asked = select(EventRow.payload).where(EventRow.kind == row_digests.KIND).order_by(EventRow.seq)
    found: list[dict[str, dict[str, str | None]]] = []
    goes_on = False
    for payload in unit.session.scalars(asked):
        told = history.payload_of(payload).get("rows", {})
        if not goes_on:
            found.append({})
        for name, keys in told.items():
            found[-1].setdefault(name, {}).update(keys)
        goes_on = sum(map(len, told.values())) == row_digests.AT_ONCE
    return StoredSteps(tuple(found))


def is_erasure(rows: Rows) -> bool:
    """Whether a transaction emptied rows of a person, which are not counted as written anew."""
    return ErasureRow.__tablename__ in rows


def overwritten(unit: Unit, stored: StoredSteps) -> Iterator[str]:
    """Rows that were changed more often than their version was counted: somebody wrote over what was read
    before another one changed it."""
    changes: dict[tuple[str, str], list[str]] = defaultdict(list)
    for rows in stored.transactions:
        for name, keys in rows.items():
            for key, digest in keys.items():
                if digest is None:  # it is gone; one that bears its number later is another
                    changes[name, key].clear()
                elif is_erasure(rows) and changes[name, key]:
                    changes[name, key][-1] = digest
                elif changes[name, key][-1:] != [digest]:
                    changes[name, key].append(digest)
    for name, key, version in _versions(unit):
        if (times := len(changes[name, key])) > version:
            yield f"{name} {key} was written {times} times, and is at version {version}"


def _versions(unit: Unit) -> Iterator[tuple[str, str, int]]:
    for each in StoredTable.metadata.sorted_tables:
        if "version" in each.columns and each.name not in row_digests.OUTSIDE:
            names = row_digests.key_names(unit.session.connection(), each.name)
            kept = table(each.name, column("shop"))
            asked = select(*(column(one) for one in [*names, "version"])).select_from(kept)
            for row in unit.session.execute(narrowed(unit.session, asked, kept)):
                values: tuple[Any, ...] = tuple(row)
                yield each.name, "/".join(map(str, values[:-1])), values[-1]
