"""Tables of the commands that were carried out, so that each is carried out once."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from core.store.columns import StoredTable, UtcMoment
from core.store.row_digests import new_salt


class CommandRow(StoredTable):
    """A command and what it asked for: never changed or deleted, so that its id stays used."""

    __tablename__ = "commands"

    command: Mapped[str] = mapped_column(String(80), primary_key=True)
    step: Mapped[str] = mapped_column(String(120))
    content: Mapped[str | None] = mapped_column(String(64))
    """SHA-256 of the salt of its answer, the step and its arguments; None for what was carried out before it
    was kept. Once the answer is gone nobody can guess at it: it may be about a person."""
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    salt: Mapped[str | None] = mapped_column(String(32), init=False, insert_default=new_salt)


class CommandAnswerRow(StoredTable):
    """What a command was answered, for whoever did not hear it; deleted after a while."""

    __tablename__ = "command_answers"

    command: Mapped[str] = mapped_column(ForeignKey("commands.command"), primary_key=True)
    answer: Mapped[str] = mapped_column(Text)
    """Canonical JSON, deflated (RFC 1951 in the frame of RFC 1950), in Base64 (RFC 4648); nothing where it is
    read anew."""
    salt: Mapped[str] = mapped_column(String(32))
    at: Mapped[datetime] = mapped_column(UtcMoment, index=True)
