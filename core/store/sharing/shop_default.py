"""The shop of a row that nobody says the shop of: that of its engine."""

from __future__ import annotations

from typing import Any

MAIN = "main"
"""The shop of an address that names none, and of every file: a file holds one shop."""
LONGEST = 40
"""Letters of a name."""
OPTION = "shop"
"""What the engines of a server carry: the name of their shop."""


def of_insert(context: Any) -> str:
    """The shop of a row that is being inserted (a default of SQLAlchemy, asked at each execution)."""
    name: str = context.execution_options.get(OPTION) or MAIN
    return name
