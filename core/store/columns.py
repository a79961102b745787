"""What all tables have in common: one metadata with named constraints, and column types that keep what they
are given (moments in UTC, enums by value, records as JSON text).
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from enum import Enum
from functools import lru_cache
from typing import Any

from sqlalchemy import DateTime, Dialect, MetaData, String, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, MappedAsDataclass, mapped_column
from sqlalchemy.types import TypeDecorator, TypeEngine

from core.model import serialization
from core.store.sharing import shop_default

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

BYTEWISE = Text().with_variant(Text(collation="C"), "postgresql")
"""Text ordered by its code points on every database, so that a prefix is a range of the index."""


class NotAsWritten(ValueError):
    """What stands in a row is nothing the program wrote; `failures` names it."""


class StoredTable(MappedAsDataclass, DeclarativeBase, kw_only=True, eq=False, repr=False):
    """Every table; constraints are named so that migrations can speak of them.

    The keys here are those within one shop. On a server ``shop`` stands before each of them, in every
    primary key, unique constraint, link and index (`tests.core.store.sharing` compares).
    """

    metadata = MetaData(naming_convention=NAMES)

    shop: Mapped[str] = mapped_column(
        String(shop_default.LONGEST), init=False, deferred=True, insert_default=shop_default.of_insert
    )
    """Whose row it is: see `core.store.sharing.shop_scope`."""


class UtcMoment(TypeDecorator[datetime]):
    """A moment with its zone, kept in UTC to the microsecond; a naive one is refused, not guessed at.

    SQLite has no such type and would drop the zone, so there it is fixed-width ISO text that also sorts.
    """

    impl = DateTime(timezone=True)
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        if dialect.name == "sqlite":
            return dialect.type_descriptor(String(27))
        return dialect.type_descriptor(DateTime(timezone=True))

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> Any:
        if value is None:
            return None
        return written(value) if dialect.name == "sqlite" else in_utc(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        with _readable():
            if isinstance(value, str):
                value = datetime.fromisoformat(value)
            return None if value is None else in_utc(value)


class ByValue(TypeDecorator[Any]):
    """A member of ``kind``, kept as its value: the name the command line uses."""

    impl = String(40)
    cache_ok = True

    def __init__(self, kind: type[Enum]) -> None:
        super().__init__()
        self.kind = kind

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        return None if value is None else str(self.kind(value).value)

    def process_result_value(self, value: Any, dialect: Dialect) -> Enum | None:
        with _readable():
            return None if value is None else self.kind(value)


class Serialized(TypeDecorator[Any]):
    """A frozen record (or tuple of them) of type ``kind``, kept as canonical JSON text."""

    impl = Text
    cache_ok = True

    def __init__(self, kind: Any) -> None:
        super().__init__()
        self.kind = kind

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        return None if value is None else serialization.dumps(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> Any:
        with _readable():
            return None if value is None else _record(self.kind, value)


@lru_cache(maxsize=512)
def _record(kind: Any, text: str) -> Any:
    """What a text holds. Each step reads its order whole, and hardly any of it changes from step to step; the
    records are frozen, so one may be had by many. Two of an order, some 22 kB (measured): 250 open orders."""
    return serialization.loads(kind, text)


def forget_records() -> None:
    """Nothing that was read is remembered: somebody was erased."""
    _record.cache_clear()


@contextmanager
def _readable() -> Iterator[None]:
    """NotAsWritten for what the program cannot have written."""
    try:
        yield
    except (ValueError, TypeError, AttributeError) as error:
        raise NotAsWritten(str(error)) from error


def in_utc(moment: datetime) -> datetime:
    """The same moment in UTC; TypeError when it carries no zone."""
    if moment.tzinfo is None:
        raise TypeError(f"a moment without its time zone: {moment!r}")
    return moment.astimezone(UTC)


def written(moment: datetime) -> str:
    """Fixed-width ISO 8601 in UTC, e.g. ``2026-03-12T09:30:00.000000Z``: sorts as text as it does in time."""
    return in_utc(moment).strftime("%Y-%m-%dT%H:%M:%S.%f") + "Z"
