"""Stops a statement that touches a table of ours and does not say of which shop.

It reads the text as it goes to the server, whoever made it; each text once, so a text that goes out again
costs a look into a table.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

_VERBS = re.compile(r"\s*(?:SELECT|WITH|INSERT|UPDATE|DELETE)\b", re.IGNORECASE)
_INSERT = re.compile(r'\s*INSERT INTO "?(\w+)"? \(([^)]*)\)', re.IGNORECASE)


class ShopNotSaid(RuntimeError):
    """A statement would have touched rows of every shop."""


def check(statement: str, tables: frozenset[str]) -> None:
    """ShopNotSaid, with the table and the statement, where one touches a table without its shop."""
    table = first_unsaid(statement, tables)
    if table is not None:
        raise ShopNotSaid(table, statement)


@lru_cache(maxsize=4096)
def first_unsaid(statement: str, tables: frozenset[str]) -> str | None:
    """The first of ``tables`` in a statement that has no condition or value for its shop.

    That its shop is the one of another table is no condition.
    """
    if not _VERBS.match(statement):
        return None
    inserted = _INSERT.match(statement)
    if inserted is not None:
        is_said = inserted[1] not in tables or "shop" in re.findall(r"\w+", inserted[2])
        return None if is_said else inserted[1]
    for found in _uses(tables).finditer(statement):
        alias = found[2] or found[1]
        if not re.search(rf"\b{alias}\.shop\s*=\s*(?!\w+\.)", statement):
            return str(found[1])
    return None


@cache
def _uses(tables: frozenset[str]) -> re.Pattern[str]:
    """A table where rows are taken from or changed, with the name it has in the statement."""
    any_of_them = "|".join(sorted(tables))
    return re.compile(
        rf'(?:\bFROM|\bJOIN|\bUPDATE|,)\s+"?({any_of_them})"?(?:\s+AS\s+(\w+))?(?=\s|,|\)|$)', re.IGNORECASE
    )
