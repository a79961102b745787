"""A PostgreSQL server for one run of the tests, where its programs are installed (``--own-postgres``).

The server listens on a free port of this computer only, in a temporary folder, and is gone after the run.
PostgreSQL refuses to run as root: there the programs run as its own account ``postgres``.
"""

from __future__ import annotations

import os
import re
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.support.postgres import SERVER

_PLACES = (Path("/usr/lib/postgresql"), Path("/usr/local/lib/postgresql"), Path("/usr/pgsql"))
"""Debian keeps each version in a folder of its own and out of PATH."""
_IN_HASTE = (
    "-c fsync=off -c synchronous_commit=off -c full_page_writes=off "
    "-c autovacuum=off -c wal_level=minimal -c max_wal_senders=0 -c max_wal_size=128MB "
    "-c dynamic_shared_memory_type=mmap"  # in its own folder: it is stopped with no time to tidy
)
"""Nothing of this server outlives the run: not even a cut of the power could take anything from anybody."""
_MEMORY = Path("/dev/shm")
_ROOM = 2**30
"""Bytes that must be free in memory for the server to lie there: a copied database is 8 MB, and few are there
at a time."""
_RUNNING = pytest.StashKey["Server"]()


class Server:
    """One running server in a folder of its own."""

    def __init__(self, programs: Path, settings: str = _IN_HASTE) -> None:
        self._programs = programs
        self._settings = settings
        self._port = _free_port()
        self._folder = Path(tempfile.mkdtemp(prefix="tapewright-postgres-", dir=_roomy_memory()))
        self._as_owner: list[str] = []
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            shutil.chown(self._folder, "postgres")
            self._as_owner = ["runuser", "-u", "postgres", "--"]
        try:
            self._make()
            self.start()
        except Exception:
            self.stop()
            raise

    @property
    def url(self) -> str:
        return f"postgresql://postgres@127.0.0.1:{self._port}/postgres"

    @property
    def process(self) -> int:
        """The number of the process that all others of the server come from."""
        return int((self._folder / "data" / "postmaster.pid").read_text().splitlines()[0])

    def start(self) -> None:
        """Starts it; CalledProcessError where what was left of it is still running."""
        where = f"-p {self._port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={self._folder}"
        options = f"{where} {self._settings}"
        self._run("pg_ctl", "-D", "data", "-l", "server.log", "-w", "-s", "start", "-o", options)

    def stop(self) -> None:
        """Ends the server at once and removes what it wrote."""
        try:
            if (self._folder / "data" / "postmaster.pid").exists():
                self._run("pg_ctl", "-D", "data", "-m", "immediate", "-s", "stop")
        finally:
            shutil.rmtree(self._folder, ignore_errors=True)

    def _make(self) -> None:
        words = ("-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")
        self._run("initdb", "-D", "data", *words)

    def _run(self, program: str, *arguments: str) -> None:
        command = [*self._as_owner, str(self._programs / program), *arguments]
        surroundings = {**os.environ, "LC_ALL": "C.UTF-8"}
        # The server inherits what it writes to: a pipe would never end.
        with open(self._folder / f"{program}.log", "ab") as log:
            subprocess.run(
                command, cwd=self._folder, env=surroundings, stdout=log, stderr=log, check=True, timeout=120
            )


def programs(places: tuple[Path, ...] = _PLACES, surroundings: Mapping[str, str] = os.environ) -> Path | None:
    """The folder of ``initdb`` and ``pg_ctl``, of the newest version; None where they are not installed."""
    found = [path.parent for place in places for path in place.glob("*/bin/initdb")]
    if found:
        return max(found, key=_version)
    on_path = shutil.which("initdb", path=surroundings.get("PATH"))
    return Path(on_path).resolve().parent if on_path else None


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--own-postgres", action="store_true", help="start a PostgreSQL server where there is one"
    )


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    """The workers of a run in parallel get the address from the one that started them."""
    folder = programs()
    wanted = config.getoption("own_postgres") and not hasattr(config, "workerinput")
    if wanted and not os.environ.get(SERVER) and folder is not None:
        config.stash[_RUNNING] = Server(folder)
        os.environ[SERVER] = config.stash[_RUNNING].url


def pytest_unconfigure(config: pytest.Config) -> None:
    server = config.stash.get(_RUNNING, None)
    if server is not None:
        os.environ.pop(SERVER, None)
        server.stop()


def _roomy_memory() -> Path | None:
    """A folder in memory with room for the server; None where there is none, as in most containers."""
    is_roomy = _MEMORY.is_dir() and os.access(_MEMORY, os.W_OK) and shutil.disk_usage(_MEMORY).free > _ROOM
    return _MEMORY if is_roomy else None


def _version(folder: Path) -> tuple[int, ...]:
    return tuple(int(part) for part in re.findall(r"\d+", folder.parent.name))


def _free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])
