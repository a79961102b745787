"""What the shop keeps, as typed tables. No rule lives here but those the database itself must hold.

Rows that change carry a version, so that a write based on a stale reading is a conflict and not a lost
update. Rows of `EventRow`, `PaymentRow`, `AgreementRow`, `PickupRow`, `HandedBackRow` and `CaptureRow` are
never changed or deleted: triggers of the migrations see to it.
"""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    ForeignKey,
    Index,
    MetaData,
    String,
    Text,
    UniqueConstraint,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, MappedAsDataclass, mapped_column, relationship

from core.capture.file_report import Report
from core.model.inventory import TapeLine
from core.model.names import DonorPart, Finding, FormatName, Join, Look, Measure, Section, Speed, TvSystem
from core.model.pickup_records import Pickup, Stroke
from core.model.promise_records import Promise
from core.model.quote_records import Quote, Verdict
from core.model.ranges import Range
from core.model.stations import Station
from core.store.columns import ByValue, Serialized, UtcMoment

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


class CounterRow(StoredTable):
    """A sequence without gaps: ``job`` and ``event``."""

    __tablename__ = "counters"

    name: Mapped[str] = mapped_column(String(20), primary_key=True)
    last: Mapped[int]


class SettingRow(StoredTable):
    """One thing the shop has settled for itself, as JSON text."""

    __tablename__ = "settings"

    name: Mapped[str] = mapped_column(String(40), primary_key=True)
    value: Mapped[str] = mapped_column(Text)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class DraftRow(StoredTable):
    """What lies on a counter and is not booked yet."""

    __tablename__ = "drafts"

    name: Mapped[str] = mapped_column(String(80), primary_key=True)
    written: Mapped[str] = mapped_column("inventory", Text)
    """A box as it was typed, as JSON; older books hold the inventory that was read from it."""
    kept_at: Mapped[datetime] = mapped_column(UtcMoment)
    kept_by: Mapped[str] = mapped_column(Text)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class CustomerRow(StoredTable):
    """Whose tapes they are. ``folded`` and ``digits`` are what a search looks at."""

    __tablename__ = "customers"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    name: Mapped[str] = mapped_column(Text)
    folded: Mapped[str] = mapped_column(BYTEWISE, index=True)
    phone: Mapped[str | None] = mapped_column(Text)
    digits: Mapped[str] = mapped_column(BYTEWISE, index=True)
    email: Mapped[str | None] = mapped_column(Text)
    since: Mapped[datetime] = mapped_column(UtcMoment)
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
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}

    customer: Mapped[CustomerRow] = relationship()
    tapes: Mapped[list[TapeRow]] = relationship(
        back_populates="job", order_by="TapeRow.place", default_factory=list
    )
    copies: Mapped[list[CopyRow]] = relationship(order_by="CopyRow.id", default_factory=list)
    payments: Mapped[list[PaymentRow]] = relationship(order_by="PaymentRow.id", default_factory=list)
    agreements: Mapped[list[AgreementRow]] = relationship(order_by="AgreementRow.id", default_factory=list)


class TapeRow(StoredTable):
    """One cassette. ``deck`` is the deck it is playing on, so that no deck holds two.

    ``look`` is what the look after the repair of ``repaired_at`` told; ``astray_since`` is set while a
    not-for-reuse label is still on a cassette that no longer needs it; ``rests_until`` where it came in cold.
    """

    __tablename__ = "tapes"
    __table_args__ = (UniqueConstraint("job_id", "place"), Index(None, "station", "job_id"))

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), init=False)
    code: Mapped[str] = mapped_column(String(10), unique=True)
    place: Mapped[int]
    line: Mapped[int]
    n: Mapped[int]
    draft: Mapped[TapeLine] = mapped_column(Serialized(TapeLine))
    station: Mapped[Station] = mapped_column(ByValue(Station))
    since: Mapped[datetime] = mapped_column(UtcMoment)
    findings: Mapped[tuple[Finding, ...]] = mapped_column(Serialized(tuple[Finding, ...]))
    verdict: Mapped[Verdict] = mapped_column(Serialized(Verdict))
    minutes: Mapped[Range] = mapped_column(Serialized(Range))
    note: Mapped[str] = mapped_column(Text, default="")
    settled: Mapped[tuple[Finding, ...]] = mapped_column(Serialized(tuple[Finding, ...]), default=())
    played_minutes: Mapped[float | None] = mapped_column(default=None)
    deck: Mapped[str | None] = mapped_column(String(80), unique=True, default=None)
    not_for_reuse: Mapped[bool] = mapped_column(default=False)
    marked_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    returned_from: Mapped[Station | None] = mapped_column(ByValue(Station), default=None)
    repaired_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    look: Mapped[Look | None] = mapped_column(ByValue(Look), default=None)
    looked_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    looked_by: Mapped[str | None] = mapped_column(Text, default=None)
    astray_since: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    rests_until: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}

    job: Mapped[JobRow] = relationship(back_populates="tapes", init=False)
    splices: Mapped[list[SpliceRow]] = relationship(order_by="SpliceRow.id", default_factory=list)
    repairs: Mapped[list[RepairRow]] = relationship(order_by="RepairRow.id", default_factory=list)


