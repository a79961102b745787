"""A COMMIT that is carried out and never answered: a line that breaks at the worst moment."""

from __future__ import annotations

import selectors
import socket
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from typing import cast
from urllib.parse import urlsplit, urlunsplit

from sqlalchemy import Engine

from core.services.records_door import Shop
from core.store.sqlite_library import sqlite_module
from tests.support.booked import Desk

COMMIT = b"COMMIT"
"""Of the simple query by which psycopg commits (PostgreSQL 16, 55.7 *Query*: ``Q``, length, the text)."""
WRITES = b"pg_advisory_xact_lock("
"""Only a line on which somebody writes; a new one begins with a COMMIT of its own."""


class CommitProxy:
    """Hands bytes on between a till and PostgreSQL; once armed, swallows the answer to the next COMMIT.

    The line is cut only after the server has answered, so the transaction is stored for sure.
    """

    def __init__(self, host: str, port: int) -> None:
        self._server = (host, port)
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listener.getsockname()[1]
        self.swallowed = 0
        self._is_armed = False
        self._writing: set[socket.socket] = set()
        self._to_cut: set[socket.socket] = set()
        self._lines = selectors.DefaultSelector()
        self._lines.register(self._listener, selectors.EVENT_READ)
        self._wake, woken = socket.socketpair()
        self._lines.register(woken, selectors.EVENT_READ)
        self._thread = threading.Thread(target=self._serve, name="proxy")
        self._thread.start()

    def arm(self) -> None:
        """The next COMMIT is not answered."""
        self._is_armed = True

    def close(self) -> None:
        """Cuts every line."""
        self._wake.close()
        self._thread.join()

    def _serve(self) -> None:
        """Until the waking end is closed; ``data`` of a line: its other end, and whether it is a till."""
        while True:
            for key, _ in self._lines.select():
                if key.fileobj is self._listener:
                    self._accept()
                elif key.data is None:
                    return self._close_all()
                else:
                    self._hand_on(cast(socket.socket, key.fileobj), *key.data)

    def _accept(self) -> None:
        till, _ = self._listener.accept()
        server = socket.create_connection(self._server)
        self._lines.register(till, selectors.EVENT_READ, (server, True))
        self._lines.register(server, selectors.EVENT_READ, (till, False))

    def _hand_on(self, end: socket.socket, other: socket.socket, is_till: bool) -> None:
        try:
            data = end.recv(65536)
            if is_till:
                self._look(end, other, data)
            elif end in self._to_cut and data:
                self.swallowed += 1
                data = b""
            if data:
                other.sendall(data)
                return
        except OSError:
            pass
        self._cut(end, other)

    def _look(self, till: socket.socket, server: socket.socket, data: bytes) -> None:
        if WRITES in data:
            self._writing.add(till)
        if self._is_armed and till in self._writing and COMMIT in data:
            self._is_armed = False
            self._to_cut.add(server)

    def _cut(self, *ends: socket.socket) -> None:
        for end in ends:
            with suppress(KeyError, ValueError):
                self._lines.unregister(end)
            end.close()

    def _close_all(self) -> None:
        for key in list(self._lines.get_map().values()):
            self._cut(cast(socket.socket, key.fileobj))
        self._lines.close()


class LostReplies:
    """A till whose next COMMIT is stored and not answered, on either database."""

    def __init__(self, desk: Desk, kept: ExitStack) -> None:
        self._proxy: CommitProxy | None = None
        where = desk.where
        if desk.kind == "postgres":
            url = urlsplit(desk.where)
            self._proxy = CommitProxy(url.hostname or "127.0.0.1", url.port or 5432)
            kept.callback(self._proxy.close)
            where = urlunsplit(url._replace(netloc=f"{url.username}@127.0.0.1:{self._proxy.port}"))
        self.shop = kept.enter_context(Shop.open(where, clock=desk.clock, who="Kim"))

    @contextmanager
    def next_one(self) -> Iterator[None]:
        """Within this, one COMMIT of the till is not answered."""
        if self._proxy is not None:
            before = self._proxy.swallowed
            self._proxy.arm()
            yield
            assert self._proxy.swallowed == before + 1, "nothing was committed"
            return
        with failing_after_commit(self.shop.database.writing):
            yield


@contextmanager
def failing_after_commit(engine: Engine) -> Iterator[None]:
    """Within this, every COMMIT of a file is stored and told as failed."""
    commit, failed = engine.dialect.do_commit, []

    def commit_and_fail(connection: object) -> None:
        commit(connection)  # type: ignore[arg-type]
        failed.append(connection)
        raise sqlite_module().OperationalError("disk I/O error")

    engine.dialect.do_commit = commit_and_fail  # type: ignore[method-assign, assignment]
    try:
        yield
        assert failed, "nothing was committed"
    finally:
        engine.dialect.do_commit = commit  # type: ignore[method-assign]
