"""A database of one's own on the PostgreSQL server that the run was given."""

from __future__ import annotations

import os
import uuid
from collections.abc import Iterator
from functools import cache

import pytest

WITHOUT = "no PostgreSQL server in this run"
SERVER = "TAPEWRIGHT_TEST_POSTGRES"
"""Names a server and a database one may connect to, e.g. ``postgresql://postgres@127.0.0.1:5432/postgres``."""


@pytest.fixture
def postgres_url() -> Iterator[str]:
    """The URL of a fresh, empty database, dropped afterwards; skips where no server was named."""
    server = named_server()
    name = f"tapewright_{uuid.uuid4().hex}"
    tell(server, f'CREATE DATABASE "{name}"')
    try:
        yield database_url(server, name)
    finally:
        tell(server, f'DROP DATABASE "{name}" WITH (FORCE)')


def named_server() -> str:
    """The server of this run; skips where there is none, and fails on CI, which may not go without."""
    server = os.environ.get(SERVER)
    if server:
        return server
    if os.environ.get("CI"):
        pytest.fail(f"{SERVER} is not set, and this run may not go without PostgreSQL")
    pytest.skip(WITHOUT)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Says in one line how many checks did not run."""
    skipped = [
        report for report in terminalreporter.stats.get("skipped", []) if WITHOUT in str(report.longrepr)
    ]
    if skipped:
        terminalreporter.write_line(
            f"{len(skipped)} checks were skipped for want of PostgreSQL: install its programs (on Debian "
            f"`postgresql`) or name a server in {SERVER}."
        )


def database_url(server: str, name: str) -> str:
    """The URL of another database on the same server."""
    return f"{server.rsplit('/', 1)[0]}/{name}"


@cache
def by_files(server: str) -> str:
    """What makes a server copy a template file by file, as all did before version 15, and not through its
    log: where nothing is flushed that takes the least of its time."""
    import psycopg

    with psycopg.connect(server.replace("+psycopg", "")) as connection:
        return " STRATEGY FILE_COPY" if connection.info.server_version >= 150_000 else ""


def tell(server: str, statement: str) -> None:
    """Runs one statement outside any transaction."""
    import psycopg

    with psycopg.connect(server.replace("+psycopg", ""), autocommit=True) as connection:
        connection.execute(statement.encode())
