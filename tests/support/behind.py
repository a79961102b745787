"""Statements as somebody with another tool could type them: of no shop in particular, and past the fence."""

from __future__ import annotations

from sqlalchemy import TextClause, text


def behind(statement: str) -> TextClause:
    """A statement past the program, for all rows that are there."""
    return text(statement).execution_options(every_shop=True)
