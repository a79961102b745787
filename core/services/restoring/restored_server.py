"""The records on a server replaced by a checked backup: in one transaction, while nobody else is connected.

What others store while their rows are replaced would be found nowhere, and their next orders would get
numbers that customers have already. So there is no switch to restore under their feet. Other shops in the
same database go on working meanwhile.
"""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from sqlalchemy import Connection, select, text

from core.model.errors import Refused
from core.model.own_shop.settings_records import ShopSettings
from core.services import backup
from core.services.own_shop import backup_places
from core.services.privacy.emptied_records import Emptied
from core.services.restoring import erased_since, given_numbers, shop_there
from core.services.restoring.given_numbers import RestoreNote
from core.store import schema
from core.store.engines import DOOR_LOCK, Database, open_database, program_name
from core.store.sharing import shop_names, shop_rows
from core.store.sharing.shop_scope import narrowed
from core.store.shop_files import dump, dump_files, file_copies
from core.store.shop_tables import EventRow
from core.wording.messages import say

_OTHERS = text(
    "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() "
    "AND pid <> pg_backend_pid() AND backend_type = 'client backend' "
    "AND (application_name = :own OR application_name NOT LIKE 'tapewright %')"
)
"""Programs at work on the same shop, and such as do not say what they are at work on."""
_PATIENCE_SECONDS = 2.0
"""How long connections that were just closed, ours among them, may take to be gone from the server's list."""


def put_in_place(
    where: str | Path,
    file: Path,
    note: RestoreNote,
    there: ShopSettings | None,
    *,
    replace: bool,
    another: bool,
    key: str,
) -> tuple[Path | None, bool, Emptied]:
    """The backup takes the place of the rows there, which had the settings ``there``.

    Gives the dump of these, None where there were none, whether their last order is known, and what was
    erased again.
    """
    with tempfile.TemporaryDirectory(prefix="tapewright-restoring-") as scratch:
        sound = Path(scratch) / "shop.sqlite"
        backup.make_ready(file, sound, note.now, key)
        shop_there.check_not_mixed(there, sound, note.now)
        shop_there.check_may_read(where, there, sound, note.who, note.now)
        if not another:
            shop_there.check_same_shop(where, there, sound, note.now)
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
        _close_door(writing, server.shop)
        _check_alone(writing, server)
        _bring_up(writing, server.where)
        kept, last = None, None
        if shop_rows.are_there(writing):
            if not replace:
                _check_nothing_since(writing, sound, file)
            told = f"before-restore{shop_names.in_file_name(server.shop)}-{file_copies.stamp(note.now)}"
            kept = dump_files.write(writing, file.parent / f"{told}{dump_files.ENDING}", note.now)
            last_order = narrowed(writing, given_numbers.LAST_ORDER, given_numbers.COUNTERS)
            last = int(writing.execute(last_order).scalar_one())
        given_numbers.note(sound, note, last or 0)
        _load(writing, sound, note)
        _check_alone(writing, server)
        return kept, last is not None


def _load(writing: Connection, sound: Path, note: RestoreNote) -> None:
    shop_rows.remove(writing)
    source = open_database(sound)
    try:
        with source.reading.connect() as reading:
            dump.load(writing, dump.lines(reading, note.now))
    finally:
        source.close()


def _close_door(writing: Connection, shop: str) -> None:
    """Whoever connects to the shop from here on waits until its rows are replaced."""
    key = shop_names.lock_key(DOOR_LOCK, shop)
    writing.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": key})


def _bring_up(writing: Connection, where: str) -> None:
    """Tables of today, for this shop and those beside it; Refused where a newer program made them."""
    if found := schema.revision_of(writing):
        schema.check_known(found, where)
    schema.bring_up_within(writing)


def _check_alone(writing: Connection, server: Database) -> None:
    """Refused while another program is connected to the shop."""
    until = time.monotonic() + _PATIENCE_SECONDS
    own = {"own": program_name(server.shop)}
    while others := int(writing.execute(_OTHERS, own).scalar_one()):
        if time.monotonic() > until:
            raise Refused(say("records", "server_in_use", where=server.where, n=others))
        time.sleep(0.05)


def _check_nothing_since(writing: Connection, sound: Path, file: Path) -> None:
    """Refused when the shop there was at work after the backup: that would be in the kept dump only."""
    newest = select(EventRow.seq, EventRow.digest).where(EventRow.kind != backup_places.KIND)
    last = newest.order_by(EventRow.seq.desc()).limit(1)
    head = writing.execute(narrowed(writing, last, EventRow.__table__)).one_or_none()
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
