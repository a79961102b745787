"""A PostgreSQL server that may be killed at any moment, and started again where it was."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from contextlib import suppress
from pathlib import Path

import psycopg

from tests.support.own_postgres import Server

AS_SHIPPED = "-c fsync=off -c dynamic_shared_memory_type=mmap"
"""What it acknowledges it has handed to the system, as a server in a shop has. Nothing here cuts the power,
and only that would need the system to write it to the disk as well."""
IN_ITS_OWN_TIME = f"{AS_SHIPPED} -c synchronous_commit=off -c wal_writer_delay=10s"
"""It acknowledges what lies in its own memory."""
_ENDS_S = 30.0


class KillableServer(Server):
    """One that listens at the same place after it was started again."""

    def __init__(self, programs: Path, *, is_slack: bool = False) -> None:
        self._left: list[int] = []
        super().__init__(programs, IN_ITS_OWN_TIME if is_slack else AS_SHIPPED)

    def kill(self) -> None:
        """Kills the first process of the server: the others end by themselves when they notice."""
        first = self.process
        self._left = _children(first)
        os.kill(first, signal.SIGKILL)

    def kill_one_at_work(self) -> bool:
        """Kills a process that serves a till; the server then ends all others and recovers."""
        with suppress(psycopg.Error), psycopg.connect(self.url, connect_timeout=5) as connection:
            found = connection.execute(
                "SELECT pid FROM pg_stat_activity WHERE backend_type = 'client backend'"
                " AND pid <> pg_backend_pid() ORDER BY state = 'idle', random() LIMIT 1"
            ).fetchone()
            if found is not None:
                os.kill(found[0], signal.SIGKILL)
                return True
        return False

    def start_again(self) -> None:
        """As soon as what is left of the killed one is gone; who does not go by itself is killed as well."""
        given_up = time.monotonic() + _ENDS_S
        while True:
            try:
                return self.start()
            except subprocess.CalledProcessError:
                if time.monotonic() > given_up:
                    told = "".join(
                        (self._folder / f"{each}.log").read_text() for each in ("pg_ctl", "server")
                    )
                    raise RuntimeError(told[-4000:]) from None
                for pid in self._left:
                    with suppress(ProcessLookupError):
                        os.kill(pid, signal.SIGKILL)
                time.sleep(0.2)

    def stop(self) -> None:
        with suppress(subprocess.CalledProcessError, FileNotFoundError):  # it may have been killed
            super().stop()

    def waits(self) -> list[str]:
        """Who waits for whom in the server just now, a line each."""
        with psycopg.connect(self.url, connect_timeout=5) as connection:
            found = connection.execute(
                "SELECT pid, pg_blocking_pids(pid)::text, state, wait_event, left(query, 60)"
                " FROM pg_stat_activity WHERE backend_type = 'client backend' AND pid <> pg_backend_pid()"
            )
            return [" ".join(map(str, each)) for each in found.fetchall()]


def _children(first: int) -> list[int]:
    """The processes that came from one (proc(5), *stat*: the fourth word is the parent)."""
    found = []
    for each in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError, IndexError):
            if int(each.read_text(encoding="utf-8").rsplit(")", 1)[1].split()[1]) == first:
                found.append(int(each.parent.name))
    return found
