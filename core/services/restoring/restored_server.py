"""The records on a server replaced by a checked backup: in one transaction, while nobody else is connected.

What others store while their tables are replaced would be found nowhere, and their next orders would get
numbers that customers have already. So there is no switch to restore under their feet.
"""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from sqlalchemy import Connection, inspect, select, text

from core.model.errors import Refused
from core.model.own_shop.settings_records import ShopSettings
from core.services import backup
from core.services.own_shop import backup_places
from core.services.privacy.emptied_records import Emptied
from core.services.restoring import erased_since, given_numbers, shop_there
from core.services.restoring.given_numbers import RestoreNote
from core.store import schema
from core.store.columns import StoredTable
from core.store.engines import Database, open_database
from core.store.shop_files import dump, dump_files, file_copies
from core.store.shop_tables import EventRow
from core.wording.messages import say

_OTHERS = text(
    "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() "
    "AND pid <> pg_backend_pid() AND backend_type = 'client backend'"
)
_OLDER_TABLES = ("settings", "agreements")
"""Tables that a shop had before it was brought up to date."""
_PATIENCE_SECONDS = 2.0
"""How long connections that were just closed, ours among them, may take to be gone from the server's list."""


def put_in_place(
    where: str | Path, file: Path, note: RestoreNote, there: ShopSettings | None, *, replace: bool, key: str
) -> tuple[Path | None, bool, Emptied]:
    """The backup takes the place of the tables there, which had the settings ``there``.

    Gives the dump of these, None where there were none, whether their last order is known, and what was
    erased again.
    """
    with tempfile.TemporaryDirectory(prefix="tapewright-restoring-") as scratch:
        sound = Path(scratch) / "shop.sqlite"
        backup.make_ready(file, sound, note.now, key)
        shop_there.check_not_mixed(there, sound, note.now)
        shop_there.check_may_read(where, there, sound, note.who, note.now)
        gone = erased_since.erase(sound, note)
        server = open_database(where)
        try:
            return (*_replace(server, sound, file, note, replace), gone)
        finally:
            server.close()


def _replace(
    server: Database, sound: Path, file: Path, note: RestoreNote, replace: bool
) -> tuple[Path | None, bool]:
    with server.writing.begin() as writing:
        _check_alone(writing, server.where)
        kept, last = None, None
        if _holds_shop(writing):
            _lock(writing)
            if not replace:
                _check_nothing_since(writing, sound, file)
            name = f"before-restore-{file_copies.stamp(note.now)}{dump_files.ENDING}"
            kept = dump_files.write(writing, file.parent / name, note.now)
            last = int(writing.execute(given_numbers.LAST_ORDER).scalar_one())
        given_numbers.note(sound, note, last or 0)
        _load(writing, sound, note)
        _check_alone(writing, server.where)
        return kept, last is not None


def _load(writing: Connection, sound: Path, note: RestoreNote) -> None:
    for name in (*StoredTable.metadata.tables, *_OLDER_TABLES, "alembic_version"):
        writing.execute(text(f"DROP TABLE IF EXISTS {name} CASCADE"))
    writing.execute(text("DROP FUNCTION IF EXISTS append_only"))
    schema.upgrade(writing)
    source = open_database(sound)
    try:
        with source.reading.connect() as reading:
            dump.load(writing, dump.lines(reading, note.now))
    finally:
        source.close()


def _holds_shop(connection: Connection) -> bool:
    return connection.dialect.has_table(connection, "events")


def _lock(writing: Connection) -> None:
    """Whoever connects from here on waits until the tables are replaced."""
    names = sorted(set(inspect(writing).get_table_names()) & set(StoredTable.metadata.tables))
    writing.execute(text(f"LOCK TABLE {', '.join(names)} IN ACCESS EXCLUSIVE MODE"))


def _check_alone(writing: Connection, where: str) -> None:
    """Refused while another program is connected to the records."""
    until = time.monotonic() + _PATIENCE_SECONDS
    while others := int(writing.execute(_OTHERS).scalar_one()):
        if time.monotonic() > until:
            raise Refused(say("records", "server_in_use", where=where, n=others))
        time.sleep(0.05)


def _check_nothing_since(writing: Connection, sound: Path, file: Path) -> None:
    """Refused when the shop there was at work after the backup: that would be in the kept dump only."""
    newest = select(EventRow.seq, EventRow.digest).where(EventRow.kind != backup_places.KIND)
    head = writing.execute(newest.order_by(EventRow.seq.desc()).limit(1)).one_or_none()
    if head is None:
        return
    source = open_database(sound)
    try:
        with source.reading.connect() as reading:
            known = reading.execute(select(EventRow.digest).where(EventRow.seq == head.seq)).scalar()
    finally:
        source.close()
    if known != head.digest:
        raise Refused(say("records", "server_went_on", file=file))
