"""A shop in which something has happened: made once for a file of tests, and copied for each of them."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import pytest

from core.services.records_door import Shop
from tests.support.booked import Clock, Desk, new_desk, server_copy


class Beginnings:
    """The same beginning on each kind of database, made when it is first asked for."""

    def __init__(self, request: pytest.FixtureRequest, folder: Path, begin: Callable[[Desk], object]) -> None:
        self._request = request
        self._folder = folder
        self._begin = begin
        self._made: dict[str, Desk] = {}
        self._kept = ExitStack()

    @contextmanager
    def copied(self, kind: str, folder: Path) -> Iterator[Desk]:
        """A shop of one's own, as it was left by ``begin``."""
        made = self._made.get(kind) or self._make(kind)
        with ExitStack() as held:
            if kind == "sqlite":
                where = str(shutil.copy(made.where, folder / "shop.sqlite"))
            else:
                where = held.enter_context(server_copy(made.where.rsplit("/", 1)[1]))
            clock = Clock(made.clock.now)
            shop = held.enter_context(Shop.open(where, clock=clock, who=made.shop.who))
            yield Desk(shop, clock, where, kind)

    def close(self) -> None:
        """Drops what was made."""
        self._kept.close()

    def _make(self, kind: str) -> Desk:
        desk = self._kept.enter_context(new_desk(self._request, kind, self._folder))
        self._begin(desk)
        desk.shop.close()  # a file in one piece, and a database that may be copied
        self._made[kind] = desk
        return desk
