"""What the database says when something goes wrong, as sentences a person can act on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError, InterfaceError, OperationalError, ProgrammingError
from sqlalchemy.exc import TimeoutError as PoolTimeout
from sqlalchemy.orm.exc import StaleDataError

from core.model.errors import Conflict, TapewrightError, Unavailable
from core.store.engines import sqlite_module

FAILURES = (DBAPIError, PoolTimeout, StaleDataError, OSError, sqlite_module().Error)
"""What `named` understands."""

_SENTENCES = (
    ("database is locked", "Another program is writing to {where} and did not finish in time. Try again."),
    ("lock timeout", "Another till is writing to {where} and did not finish in time. Try again."),
    (
        "readonly database",
        "{where} may only be read: check the permissions of file and folder.",
    ),
    ("read-only", "{where} may only be read, not written: check the server or the user's rights."),
    ("disk is full", "The disk that holds {where} is full. Make room, then try again."),
    ("no space left", "The disk that holds {where} is full. Make room, then try again."),
    ("unable to open", "{where} cannot be opened: check that the folder exists and may be written to."),
    ("not a database", "{where} is no shop file. Choose another file or restore a backup."),
    ("malformed", "{where} is damaged. Stop working with it and restore the latest backup."),
    ("disk i/o error", "The disk that holds {where} failed. Stop, check the disk, then verify the records."),
    ("password authentication failed", "{where} does not accept this user and password."),
    ("does not exist", "{where} is not there: check the address and the name of the database."),
)
_UNREACHABLE = (
    "{where} cannot be reached just now. If something was being stored, whether it was is known once the "
    "connection is back; trying again does not store it twice."
)
_KEPT = " What was stored before is safe."


def named(error: Exception, where: str) -> TapewrightError | None:
    """The failure as the shop names it, or None when it is a bug and must be seen as one."""
    if isinstance(error, StaleDataError):
        return Conflict("Somebody else changed this first; yours was not stored. Look again, then decide.")
    if isinstance(error, IntegrityError):
        return _clash(error)
    if isinstance(error, ProgrammingError):
        return None
    if isinstance(error, PoolTimeout):
        return Unavailable(_SENTENCES[0][1].format(where=where) + _KEPT)
    said = str(getattr(error, "orig", None) or error).lower()
    for sign, sentence in _SENTENCES:
        if sign in said:
            return Unavailable(sentence.format(where=where) + _KEPT)
    if isinstance(error, DBAPIError) and _is_gone(error):
        return Unavailable(_UNREACHABLE.format(where=where))
    if isinstance(error, (OSError, sqlite_module().Error)):
        return Unavailable(f"{where} cannot be used: {error}.")
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
    if "unique" in said or "duplicate key" in said:
        return Conflict("Somebody else stored the same thing first. Look again, then decide.")
    return None
