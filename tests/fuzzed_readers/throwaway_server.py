"""The throwaway shop on a PostgreSQL server: its database is copied anew after what stored something."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from uuid import uuid4

import psycopg

from tests.fuzzed_readers.throwaway_shop import ThrowawayShop, lived
from tests.support.booked import opened, set_up
from tests.support.postgres import by_files, database_url, tell

_WATCHER = "tapewright watched from outside"
"""Says that it is at work on another shop: a restore asks to be alone on its own."""
_TABLES = "SELECT tablename FROM pg_tables WHERE schemaname = 'public' ORDER BY tablename"


class ThrowawayServerShop(ThrowawayShop):
    """Three databases: as it was made, the same for questions alone, and the one that is fed."""

    def __init__(self, folder: Path, server: str) -> None:
        """``server``: the address of any database there."""
        super().__init__(folder)
        self._server, self._name = server, f"tapewright_fuzzed_{uuid4().hex}"
        self._asked = ""

    @property
    def where(self) -> str:
        return database_url(self._server, f"{self._name}_fed")

    @property
    def untouched(self) -> str:
        return database_url(self._server, f"{self._name}_asked")

    def renew(self) -> None:
        self.let_go()
        self._copy("fed")
        super().renew()

    def end(self) -> None:
        super().end()
        for each in ("fed", "asked", "base"):
            self._drop(each)

    def _live(self) -> None:
        base = database_url(self._server, f"{self._name}_base")
        tell(self._server, f'CREATE DATABASE "{self._name}_base"')
        set_up(base)
        with opened(base, "postgres") as desk:
            self.names = lived(desk)
        self._copy("asked")

    def _copy(self, which: str) -> None:
        self._drop(which)
        copy, base = f"{self._name}_{which}", f"{self._name}_base"
        tell(self._server, f'CREATE DATABASE "{copy}" TEMPLATE "{base}"{by_files(self._server)}')

    def _drop(self, which: str) -> None:
        tell(self._server, f'DROP DATABASE IF EXISTS "{self._name}_{which}" WITH (FORCE)')

    def _watched(self) -> Any:
        watching = psycopg.connect(self.where, autocommit=True, application_name=_WATCHER)
        tables = [name for (name,) in watching.execute(_TABLES)]
        one = "SELECT count(*) AS rows, coalesce(sum(xmin::text::bigint), 0) AS wrote FROM "
        every = " UNION ALL ".join(f'{one}"{name}"' for name in tables)
        self._asked = f"SELECT sum(rows), sum(wrote) FROM ({every}) AS tables"
        return watching

    def _version(self) -> int:
        """Each row tells the transaction that wrote it; what was taken back is not seen."""
        return hash(self._watching.execute(self._asked.encode()).fetchone())
