"""Tables of what follows once an order is ready: who was told, and what the customer wishes. Append-only."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from core.model.handover_records import ToldHow, ToldResult
from core.store.columns import ByValue, StoredTable, UtcMoment


class ToldRow(StoredTable):
    """One attempt to tell a customer that an order is ready; ``round`` 0, or the number of the reminder."""

    __tablename__ = "told"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    command: Mapped[str] = mapped_column(String(80), unique=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    round: Mapped[int]
    how: Mapped[ToldHow] = mapped_column(ByValue(ToldHow))
    result: Mapped[ToldResult] = mapped_column(ByValue(ToldResult))
    note: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class HandoverWishRow(StoredTable):
    """One wish of a customer for an order; the newest of a ``kind`` holds, an empty one takes it back.

    ``kind``: ``how``, ``collector``, or ``pass-phrase`` (of which only the hash is kept).
    """

    __tablename__ = "handover_wishes"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    kind: Mapped[str] = mapped_column(String(20))
    value: Mapped[str] = mapped_column(Text)
    said_by: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
