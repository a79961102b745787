"""What all tables have in common: one metadata, and names of constraints that migrations can speak of."""

from __future__ import annotations

from sqlalchemy import (
    MetaData,
    Text,
)
from sqlalchemy.orm import DeclarativeBase, MappedAsDataclass

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


BYTEWISE = Text().with_variant(Text(collation="C"), "postgresql")
"""Text ordered by its code points on every database, so that a prefix is a range of the index."""


class StoredTable(MappedAsDataclass, DeclarativeBase, kw_only=True, eq=False, repr=False):
    """Every table; constraints are named so that migrations can speak of them."""

    metadata = MetaData(naming_convention=NAMES)
