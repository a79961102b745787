"""Tables of the books: counted drawers, invoices and credit notes. Append-only."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import BigInteger, ForeignKey, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from core.model.accounts.invoice_records import InvoicedSums, Series
from core.store.columns import ByValue, Serialized, StoredTable, UtcMoment


class DrawerCountRow(StoredTable):
    """One count of the cash drawer. ``line``: the number of its line of history; payments before it count."""

    __tablename__ = "drawer_counts"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    closes: Mapped[bool]
    day: Mapped[str] = mapped_column(String(10), index=True)
    counted_minor: Mapped[int] = mapped_column(BigInteger)
    expected_minor: Mapped[int] = mapped_column(BigInteger)
    taken_out_minor: Mapped[int] = mapped_column(BigInteger)
    note: Mapped[str] = mapped_column(Text)
    line: Mapped[int] = mapped_column(BigInteger)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class InvoiceRow(StoredTable):
    """An invoice or a credit note, by number within its series."""

    __tablename__ = "invoices"
    __table_args__ = (UniqueConstraint("series", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    series: Mapped[Series] = mapped_column(ByValue(Series))
    number: Mapped[int]
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    sums: Mapped[InvoicedSums] = mapped_column(Serialized(InvoicedSums))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
