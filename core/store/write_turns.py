"""Whose turn it is to write into an SQLite file: who has waited longest asks most often.

SQLite's own way of waiting asks again after 1, 2, 5 … and then every 100 ms (`sqliteDefaultBusyCallback` of
its main.c), so that whoever comes just then is served before those who waited for seconds: with eight tills
that always write, a third of the steps was sent away after five. Here it is the other way round. Nothing
lies beside the file, so nobody who was killed or stopped while waiting keeps anybody from writing.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Callable
from functools import partial
from time import monotonic
from typing import Any

from sqlalchemy import Connection

_WRITES = "BEGIN IMMEDIATE"

FIRST_PAUSE_S = 0.05
"""Between two tries of somebody who has only just come."""
LAST_PAUSE_S = 0.001
HALVED_AFTER_S = 0.6
"""A pause is half as long after so long, and half of that after twice that: whoever has waited a step longer
asks clearly more often, however long all of them have waited. Chosen by the simulation of the tests."""
_BUSY = 5
"""SQLITE_BUSY, in the low byte of the extended codes as well (sqlite.org/rescode.html)."""


def beginning(statement: str, patience: float) -> Callable[[Connection], object]:
    """What begins a transaction by this statement: one that writes waits for those of others, for at most
    ``patience`` seconds, and then lets the database complain itself."""
    if statement == _WRITES:
        return partial(_begin_in_turn, patience)
    return lambda connection: connection.exec_driver_sql(statement)


def pause(waited: float) -> float:
    """Seconds until the next try of somebody who has waited for so many, before chance is added."""
    return max(LAST_PAUSE_S, FIRST_PAUSE_S * math.pow(0.5, waited / HALVED_AFTER_S))


def _begin_in_turn(patience: float, connection: Connection) -> None:
    raw: Any = connection.connection.dbapi_connection
    since = monotonic()
    raw.execute("PRAGMA busy_timeout=0")
    try:
        while not _begun(raw):
            waited = monotonic() - since
            if waited >= patience:
                connection.exec_driver_sql(_WRITES)
                return
            time.sleep(pause(waited) * random.uniform(0.5, 1.5))
    finally:
        raw.execute(f"PRAGMA busy_timeout={int(patience * 1000)}")


def _begun(raw: Any) -> bool:
    """Whether nobody else was writing."""
    try:
        raw.execute(_WRITES)
    except raw.OperationalError as error:
        if error.sqlite_errorcode & 0xFF != _BUSY:
            raise
        return False
    return True
