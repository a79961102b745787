"""Every agreement as numbered versions, what was asked when a price would go over it, and what a deck showed.

An order that was booked before gets version 1 from its quote; what was agreed after that follows in the order
it was said. The table they stood in is given up.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None

VERSIONS, QUESTIONS = "agreement_versions", "ceiling_questions"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")
NEW = sa.table(
    VERSIONS,
    *(
        sa.column(name)
        for name in (
            *("job_id", "number", "kind", "ceiling_minor", "given_away_minor", "fee_minor", "promise"),
            *("reason", "agreed_by", "strokes", "told", "tax_exempt", "at", "by"),
        )
    ),
)


def upgrade() -> None:
    _make_versions()
    _make_questions()
    op.add_column("tapes", sa.Column("shown", sa.Text(), nullable=True))
    op.add_column("tapes", sa.Column("left_out_in", sa.Integer(), nullable=True))
    _keep_what_was_agreed()
    op.drop_table("agreements")
    for table in (VERSIONS, QUESTIONS):
        if op.get_bind().dialect.name == "sqlite":
            _guard_sqlite(table)
        else:
            op.execute(
                f"CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
                "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
            )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _make_versions() -> None:
    op.create_table(
        VERSIONS,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("quote", sa.Text(), nullable=True),
        sa.Column("codes", sa.Text(), nullable=True),
        sa.Column("ceiling_minor", sa.BigInteger(), nullable=False),
        sa.Column("given_away_minor", sa.BigInteger(), nullable=False),
        sa.Column("fee_minor", sa.BigInteger(), nullable=False),
        sa.Column("promise", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("agreed_by", sa.Text(), nullable=True),
        sa.Column("how", sa.String(40), nullable=True),
        sa.Column("strokes", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.Column("choice", sa.String(40), nullable=True),
        sa.Column("command", sa.String(80), nullable=True),
        sa.Column("tax_exempt", sa.Text(), nullable=True),
        sa.Column("content", sa.String(64), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_agreement_versions"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_agreement_versions_job_id_jobs"),
        sa.UniqueConstraint("job_id", "number", name="uq_agreement_versions_job_id_number"),
        sa.UniqueConstraint("command", name="uq_agreement_versions_command"),
    )


def _make_questions() -> None:
    op.create_table(
        QUESTIONS,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("stands_minor", sa.BigInteger(), nullable=False),
        sa.Column("ceiling_minor", sa.BigInteger(), nullable=False),
        sa.Column("bound_for", sa.String(40), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_ceiling_questions"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_ceiling_questions_job_id_jobs"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_ceiling_questions_tape_id_tapes"),
    )
    op.create_index("ix_ceiling_questions_job_id", QUESTIONS, ["job_id"])
    op.create_index("ix_ceiling_questions_tape_id", QUESTIONS, ["tape_id"])


def _keep_what_was_agreed() -> None:
    """Who agreed at the counter, and how, nobody had written down: that stays open."""
    bind = op.get_bind()
    later: dict[int, list[Any]] = {}
    for row in bind.execute(sa.text("SELECT * FROM agreements ORDER BY id")).mappings():
        later.setdefault(row["job_id"], []).append(row)
    said, last = _said_days(bind), 0
    some = sa.text("SELECT id, quote, booked_at, booked_by FROM jobs WHERE id > :last ORDER BY id LIMIT 500")
    while jobs := bind.execute(some, {"last": last}).mappings().all():
        rows = [row for job in jobs for row in _story(job, later.get(job["id"], ()), said)]
        bind.execute(sa.insert(NEW), rows)
        last = jobs[-1]["id"]


def _story(job: Any, later: Sequence[Any], said: Mapping[int, list[tuple[Any, str]]]) -> list[dict[str, Any]]:
    """The versions of one order."""
    quote = json.loads(job["quote"])
    first = {
        "job_id": job["id"],
        "number": 1,
        "kind": "quoted",
        "reason": "",
        "agreed_by": None,
        "given_away_minor": 0,
        "fee_minor": 0,
        "strokes": "[]",
        "tax_exempt": None,
        "told": "[]",
        "ceiling_minor": quote["price"]["ceiling_minor"],
        "promise": _text(quote["promise"]),
        "at": job["booked_at"],
        "by": job["booked_by"],
    }
    rows: list[dict[str, Any]] = [first]
    for number, row in enumerate(later, 2):
        raised = row["ceiling_minor"]
        rows.append(
            rows[-1]
            | {"number": number, "kind": "revised", "reason": row["words"], "agreed_by": row["who_agreed"]}
            | {"ceiling_minor": rows[-1]["ceiling_minor"] if raised is None else raised}
            | {"promise": _promise_then(said, job["id"], row["at"]) or rows[-1]["promise"]}
            | {"tax_exempt": row["tax_exempt"], "at": row["at"], "by": row["by"]}
        )
    return rows


def _said_days(bind: sa.Connection) -> dict[int, list[tuple[Any, str]]]:
    """By job: when each promise was said, and which."""
    found: dict[int, list[tuple[Any, str]]] = {}
    for row in bind.execute(sa.text('SELECT job_id, promise, "at" FROM promises ORDER BY id')):
        found.setdefault(row[0], []).append((row[2], row[1]))
    return found


def _promise_then(said: Mapping[int, list[tuple[Any, str]]], job: int, moment: Any) -> str | None:
    """The promise that held at a moment; text and moments compare alike on both databases."""
    return next((promise for at, promise in reversed(said.get(job, [])) if at <= moment), None)


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _guard_sqlite(table: str) -> None:
    again = " OR (job_id = NEW.job_id AND number = NEW.number)" if table == VERSIONS else ""
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} "
            f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
        f"WHEN EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id{again}) "
        f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
    )
