"""Tables of the cassettes: where each is, its splices, repairs, captures, recorded files, and donor parts."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from sqlalchemy import (
    CheckConstraint,
    ForeignKey,
    Index,
    String,
    Text,
    UniqueConstraint,
)
from sqlalchemy.orm import Mapped, mapped_column, relationship

from core.capture.check_records import Accepted
from core.capture.file_report import Report
from core.model.deck_showing import Shown
from core.model.dispositions import Disposition
from core.model.incident_records import IncidentKind
from core.model.inventory import TapeLine
from core.model.names import AnyFinding, DonorPart, FormatName, Join, Look, Measure, Section, Speed, TvSystem
from core.model.ranges import Range
from core.model.repair_records import Verdict
from core.model.stations import Station
from core.store.columns import ByValue, Serialized, StoredTable, UtcMoment

if TYPE_CHECKING:
    from core.store.job_tables import JobRow


class TapeRow(StoredTable):
    """One cassette. ``deck`` is the deck it is playing on, so that no deck holds two.

    ``look`` is what the look after the repair of ``repaired_at`` told; ``astray_since`` is set while a
    not-for-reuse label is still on a cassette that no longer needs it; ``rests_until`` where it came in cold;
    ``disposition`` what became of it, None until that is settled; ``note_is_told``: it is for the customer.
    ``shown`` is what a deck showed of it so far; ``left_out_in`` the version that left it out;
    ``signed_off_by`` who signed its files off, as long as that holds.
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
    findings: Mapped[tuple[AnyFinding, ...]] = mapped_column(Serialized(tuple[AnyFinding, ...]))
    verdict: Mapped[Verdict] = mapped_column(Serialized(Verdict))
    minutes: Mapped[Range] = mapped_column(Serialized(Range))
    note: Mapped[str] = mapped_column(Text, default="")
    settled: Mapped[tuple[AnyFinding, ...]] = mapped_column(Serialized(tuple[AnyFinding, ...]), default=())
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
    disposition: Mapped[Disposition | None] = mapped_column(ByValue(Disposition), default=None)
    note_is_told: Mapped[bool | None] = mapped_column(default=None)
    shown: Mapped[Shown | None] = mapped_column(Serialized(Shown), default=None)
    left_out_in: Mapped[int | None] = mapped_column(default=None)
    signed_off_by: Mapped[str | None] = mapped_column(Text, default=None)
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
    redone: Mapped[bool | None] = mapped_column(default=None)
    """Made again because the one before was bad: no second charge."""
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
    settled: Mapped[tuple[AnyFinding, ...]] = mapped_column(Serialized(tuple[AnyFinding, ...]))
    by: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    struck_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    struck_by: Mapped[str | None] = mapped_column(Text, default=None)
    struck_because: Mapped[str | None] = mapped_column(Text, default=None)
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


class SignOffRow(StoredTable):
    """The files of a tape were signed off by ``name``, or no longer (None); the newest line holds.

    ``accepted`` are the findings that may stay as they are. Never changed.
    """

    __tablename__ = "sign_offs"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True)
    name: Mapped[str | None] = mapped_column(Text)
    files: Mapped[tuple[str, ...]] = mapped_column(Serialized(tuple[str, ...]))
    accepted: Mapped[tuple[Accepted, ...]] = mapped_column(Serialized(tuple[Accepted, ...]))
    because: Mapped[str] = mapped_column(Text)
    command: Mapped[str | None] = mapped_column(String(80), unique=True)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class IncidentRow(StoredTable):
    """One line about a tape lost or damaged in the shop; the first line says which. Never changed."""

    __tablename__ = "incidents"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    tape_id: Mapped[int] = mapped_column(ForeignKey("tapes.id"), index=True)
    kind: Mapped[IncidentKind] = mapped_column(ByValue(IncidentKind))
    words: Mapped[str] = mapped_column(Text)
    moment: Mapped[datetime | None] = mapped_column(UtcMoment)
    """When it happened, was told or was settled."""
    photo: Mapped[str | None] = mapped_column(Text)
    """Name of the file among the shop's photos."""
    sha256: Mapped[str | None] = mapped_column(String(64))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
