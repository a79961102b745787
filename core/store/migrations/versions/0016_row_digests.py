"""The history covers every row, what it says can be erased, and the chain holds all the same.

The digest of a line no longer covers its words but their digest with a salt (``sealed``). So each line is
given both, and the chain is worked out anew; a line that did not fit before does not fit afterwards. Then the
rows as they stand are told with their digests.
"""

from __future__ import annotations

import hashlib
import json
import secrets
from typing import Any

import sqlalchemy as sa
from alembic import op

from core.store import row_digests, row_telling
from core.store.columns import UtcMoment, written

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None

MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")
BEGINNING = "0" * 64
EVENTS = sa.table(
    "events",
    *(sa.column(name) for name in ("seq", "job", "tape", "kind", "words", "payload", "by", "previous")),
    *(sa.column(name) for name in ("digest", "salt", "sealed")),
    sa.column("at", UtcMoment()),
)
SALTED = {"customers": "id", "jobs": "id", "commands": "command"}
"""Tables whose rows have a salt of their own, and their keys."""
GUARD = "WHEN NOT EXISTS (SELECT 1 FROM erasures WHERE is_open)"


def upgrade() -> None:
    op.create_table(
        "erasures",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("is_open", sa.Boolean(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_erasures"),
        sa.ForeignKeyConstraint(["customer_id"], ["customers.id"], name="fk_erasures_customer_id_customers"),
    )
    op.add_column("events", sa.Column("salt", sa.String(32), nullable=True))
    op.add_column("events", sa.Column("sealed", sa.String(64), nullable=True))
    for name in SALTED:
        op.add_column(name, sa.Column("salt", sa.String(32), nullable=True))
    bind = op.get_bind()
    if bind.dialect.name == "sqlite":
        op.execute("DROP TRIGGER events_no_update")
        op.execute("DROP TRIGGER commands_no_update")
        _salt()
        _chain_anew(bind)
        op.execute(
            "CREATE TRIGGER commands_no_update BEFORE UPDATE ON commands "
            "BEGIN SELECT RAISE(ABORT, 'commands is append-only'); END"
        )
        op.execute(
            "CREATE TRIGGER events_no_update BEFORE UPDATE ON events "
            "BEGIN SELECT RAISE(ABORT, 'events is append-only'); END"
        )
        _let_erasures_through_sqlite(bind)
    else:
        for name in ("events", "commands"):
            op.execute(f"ALTER TABLE {name} DISABLE TRIGGER {name}_append_only")
        _salt()
        _chain_anew(bind)
        for name in ("events", "commands"):
            op.execute(f"ALTER TABLE {name} ENABLE TRIGGER {name}_append_only")
        _let_erasures_through_postgresql()
    row_telling.tell(bind, row_digests.tables(bind))


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _salt() -> None:
    bind = op.get_bind()
    for name, key in SALTED.items():
        rows = sa.table(name, sa.column(key), sa.column("salt"))
        keys = bind.execute(sa.select(rows.c[key])).scalars().all()
        if keys:
            salted = sa.update(rows).where(rows.c[key] == sa.bindparam("at")).values(salt=sa.bindparam("new"))
            bind.execute(salted, [{"at": each, "new": secrets.token_hex(16)} for each in keys])


# --- the chain ---------------------------------------------------------------------------


def _chain_anew(bind: sa.Connection) -> None:
    altered = sa.update(EVENTS).where(EVENTS.c.seq == sa.bindparam("line"))
    changed = altered.values(
        {name: sa.bindparam(f"new_{name}") for name in ("salt", "sealed", "previous", "digest")}
    )
    last, was, now = 0, BEGINNING, BEGINNING
    some = sa.select(EVENTS).order_by(EVENTS.c.seq).limit(500)
    while rows := bind.execute(some.where(EVENTS.c.seq > last)).mappings().all():
        lines = []
        for row in rows:
            line = _line_anew(row, was, now)
            last, was, now = row["seq"], row["digest"], line["new_digest"]
            lines.append(line)
        bind.execute(changed, lines)


def _line_anew(row: Any, was: str, now: str) -> dict[str, Any]:
    """What is new of a line; ``was`` and ``now`` are the digests of the line before it."""
    salt = secrets.token_hex(16)
    sealed = _fingerprint(salt + _text([row["words"], row["payload"]]))
    previous = now if row["previous"] == was else row["previous"]
    at = written(row["at"])
    digest = _fingerprint(
        _text([row["seq"], row["job"], row["tape"], row["kind"], sealed, at, row["by"], previous])
    )
    if row["digest"] != _fingerprint(_text(_as_digested_before(row))):
        sealed = BEGINNING  # what did not fit before must not fit now
    return {
        "line": row["seq"],
        "new_salt": salt,
        "new_sealed": sealed,
        "new_previous": previous,
        "new_digest": digest,
    }


def _as_digested_before(row: Any) -> list[Any]:
    said = [row[name] for name in ("seq", "job", "tape", "kind", "words", "payload")]
    return [*said, written(row["at"]), row["by"], row["previous"]]


def _fingerprint(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))


# --- append-only, save for an erasure ----------------------------------------------------


def _let_erasures_through_sqlite(bind: sa.Connection) -> None:
    kept = "SELECT name, tbl_name, sql FROM sqlite_master WHERE type = 'trigger'"
    for name, table, text in bind.exec_driver_sql(kept).all():
        if not name.endswith("_no_update"):
            continue
        begins = f"BEFORE UPDATE ON {table} "
        op.execute(f"DROP TRIGGER {name}")
        bind.exec_driver_sql(text.replace(begins, f"{begins}{GUARD} "))


def _let_erasures_through_postgresql() -> None:
    op.execute(
        "CREATE OR REPLACE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "
        "IF TG_OP = 'UPDATE' AND EXISTS (SELECT 1 FROM erasures WHERE is_open) THEN RETURN NULL; END IF; "
        "RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$"
    )
