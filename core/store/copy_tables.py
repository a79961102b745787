"""Tables of the copies: each that was ordered, and what was done to it. The second is append-only."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from core.model.copies.copy_records import CopyContents, CopyStepKind, DownloadLink, OwnDrive
from core.model.inventory import Delivery
from core.store.columns import ByValue, Serialized, StoredTable, UtcMoment


class CopyRow(StoredTable):
    """One copy to hand over besides the tapes: a stick, a set of discs, a drive, a download.

    ``delivery`` is what it is made for, None of one booked before copies were followed, which is one piece.
    ``left_out_in`` is the version that no longer wants it; ``follows`` the copy that went with some tapes.
    """

    __tablename__ = "copies"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    job_id: Mapped[int] = mapped_column(ForeignKey("jobs.id"), index=True, init=False)
    code: Mapped[str] = mapped_column(String(40))
    words: Mapped[str] = mapped_column(Text)
    handed_back_at: Mapped[datetime | None] = mapped_column(UtcMoment, default=None)
    pieces: Mapped[int | None] = mapped_column(default=None)
    delivery: Mapped[Delivery | None] = mapped_column(Serialized(Delivery), default=None)
    left_out_in: Mapped[int | None] = mapped_column(default=None)
    follows: Mapped[int | None] = mapped_column(default=None)
    version: Mapped[int] = mapped_column(init=False)
    __mapper_args__ = {"version_id_col": version}

    steps: Mapped[list[CopyStepRow]] = relationship(order_by="CopyStepRow.id", default_factory=list)


class CopyStepRow(StoredTable):
    """One thing that was done to a copy; ``command`` and ``content`` are of those before `CommandRow`."""

    __tablename__ = "copy_steps"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    copy_id: Mapped[int] = mapped_column(ForeignKey("copies.id"), index=True, init=False)
    kind: Mapped[CopyStepKind] = mapped_column(ByValue(CopyStepKind))
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    contents: Mapped[CopyContents | None] = mapped_column(Serialized(CopyContents), default=None)
    drive: Mapped[OwnDrive | None] = mapped_column(Serialized(OwnDrive), default=None)
    download: Mapped[DownloadLink | None] = mapped_column(Serialized(DownloadLink), default=None)
    reason: Mapped[str] = mapped_column(Text, default="")
    command: Mapped[str | None] = mapped_column(String(80), unique=True, default=None)
    content: Mapped[str | None] = mapped_column(String(64), default=None)