class SpliceRow(StoredTable):
    """One join. A splice entered by mistake is struck out, never deleted.

    What is None was not kept yet when the row was written, or is no range because the speed is known.
    """

    __tablename__ = "splices"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True, init=False)
    at_minutes: Mapped[float]
    cut_cm: Mapped[float]
    joined_with: Mapped[Join] = mapped_column(ByValue(Join))
    seconds_removed: Mapped[float]
    seconds_disturbed: Mapped[float]
    by: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    struck_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    struck_because: Mapped[str | None] = mapped_column(Text, default=None)
    struck_by: Mapped[str | None] = mapped_column(Text, default=None)
    at_metres: Mapped[float | None] = mapped_column(default=None)
    measured: Mapped[Measure | None] = mapped_column(ByValue(Measure), default=None)
    reckoned: Mapped[Range | None] = mapped_column(Serialized(Range), default=None)
    section: Mapped[Section | None] = mapped_column(ByValue(Section), default=None)
    removed: Mapped[Range | None] = mapped_column(Serialized(Range), default=None)
    disturbed: Mapped[Range | None] = mapped_column(Serialized(Range), default=None)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class DonorRow(StoredTable):
    """Parts of donor cassettes on the shelf, all from the same place."""

    __tablename__ = "donors"
    __table_args__ = (
        UniqueConstraint("format", "part", "came_from"),
        CheckConstraint("count >= 0", name="count_not_negative"),
    )

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    format: Mapped[FormatName] = mapped_column(String(40))
    part: Mapped[DonorPart] = mapped_column(ByValue(DonorPart))
    came_from: Mapped[str] = mapped_column(Text)
    count: Mapped[int]
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class RepairRow(StoredTable):
    """One repair that was tried. One entered by mistake is struck out, never deleted.

    ``donor`` is the place on the shelf its part was taken from; ``settled`` the findings it dealt with.
    """

    __tablename__ = "repairs"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True, init=False)
    code: Mapped[str] = mapped_column(String(40))
    succeeded: Mapped[bool]
    part: Mapped[DonorPart | None] = mapped_column(ByValue(DonorPart))
    donor_id: Mapped[int | None] = mapped_column(ForeignKey("donors.id"), index=True)
    came_from: Mapped[str] = mapped_column(Text)
    note: Mapped[str] = mapped_column(Text)
    settled: Mapped[tuple[Finding, ...]] = mapped_column(Serialized(tuple[Finding, ...]))
    by: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    struck_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    struck_by: Mapped[str | None] = mapped_column(Text, default=None)
    struck_because: Mapped[str | None] = mapped_column(Text, default=None)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class CaptureRow(StoredTable):
    """One time a tape played to its end, and what the deck showed; None where nobody looked."""

    __tablename__ = "captures"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True)
    minutes: Mapped[float]
    speed: Mapped[Speed | None] = mapped_column(ByValue(Speed))
    recorded_as: Mapped[FormatName | None] = mapped_column(String(40))
    tv: Mapped[TvSystem | None] = mapped_column(ByValue(TvSystem))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class RecordingRow(StoredTable):
    """One file recorded from a tape. A file attached by mistake is struck out, never deleted."""

    __tablename__ = "recordings"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True)
    sha256: Mapped[str] = mapped_column(String(64), index=True)
    report: Mapped[Report] = mapped_column(Serialized(Report))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    struck_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    struck_because: Mapped[str | None] = mapped_column(Text, default=None)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}

    tape: Mapped[TapeRow] = relationship(init=False, viewonly=True)


class CopyRow(StoredTable):
    """One piece to hand over besides the tapes."""

    __tablename__ = "copies"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True, init=False)
    code: Mapped[str] = mapped_column(String(40))
    words: Mapped[str] = mapped_column(Text)
    handed_back_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}


class PaymentRow(StoredTable):
    """Money that changed hands; a refund is negative. A wrong line is answered by another line."""

    __tablename__ = "payments"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True, init=False)
    kind: Mapped[str] = mapped_column(String(20))
    minor: Mapped[int] = mapped_column(BigInteger)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class AgreementRow(StoredTable):
    """What the customer said yes to after booking: who, when, and up to which amount."""

    __tablename__ = "agreements"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True, init=False)
    who_agreed: Mapped[str] = mapped_column(Text)
    words: Mapped[str] = mapped_column(Text)
    ceiling_minor: Mapped[int | None] = mapped_column(BigInteger)
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


class DeckEventRow(StoredTable):
    """A deck that broke down (``out``) or came back (``back``)."""

    __tablename__ = "deck_events"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    deck: Mapped[str] = mapped_column(String(80), index=True)
    kind: Mapped[str] = mapped_column(String(10))
    words: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class DayEventRow(StoredTable):
    """A day (ISO 8601) closed by plan (``planned``), shut unplanned (``shut``), or taken back (``open``)."""

    __tablename__ = "day_events"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    day: Mapped[str] = mapped_column(String(10), index=True)
    kind: Mapped[str] = mapped_column(String(10))
    words: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class BoxOrderRow(StoredTable):
    """The numbers of boxes in the order they were put in; the newest row holds, an empty one is none."""

    __tablename__ = "box_orders"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    numbers: Mapped[tuple[str, ...]] = mapped_column(Serialized(tuple[str, ...]))
    words: Mapped[str] = mapped_column(Text)
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


class EventRow(StoredTable):
    """One line of history; ``digest`` covers the line and the digest before it (see `core.store.history`)."""

    __tablename__ = "events"
    __table_args__ = (Index(None, "tape", "seq"), Index(None, "job", "seq"))

    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    job: Mapped[str | None] = mapped_column(String(6))
    tape: Mapped[str | None] = mapped_column(String(10))
    kind: Mapped[str] = mapped_column(String(40))
    words: Mapped[str] = mapped_column(Text)
    payload: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    previous: Mapped[str] = mapped_column(String(64))
    digest: Mapped[str] = mapped_column(String(64), unique=True)
