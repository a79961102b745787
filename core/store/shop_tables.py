"""Tables of the shop itself: counters, settings, drafts, events of decks and days, and the history."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import (
    BigInteger,
    ForeignKey,
    Index,
    String,
    Text,
    UniqueConstraint,
)
from sqlalchemy.orm import Mapped, mapped_column

from core.store.columns import Serialized, StoredTable, UtcMoment


class CounterRow(StoredTable):
    """A sequence without gaps: ``job`` and ``event``."""

    __tablename__ = "counters"

    name: Mapped[str] = mapped_column(String(20), primary_key=True)
    last: Mapped[int]


class ChangeNumberRow(StoredTable):
    """The number of the last step that changed records of a kind (see `core.store.changes`)."""

    __tablename__ = "change_numbers"

    kind: Mapped[str] = mapped_column(String(20), primary_key=True)
    number: Mapped[int] = mapped_column(BigInteger)


class ShopMoveRow(StoredTable):
    """Where the shop was moved to; at most one row, and the shop can then no more be opened here."""

    __tablename__ = "shop_moves"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    place: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class SettingsVersionRow(StoredTable):
    """A version of the settings (``shop``), or one price book (``prices``)."""

    __tablename__ = "settings_versions"
    __table_args__ = (UniqueConstraint("part", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    part: Mapped[str] = mapped_column(String(20))
    number: Mapped[int]
    """1 for the first version of the part, and so on without gaps."""
    valid_from: Mapped[str | None] = mapped_column(String(10))
    """ISO 8601; of a price book only."""
    value: Mapped[str] = mapped_column(Text)
    """JSON; nothing where a price book was withdrawn."""
    words: Mapped[str] = mapped_column(Text)
    undoes: Mapped[int | None]
    """The number of the version this one takes back."""
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


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


class DeckEventRow(StoredTable):
    """A deck that broke down (``out``) or came back (``back``)."""

    __tablename__ = "deck_events"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    deck: Mapped[str] = mapped_column(String(80), index=True)
    kind: Mapped[str] = mapped_column(String(10))
    words: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


class PinTryRow(StoredTable):
    """A PIN typed for a person: a wrong one, or the right one after wrong ones."""

    __tablename__ = "pin_tries"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    person: Mapped[str] = mapped_column(Text, index=True)
    is_right: Mapped[bool]
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


class ErasureRow(StoredTable):
    """A customer who was erased. While one ``is_open``, what is theirs may be taken out."""

    __tablename__ = "erasures"

    id: Mapped[int] = mapped_column(primary_key=True, init=False)
    customer_id: Mapped[int] = mapped_column(ForeignKey("customers.id"))
    is_open: Mapped[bool]
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)


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
    salt: Mapped[str | None] = mapped_column(String(32))
    """Nothing once the words of the line were erased."""
    sealed: Mapped[str | None] = mapped_column(String(64))
    """The digest of words, payload and salt."""
    at: Mapped[datetime] = mapped_column(UtcMoment)
    by: Mapped[str] = mapped_column(Text)
    previous: Mapped[str] = mapped_column(String(64))
    digest: Mapped[str] = mapped_column(String(64), unique=True)
