"""A shop as an older version of the program kept it: its tables, its rows, and its lines of history."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import Connection, column, inspect, table, text

from core.model import serialization
from core.store import engines, history, row_digests, schema
from core.store.columns import written
from core.store.sharing.shop_scope import every_shop
from core.store.tables import EventRow, StoredTable
from tests.support.booked import Desk

NEW_IN_SPLICES = ("at_metres", "measured", "reckoned", "section", "removed", "disturbed", "redone")
"""What the fourth tables added to a splice, and so to its line of history."""

FIRST_KEYS_OF_THE_FRONT = ("name", "address", "phone", "currency", "timezone", "language")
NEWEST_IN_LINES = ("disposition", "note_is_told", "version_sha256", "signed_off_by")
NEW_IN_LINES = ("look", "label_astray", "tried", "rests_until", *NEWEST_IN_LINES)


def as_kept_before(desk: Desk, where: str, revision: str) -> None:
    """Writes the shop of ``desk`` into the empty database at ``where`` in tables of ``revision``."""
    old = engines.open_database(where)
    with old.writing.connect() as into, into.begin(), every_shop(into):
        schema.upgrade(into, revision)
        into.execute(text("DELETE FROM counters"))
        with desk.shop.database.reading.connect() as out, every_shop(out):
            there = inspect(into).get_table_names()
            for name in (each.name for each in StoredTable.metadata.sorted_tables):
                if name in there and name != "events":
                    _copy(out, into, name)
            if "agreements" in there:
                _copy_agreements(out, into)
            if "settings" in there:
                _copy_settings(out, into)
            _copy_history(out, into, before_settings="settings" in there)
        into.info.clear()  # an older program kept no numbers of changes
    old.close()


def as_kept_since_salts(desk: Desk, where: str, revision: str) -> None:
    """As `as_kept_before`, for tables since the sixteenth: every row, and the history line by line."""
    old = engines.open_database(where)
    with old.writing.connect() as into, into.begin(), every_shop(into):
        schema.upgrade(into, revision)
        into.execute(text("DELETE FROM counters"))
        with desk.shop.database.reading.connect() as out, every_shop(out):
            there = inspect(into).get_table_names()
            for name in (each.name for each in StoredTable.metadata.sorted_tables):
                if name in there:
                    _copy(out, into, name)
        into.info.clear()
    old.close()


def _copy(out: Connection, into: Connection, name: str) -> None:
    columns = [each["name"] for each in inspect(into).get_columns(name)]
    named = ", ".join(f'"{each}"' for each in columns)
    rows = [dict(row) for row in out.execute(text(f'SELECT {named} FROM "{name}"')).mappings()]
    if rows:
        blanks = ", ".join(f":{each}" for each in columns)
        into.execute(text(f'INSERT INTO "{name}" ({named}) VALUES ({blanks})'), rows)
        if "id" in columns and into.dialect.name == "postgresql":
            sequence = f"pg_get_serial_sequence('{name}', 'id')"
            into.execute(text(f'SELECT setval({sequence}, (SELECT max(id) FROM "{name}"))'))


def _copy_agreements(out: Connection, into: Connection) -> None:
    """What was agreed after booking, as it stood before versions were numbered."""
    versions = "SELECT * FROM agreement_versions ORDER BY job_id, number"
    exempt = [
        each["name"] for each in inspect(into).get_columns("agreements") if each["name"] == "tax_exempt"
    ]
    columns = ["job_id", "who_agreed", "words", "ceiling_minor", "at", "by", *exempt]
    blanks = [":job_id", ":agreed_by", ":reason", ":raised", ":at", ":by", *(f":{name}" for name in exempt)]
    named = ", ".join(f'"{each}"' for each in columns)
    insert = text(f"INSERT INTO agreements ({named}) VALUES ({', '.join(blanks)})")
    held: dict[int, int] = {}
    for row in out.execute(text(versions)).mappings():
        raised = row["ceiling_minor"] if held.get(row["job_id"]) != row["ceiling_minor"] else None
        held[row["job_id"]] = row["ceiling_minor"]
        if row["number"] > 1 and row["kind"] != "settled":
            into.execute(insert, {**row, "raised": raised})


def _copy_settings(out: Connection, into: Connection) -> None:
    """What the shop had settled last, as one row with the keys of that time; there were no price books."""
    newest = "SELECT value FROM settings_versions WHERE part = 'shop' ORDER BY number DESC LIMIT 1"
    for (value,) in out.execute(text(newest)):
        settings = json.loads(value)
        del settings["confirmed"]
        settings["front"] = {key: settings["front"][key] for key in FIRST_KEYS_OF_THE_FRONT}
        into.execute(
            text("INSERT INTO settings (name, value, version) VALUES ('fittings', :value, 1)"),
            {"value": serialization.dumps(settings)},
        )


def _copy_history(out: Connection, into: Connection, *, before_settings: bool) -> None:
    """The same lines as they were said then, each with the digest it had."""
    before, seq = history.BEGINNING, 0
    columns = {each["name"] for each in inspect(into).get_columns("events")}
    typed = EventRow.__table__.columns
    kept = table("events", *(column(each.name, each.type) for each in typed if each.name in columns))
    asked = EventRow.__table__.select().order_by(text("seq"))
    for row in out.execute(asked.where(EventRow.kind != row_digests.KIND)).mappings():
        seq += 1
        payload = (
            _as_said_then(row["payload"]) if before_settings else _without(row["payload"], NEWEST_IN_LINES)
        )
        said_then = {"seq": seq, "payload": payload, "previous": before}
        if before_settings and row["kind"] in ("settings", "prices"):
            said_then |= {"kind": "refitted", "payload": "{}"}
        if row["kind"] == "copy-step" and "copy_steps" not in inspect(into).get_table_names():
            said_then |= {"kind": "noted", "payload": "{}"}  # nobody kept record of copies then
        said = {name: value for name, value in row.items() if name != "shop"}
        event = EventRow(**{**said, **said_then})
        before = event.digest = _digest_before_salts(event)
        values = {name: getattr(event, name) for name in row if name in columns}
        into.execute(kept.insert().values(**values))
    into.execute(text("UPDATE counters SET last = :seq WHERE name = 'event'"), {"seq": seq})


def _digest_before_salts(event: EventRow) -> str:
    """Of a line as all of it was hashed before the sixteenth tables."""
    said = [event.seq, event.job, event.tape, event.kind, event.words, event.payload]
    return history.fingerprint(serialization.dumps([*said, written(event.at), event.by, event.previous]))


def _as_said_then(payload: str) -> str:
    said: dict[str, Any] = json.loads(payload)
    for name in NEW_IN_LINES:
        said.pop(name, None)
    for splice in said.get("splices", ()):
        for name in NEW_IN_SPLICES:
            splice.pop(name)
    return serialization.dumps(said)


def _without(payload: str, names: tuple[str, ...]) -> str:
    said: dict[str, Any] = json.loads(payload)
    return serialization.dumps({name: value for name, value in said.items() if name not in names})
