"""A link to a PostgreSQL server that loses what a test wants it to: a small proxy on this computer.

What goes through is forwarded byte by byte; nothing is told to either side when something is lost, as on a
network whose cable was pulled.
"""

from __future__ import annotations

import selectors
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from sqlalchemy import make_url

_LOOK_S = 0.01


class LossyLink:
    """Forwards until it is told otherwise. ``url`` leads through it to the same database."""

    def __init__(self, url: str) -> None:
        there = make_url(url)
        self._there = (there.host or "127.0.0.1", there.port or 5432)
        self._ear = socket.create_server(("127.0.0.1", 0))
        self.url = there.set(host="127.0.0.1", port=self._ear.getsockname()[1]).render_as_string(False)
        self._pairs: list[tuple[socket.socket, socket.socket]] = []
        self.swallows_answers = False
        """What the server says is lost; what it is told arrives."""
        self.swallows_after: tuple[bytes, ...] = ()
        """Once one client said all this, one after another, what the server says is lost."""
        self._said: dict[socket.socket, int] = {}
        self.is_down = False
        """Nobody listens: who connects is refused, and open connections are cut."""
        self._is_over = False
        self._thread = threading.Thread(target=self._forward)
        self._thread.start()

    def cut(self) -> None:
        """The server is gone, and everybody is told so at once."""
        self.is_down = True

    def heal(self) -> None:
        """Everything arrives again; what was lost is lost, so old connections are cut."""
        self.swallows_answers, self.swallows_after, self.is_down = False, (), False
        self._said.clear()
        self._cut_all()

    def end(self) -> None:
        self._is_over = True
        self._thread.join()
        self._cut_all()
        self._ear.close()

    def _forward(self) -> None:
        while not self._is_over:
            if self.is_down:
                self._cut_all()
            with selectors.DefaultSelector() as selector:
                selector.register(self._ear, selectors.EVENT_READ)
                for client, server in list(self._pairs):
                    with suppress(ValueError):
                        selector.register(client, selectors.EVENT_READ, (client, server, True))
                        selector.register(server, selectors.EVENT_READ, (server, client, False))
                for key, _ in selector.select(_LOOK_S):
                    if key.data is None:
                        self._let_in()
                    else:
                        self._pass_on(*key.data)

    def _let_in(self) -> None:
        client, _ = self._ear.accept()
        if self.is_down:
            client.close()
            return
        try:
            self._pairs.append((client, socket.create_connection(self._there)))
        except OSError:
            client.close()  # there is no server just now

    def _pass_on(self, here: socket.socket, there: socket.socket, from_client: bool) -> None:
        try:
            said = here.recv(65536)
            if from_client:
                self._listen_for_the_end(here, said)
            if said and (from_client or not self.swallows_answers):
                there.sendall(said)
        except OSError:
            said = b""
        if not said and not (self.swallows_answers and not from_client):
            here.close()
            there.close()
            self._pairs = [pair for pair in self._pairs if here not in pair]

    def _listen_for_the_end(self, client: socket.socket, said: bytes) -> None:
        heard = self._said.get(client, 0)
        while heard < len(self.swallows_after) and self.swallows_after[heard] in said:
            heard += 1
        self._said[client] = heard
        if self.swallows_after and heard == len(self.swallows_after):
            self.swallows_answers, self.swallows_after = True, ()

    def _cut_all(self) -> None:
        pairs, self._pairs = self._pairs, []
        for one in (each for pair in pairs for each in pair):
            one.close()


@contextmanager
def lossy_link(url: str) -> Iterator[LossyLink]:
    """A link for as long as a test lasts."""
    link = LossyLink(url)
    try:
        yield link
    finally:
        link.end()
