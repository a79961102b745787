"""What SQLAlchemy has compiled for one engine serves every later one of the run.

Every test opens shops of its own, and SQLAlchemy keeps what it compiled by the identity of an engine's
dialect: a third of a short test went into compiling the same statements once more, for the engine that reads
and for the one that writes; and the mappers keep what they compiled for the dialects of a hundred shops. Two
dialects of one database library and version compile alike, so they are one key here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from sqlalchemy.dialects.postgresql.psycopg import PGDialect_psycopg
from sqlalchemy.dialects.sqlite.pysqlite import SQLiteDialect_pysqlite
from sqlalchemy.engine import Dialect, Engine
from sqlalchemy.util import LRUCache

from core.store import engines

DIALECTS: tuple[type[Dialect], ...] = (SQLiteDialect_pysqlite, PGDialect_psycopg)
MOST = 1500
"""Statements kept; the whole run has fewer."""


def _key(dialect: Any) -> tuple[object, ...]:
    return type(dialect), dialect.dbapi, getattr(dialect, "server_version_info", None)


def _is_alike(one: object, other: object) -> bool:
    return one is other or (isinstance(other, Dialect) and _key(one) == _key(other))


@pytest.fixture(autouse=True, scope="session")
def compiled_once() -> Iterator[None]:
    """One store of compiled statements for all engines of the program."""
    make, kept = engines.create_engine, LRUCache[Any, Any](MOST)

    def create_engine(*words: Any, **named: Any) -> Engine:
        engine = make(*words, **named)
        engine._compiled_cache = kept
        return engine

    with pytest.MonkeyPatch.context() as patched:
        for kind in DIALECTS:
            patched.setattr(kind, "__eq__", _is_alike)
            patched.setattr(kind, "__hash__", lambda dialect: hash(_key(dialect)))
        patched.setattr(engines, "create_engine", create_engine)
        yield
