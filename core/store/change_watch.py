"""Waits for what others changed in the same shop: by asking an SQLite file, or hearing from a server.

What is trusted are the numbers in the records; SQLite's ``data_version`` and PostgreSQL's NOTIFY only say
when to read them at once. They are read every second in any case: a notice may be lost with its connection.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from time import monotonic
from typing import Any

from core.model.errors import Unreachable
from core.store import changes, failures
from core.store.engines import Database
from core.store.silence import Patience
from core.wording.messages import say

READ_SECONDS = 0.7
"""How often the numbers are read when no hint came: everything is right within a second."""

LOOK_SECONDS = 0.2
"""How often an SQLite file is asked whether anybody wrote (some microseconds), and how soon a watch ends."""

SILENT_SECONDS = 3.0
"""A server that does not answer this small question for so long cannot be reached."""

_NUMBERS = "SELECT kind, number FROM change_numbers"
_NUMBERS_OF_SHOP = "SELECT kind, number FROM change_numbers WHERE shop = %s"


class ChangeWatch(ABC):
    """Used by one thread. A connection that fails is made anew with the next look."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._link: Any = None
        self._read_at = 0.0

    def next(self, pause: Callable[[float], object]) -> frozenset[str]:
        """The kinds changed by others, after a short wait by ``pause`` (seconds); often none.

        Errors: as `core.store.failures` names them, most of all Unreachable.
        """
        try:
            with failures.named_here(self._database.where):
                return self._look(pause)
        except BaseException:
            self.close()
            raise

    def close(self) -> None:
        """Lets go of the connection; the next look makes another."""
        link, self._link = self._link, None
        if link is not None:
            self._let_go(link)

    def _look(self, pause: Callable[[float], object]) -> frozenset[str]:
        if self._link is None:
            self._link = self._connected()
            is_due = True
        else:
            is_due = self._hint(pause) or monotonic() - self._read_at > READ_SECONDS
        if not is_due:
            return frozenset()
        self._read_at = monotonic()
        return self._database.changes.find(self._numbers())

    @abstractmethod
    def _connected(self) -> Any:
        """A connection of the watch alone, outside any transaction."""

    @abstractmethod
    def _hint(self, pause: Callable[[float], object]) -> bool:
        """Waits a little; whether somebody wrote meanwhile."""

    @abstractmethod
    def _numbers(self) -> dict[str, int]:
        """The numbers by kind, as they are now."""

    @abstractmethod
    def _let_go(self, link: Any) -> None:
        """Closes the connection, whatever became of it."""


class FileWatch(ChangeWatch):
    """Asks an SQLite file whether another connection wrote to it.

    Source: sqlite.org/pragma.html#pragma_data_version.
    """

    _version = -1

    def _connected(self) -> Any:
        return self._database.reading.raw_connection()

    def _hint(self, pause: Callable[[float], object]) -> bool:
        pause(LOOK_SECONDS)
        before, self._version = self._version, self._asked("PRAGMA data_version")[0][0]
        return before != self._version

    def _numbers(self) -> dict[str, int]:
        return dict(self._asked(_NUMBERS))

    def _asked(self, question: str) -> list[Any]:
        cursor = self._link.cursor()
        try:
            cursor.execute(question)
            return list(cursor.fetchall())
        finally:
            cursor.close()

    def _let_go(self, link: Any) -> None:
        link.close()


class ServerWatch(ChangeWatch):
    """Listens on a connection of its own; a server that is silent is found out within some seconds."""

    def next(self, pause: Callable[[float], object]) -> frozenset[str]:
        import psycopg  # for shops on a server alone

        try:
            return super().next(pause)
        except psycopg.Error as error:
            raise Unreachable(say("records", "unreachable", where=self._database.where)) from error

    def _connected(self) -> Any:
        held = self._database.writing.raw_connection()
        link = held.driver_connection
        held.detach()
        assert link is not None
        try:
            link.rollback()
            link.autocommit = True
            link.patience = Patience(SILENT_SECONDS)
            link.execute(f'LISTEN "{changes.channel(self._database.shop)}"')
        except BaseException:
            link.close()
            raise
        return link

    def _hint(self, pause: Callable[[float], object]) -> bool:
        """Whoever wants to end meanwhile waits no longer than for a file."""
        return any(True for _ in self._link.notifies(timeout=LOOK_SECONDS, stop_after=1))

    def _numbers(self) -> dict[str, int]:
        return dict(self._link.execute(_NUMBERS_OF_SHOP, (self._database.shop,)).fetchall())

    def _let_go(self, link: Any) -> None:
        link.close()
