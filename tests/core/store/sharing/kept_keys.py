"""The tables as each kind of database keeps them: on a server with the shop before every key."""

from __future__ import annotations

from sqlalchemy import (
    Column,
    ForeignKeyConstraint,
    Index,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    UniqueConstraint,
)

from core.store.tables import StoredTable

SHOP = "shop"


def as_kept(kind: str) -> MetaData:
    """What ``sqlite`` or ``postgres`` holds, of the tables the program knows."""
    return _in_a_file() if kind == "sqlite" else _on_a_server()


def _in_a_file() -> MetaData:
    """The keys as they are; a row is of the main shop unless said otherwise, and nothing else may be said."""
    kept = MetaData(naming_convention=StoredTable.metadata.naming_convention)
    for table in StoredTable.metadata.sorted_tables:
        copied = table.to_metadata(kept)
        copied.c[SHOP].server_default = Column(SHOP, server_default="main").server_default
    return kept


def _on_a_server() -> MetaData:
    kept = MetaData(naming_convention=StoredTable.metadata.naming_convention)
    for table in StoredTable.metadata.sorted_tables:
        counted = table.autoincrement_column
        columns = [
            Column(each.name, each.type, nullable=each.nullable, autoincrement=each is counted)
            for each in table.columns
        ]
        keys = [_key(each) for each in table.constraints]
        made = Table(table.name, kept, *columns, *(each for each in keys if each is not None))
        for index in table.indexes:
            Index(index.name, *(made.c[name] for name in (SHOP, *(each.name for each in index.columns))))
    return kept


def _key(constraint: object) -> PrimaryKeyConstraint | UniqueConstraint | ForeignKeyConstraint | None:
    if isinstance(constraint, PrimaryKeyConstraint):
        return PrimaryKeyConstraint(SHOP, *constraint.columns.keys(), name=constraint.name)
    if isinstance(constraint, UniqueConstraint):
        return UniqueConstraint(SHOP, *constraint.columns.keys(), name=constraint.name)
    if isinstance(constraint, ForeignKeyConstraint):
        to = constraint.referred_table.name
        there = [f"{to}.{each.column.name}" for each in constraint.elements]
        here = [SHOP, *constraint.column_keys]
        return ForeignKeyConstraint(here, [f"{to}.{SHOP}", *there], name=constraint.name)
    return None
