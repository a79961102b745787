"""Which kinds of records changed: for each the number of the last step that changed it, kept in the records.

The number rises with every committed step, inside the step's own transaction, so that whoever compares it
with what was seen before knows all that happened meanwhile, however long nobody looked. On PostgreSQL a
NOTIFY goes out with the commit; it is a hint to look at once and nothing rests on it.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, Table, event, select, text
from sqlalchemy.orm import Session

from core.model.errors import TapewrightError
from core.model.names import EVERY_KIND
from core.store import moved_shops
from core.store.columns import StoredTable
from core.store.sharing import shop_scope
from core.store.sharing.shop_default import MAIN
from core.store.sharing.shop_names import in_file_name
from core.store.shop_tables import ChangeNumberRow

_NOTHING: frozenset[str] = frozenset()
_JOBS, _TAPES, _SHOP = frozenset({"jobs"}), frozenset({"tapes"}), frozenset({"shop"})

OF_TABLE: Mapping[str, frozenset[str]] = {
    **dict.fromkeys(("jobs", "customers", "copies", "finishes", "payments", "pickups"), _JOBS),
    "invoices": _JOBS,
    "drawer_counts": _SHOP,
    **dict.fromkeys(("handed_back", "promises", "agreement_versions", "ceiling_questions"), _JOBS),
    **dict.fromkeys(("told", "handover_wishes", "copy_steps", "erasures"), _JOBS),
    **dict.fromkeys(("tapes", "captures", "recordings", "repairs", "splices", "incidents"), _TAPES),
    **dict.fromkeys(("donors", "sign_offs"), _TAPES),
    **dict.fromkeys(("settings_versions", "deck_events", "day_events", "box_orders"), _SHOP),
    "events": frozenset({"jobs", "tapes"}),
    "drafts": frozenset({"drafts"}),
    **dict.fromkeys(("counters", "change_numbers", "shop_moves", "pin_tries"), _NOTHING),
    **dict.fromkeys(("commands", "command_answers"), _NOTHING),
}
"""What each table shows. A table that is not named here changes everything."""

_KEPT = StoredTable.metadata.tables[ChangeNumberRow.__tablename__]
_NUMBERS = select(_KEPT.c.kind, _KEPT.c.number)
_TOUCHED = "kinds_touched"
_RAISE = text(
    "INSERT INTO change_numbers (kind, number) VALUES (:kind, :number) "
    "ON CONFLICT (kind) DO UPDATE SET number = excluded.number"
)
_RAISE_ON_SERVER = text(
    "INSERT INTO change_numbers (shop, kind, number) VALUES (:shop, :kind, :number) "
    "ON CONFLICT (shop, kind) DO UPDATE SET number = excluded.number"
)


def channel(shop: str) -> str:
    """The channel of the hint."""
    return f"tapewright_changed{in_file_name(shop)}"


class ChangeLog:
    """What one open shop knows of the numbers: those it has shown, and those its own steps made."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._seen: dict[str, int] = {}
        self._own = threading.local()

    def count(self, writing: Engine) -> None:
        """From now on every step committed through ``writing`` is counted."""
        event.listen(writing, "begin", _forget)
        event.listen(writing, "before_cursor_execute", _note)
        event.listen(writing, "commit", self._raise_numbers)

    @contextmanager
    def own_step(self) -> Iterator[None]:
        """Whoever runs a step tells by itself what it changed: it is not found as somebody else's later.

        Where nobody knows whether a step was stored, everything is found as changed.
        """
        self._own.numbers = {}
        try:
            yield
        except TapewrightError:
            if self._own.numbers:
                self.forget()
            raise
        with self._lock:
            for kind, (before, now) in self._own.numbers.items():
                if self._seen.get(kind, 0) == before:
                    self._seen[kind] = now

    def find(self, numbers: Mapping[str, int]) -> frozenset[str]:
        """The kinds whose numbers are not those seen before; they are seen now."""
        with self._lock:
            changed = {kind for kind, number in numbers.items() if self._seen.get(kind, 0) != number}
            self._seen = dict(numbers)
        return frozenset(changed)

    def forget(self) -> None:
        """Whatever is found next is new."""
        with self._lock:
            self._seen.clear()

    def _raise_numbers(self, connection: Connection) -> None:
        kinds = connection.info.pop(_TOUCHED, None)
        if not kinds:
            return
        before = read(connection)
        if moved_shops.MOVED in before:
            moved_shops.check(connection)
        now = max(before.values(), default=0) + 1
        rows = [{"kind": kind, "number": now} for kind in sorted(kinds)]
        if connection.dialect.name == "postgresql":
            shop = shop_scope.name_of(connection) or MAIN
            connection.execute(_RAISE_ON_SERVER, [{**row, "shop": shop} for row in rows])
            connection.execute(text("SELECT pg_notify(:channel, '')"), {"channel": channel(shop)})
        else:
            connection.execute(_RAISE, rows)
        self._own.numbers = {kind: (before.get(kind, 0), now) for kind in kinds}


def read(connection: Connection | Session) -> dict[str, int]:
    """The numbers by kind."""
    rows = connection.execute(shop_scope.narrowed_once(connection, _NUMBERS, _KEPT))
    return {row.kind: row.number for row in rows}


def _forget(connection: Connection) -> None:
    connection.info.pop(_TOUCHED, None)


def _note(connection: Connection, _: Any, __: str, ___: Any, context: Any, ____: bool) -> None:
    """Which table a statement of the program writes; tables taken by name alone are copies and updates."""
    compiled = getattr(context, "compiled", None)
    if compiled is None or not (context.isinsert or context.isupdate or context.isdelete):
        return
    written = compiled.statement.table
    if isinstance(written, Table) and written.metadata is StoredTable.metadata:
        connection.info.setdefault(_TOUCHED, set()).update(OF_TABLE.get(written.name, EVERY_KIND))
