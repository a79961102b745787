"""Tables of the booked boxes: customers, copies, money, agreements, promises and pickups."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from sqlalchemy import (
    BigInteger,
    ForeignKey,
    String,
    Text,
    UniqueConstraint,
)
from sqlalchemy.orm import Mapped, mapped_column, relationship

from core.model.agreement_records import AgreedHow, AgreementKind, CeilingChoice
from core.model.job_records import Pickup
from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.model.signatures import Stroke
from core.model.stations import Station
from core.store.columns import BYTEWISE, ByValue, Serialized, StoredTable, UtcMoment
from core.store.row_digests import new_salt

if TYPE_CHECKING:
    from core.store.copy_tables import CopyRow
    from core.store.tape_tables import TapeRow


class CustomerRow(StoredTable):
    """Whose tapes they are. ``folded`` and ``digits`` are what a search looks at; for ``salt`` see
    `row_digests`."""

    __tablename__ = "customers"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    name: Mapped[str] = mapped_column(Text)
    folded: Mapped[str] = mapped_column(BYTEWISE, index=True)
    phone: Mapped[str | None] = mapped_column(Text)
    digits: Mapped[str] = mapped_column(BYTEWISE, index=True)
    email: Mapped[str | None] = mapped_column(Text)
    since: Mapped[datetime] = mapped_column(UtcMoment)
    salt: Mapped[str | None] = mapped_column(String(32), init=False, insert_default=new_salt)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class JobRow(StoredTable):
    """A booked box. ``id`` is the gap-free sequence inside ``number``."""

    __tablename__ = "jobs"

    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    number: Mapped[str] = mapped_column(String(6), unique=True)
    command: Mapped[str] = mapped_column(String(80), unique=True)
    customer_id: Mapped[int] = mapped_column(ForeignKey("customers.id"), index=True, init=False)
    booked_at: Mapped[datetime] = mapped_column(UtcMoment)
    booked_by: Mapped[str] = mapped_column(Text)
    rush: Mapped[bool]
    quote: Mapped[Quote] = mapped_column(Serialized(Quote))
    promise: Mapped[Promise] = mapped_column(Serialized(Promise))
    salt: Mapped[str | None] = mapped_column(String(32), init=False, insert_default=new_salt)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}

    customer: Mapped[CustomerRow] = relationship()
    tapes: Mapped[list[TapeRow]] = relationship(
        back_populates="job", order_by="TapeRow.place", default_factory=list
    )
    copies: Mapped[list[CopyRow]] = relationship(order_by="CopyRow.id", default_factory=list)
    payments: Mapped[list[PaymentRow]] = relationship(order_by="PaymentRow.id", default_factory=list)
    agreement: Mapped[list[AgreementVersionRow]] = relationship(
        order_by="AgreementVersionRow.number", default_factory=list
    )


class PaymentRow(StoredTable):
    """Money that changed hands; a refund is negative. A wrong line is answered by another line."""

    __tablename__ = "payments"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True, init=False)
    kind: Mapped[str] = mapped_column(String(20))
    minor: Mapped[int] = mapped_column(BigInteger)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    method: Mapped[str | None] = mapped_column(String(20), default=None)
    note: Mapped[str | None] = mapped_column(Text, default=None)
    line: Mapped[int | None] = mapped_column(BigInteger, default=None)
    """The number of its line of history, which says what came first; None in rows from before."""


class AgreementVersionRow(StoredTable):
    """One numbered version of what was agreed; the newest holds.

    ``quote`` and ``codes`` are None where they are those of the version before; the first ones are the job's.
    ``told`` is what was said to the customer before. ``command`` and ``content`` are of versions entered
    before commands had a table of their own (`CommandRow`).
    """

    __tablename__ = "agreement_versions"
    __table_args__ = (UniqueConstraint("job_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), init=False)
    number: Mapped[int]
    kind: Mapped[AgreementKind] = mapped_column(ByValue(AgreementKind))
    quote: Mapped[Quote | None] = mapped_column(Serialized(Quote))
    codes: Mapped[tuple[str, ...] | None] = mapped_column(Serialized(tuple[str, ...]))
    ceiling_minor: Mapped[int] = mapped_column(BigInteger)
    given_away_minor: Mapped[int] = mapped_column(BigInteger)
    fee_minor: Mapped[int] = mapped_column(BigInteger)
    promise: Mapped[Promise] = mapped_column(Serialized(Promise))
    reason: Mapped[str] = mapped_column(Text)
    agreed_by: Mapped[str | None] = mapped_column(Text)
    how: Mapped[AgreedHow | None] = mapped_column(ByValue(AgreedHow))
    strokes: Mapped[tuple[Stroke, ...]] = mapped_column(Serialized(tuple[Stroke, ...]))
    told: Mapped[tuple[str, ...]] = mapped_column(Serialized(tuple[str, ...]))
    choice: Mapped[CeilingChoice | None] = mapped_column(ByValue(CeilingChoice))
    command: Mapped[str | None] = mapped_column(String(80), unique=True)
    tax_exempt: Mapped[str | None] = mapped_column(Text)
    content: Mapped[str | None] = mapped_column(String(64))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class CeilingQuestionRow(StoredTable):
    """A tape was stopped because the price would go over version ``version``: the customer is asked."""

    __tablename__ = "ceiling_questions"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True)
    version: Mapped[int]
    stands_minor: Mapped[int] = mapped_column(BigInteger)
    ceiling_minor: Mapped[int] = mapped_column(BigInteger)
    bound_for: Mapped[Station] = mapped_column(ByValue(Station))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class PromiseRow(StoredTable):
    """One date that was said to a customer. The newest of a job holds; the older ones stay readable."""

    __tablename__ = "promises"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    promise: Mapped[Promise] = mapped_column(Serialized(Promise))
    reason: Mapped[str] = mapped_column(Text)
    agreed_with: Mapped[str | None] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)

    job: Mapped[JobRow] = relationship(init=False, viewonly=True)


class FinishRow(StoredTable):
    """The moment the last tape of a job was ready. Work taken up again gives it another; the last counts."""

    __tablename__ = "finishes"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class PickupRow(StoredTable):
    """One hand-back. ``record`` is the receipt as it was signed."""

    __tablename__ = "pickups"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    command: Mapped[str] = mapped_column(String(80), unique=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    signed_by: Mapped[str] = mapped_column(Text)
    strokes: Mapped[tuple[Stroke, ...]] = mapped_column(Serialized(tuple[Stroke, ...]))
    record: Mapped[Pickup] = mapped_column(Serialized(Pickup))


class HandedBackRow(StoredTable):
    """A tape leaves the shop once: its key is the tape."""

    __tablename__ = "handed_back"

    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), primary_key=True, autoincrement=False)
    pickup_id: Mapped[int] = mapped_column(ForeignKey("pickups.id"), index=True)
