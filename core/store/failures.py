"""What the database says when something goes wrong, as sentences a person can act on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError, InterfaceError, OperationalError, ProgrammingError
from sqlalchemy.exc import TimeoutError as PoolTimeout
from sqlalchemy.orm.exc import StaleDataError

from core.model.errors import Conflict, TapewrightError, Unavailable, Unreachable, WrongInput
from core.store.columns import NotAsWritten
from core.store.sqlite_library import sqlite_module
from core.wording.messages import say

FAILURES = (
    *(DBAPIError, PoolTimeout, StaleDataError, OSError, sqlite_module().Error),
    *(UnicodeEncodeError, NotAsWritten),
)
"""What `named` understands."""

_SIGNS = (
    (re.compile("database is locked"), "file_busy"),
    (re.compile("lock timeout"), "server_busy"),
    (re.compile("readonly database"), "file_read_only"),
    (re.compile("read-only"), "server_read_only"),
    (re.compile("disk is full"), "disk_full"),
    (re.compile("no space left"), "disk_full"),
    (re.compile("unable to open"), "cannot_open"),
    (re.compile("not a database"), "no_shop_file"),
    (re.compile("malformed"), "file_damaged"),
    (re.compile("disk i/o error|input/output error"), "disk_failed"),
    (re.compile("password authentication failed"), "wrong_password"),
    (re.compile("does not exist"), "not_there"),
)
"""What a driver says in its message, in small letters, and the sentence of `records.ftl` for a person."""
_SILENT = re.compile("no-answer-in-time")
_CLASH = re.compile("unique|duplicate key")


def named(error: Exception, where: str) -> TapewrightError | None:
    """The failure as the shop names it, or None when it is a bug and must be seen as one."""
    if isinstance(error, UnicodeEncodeError):
        return WrongInput(say("records", "what_was_entered"), error.object, say("entered", "printable"))
    if isinstance(error, NotAsWritten):
        return Unavailable(say("records", "record_unreadable"))
    if isinstance(error, StaleDataError):
        return Conflict(say("records", "changed_by_somebody"))
    if isinstance(error, IntegrityError):
        return _clash(error)
    if isinstance(error, ProgrammingError):
        return None
    if isinstance(error, PoolTimeout):
        return Unavailable(say("records", _SIGNS[0][1], where=where))
    said = str(getattr(error, "orig", None) or error).lower()
    if _SILENT.search(said):
        return Unreachable(say("records", "no_answer", where=where))
    for sign, sentence in _SIGNS:
        if sign.search(said):
            return Unavailable(say("records", sentence, where=where))
    if isinstance(error, DBAPIError) and _is_gone(error):
        return Unreachable(say("records", "unreachable", where=where))
    if isinstance(error, (OSError, sqlite_module().Error)):
        return Unavailable(say("records", "unusable", where=where, error=error))
    return None


@contextmanager
def named_here(where: str) -> Iterator[None]:
    """Turns what the database says in this block into failures of ours; what is a bug passes through."""
    try:
        yield
    except FAILURES as error:
        failure = named(error, where)
        if failure is None:
            raise
        raise failure from error


def _is_gone(error: DBAPIError) -> bool:
    """Whether a server broke off; a file cannot, so there an unknown complaint is a bug."""
    if error.connection_invalidated:
        return True
    is_server = type(error.orig).__module__.startswith("psycopg")
    return is_server and isinstance(error, (OperationalError, InterfaceError))


def _clash(error: IntegrityError) -> Conflict | None:
    said = str(error.orig).lower()
    if _CLASH.search(said):
        return Conflict(say("records", "stored_by_somebody"))
    return None
