"""What keeps tills from harm, taken out of one of them: the harness must then find the harm."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from sqlalchemy import Engine, event
from sqlalchemy.orm import Mapper, object_session

from core.store import engines
from core.store.columns import StoredTable

IDS = "ids"
"""What nobody answered is sent again as something new."""
LOCK = "lock"
"""Writers do not wait for each other before they read."""
VERSIONS = "lock,versions"
"""Neither that, nor does a row know that it was changed since it was read."""
FLUSH = "flush"
"""The server acknowledges what it has not written."""
ALL = (IDS, LOCK, VERSIONS, FLUSH)


def leave_out(guards: str) -> None:
    """Takes guards out of this process."""
    if "lock" in guards:
        engines.WRITERS_LOCK = _Different()  # type: ignore[assignment]
        _defer_file_writers()
    if "versions" in guards:
        for mapper in StoredTable.registry.mappers:
            _forget_versions(mapper)


class _Different:
    """A key of the lock that is another one each time, so that nobody waits for anybody."""

    def __ror__(self, _: int) -> int:
        return uuid4().int % 2**62


def _defer_file_writers() -> None:
    made = engines._file_engine

    def make(*args: object, **named: object) -> Engine:
        path, module, pragma, _ = args
        return made(path, module, pragma, "BEGIN", **named)  # type: ignore[arg-type]

    engines._file_engine = make  # type: ignore[assignment]


def _forget_versions(mapper: Mapper[Any]) -> None:
    """The version is still counted, and nobody looks whether it is the one that was read."""
    if mapper.version_id_col is not None:
        mapper.version_id_col = None
        event.listen(mapper, "before_insert", lambda _, __, row: setattr(row, "version", 1))
        event.listen(mapper, "before_update", _count_on)


def _count_on(_: object, __: object, row: Any) -> None:
    session = object_session(row)
    if session is not None and session.is_modified(row, include_collections=False):
        row.version += 1
