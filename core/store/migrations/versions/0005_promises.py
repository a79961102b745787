"""Every promise by itself, when its box was ready, and what came between: decks and closed days."""

from __future__ import annotations

import json

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

APPEND_ONLY = (("promises", "id"), ("finishes", "id"), ("deck_events", "id"), ("shut_days", "day"))
DONE = ("ready", "handed-back", "cannot-be-played", "kept-apart")

MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    _make_promises()
    _make_outages()
    _fill_promises()
    _fill_finishes()
    for table, key in APPEND_ONLY:
        if op.get_bind().dialect.name == "sqlite":
            _guard_sqlite(table, key)
        else:
            op.execute(
                f"CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
                "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
            )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


# --- tables ------------------------------------------------------------------------------


def _make_promises() -> None:
    op.create_table(
        "promises",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("promise", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("agreed_with", sa.Text(), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_promises"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_promises_job_id_jobs"),
    )
    op.create_index("ix_promises_job_id", "promises", ["job_id"])
    op.create_table(
        "finishes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_finishes"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_finishes_job_id_jobs"),
    )
    op.create_index("ix_finishes_job_id", "finishes", ["job_id"])


def _make_outages() -> None:
    op.create_table(
        "deck_events",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("deck", sa.String(80), nullable=False),
        sa.Column("kind", sa.String(10), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_deck_events"),
    )
    op.create_index("ix_deck_events_deck", "deck_events", ["deck"])
    op.create_table(
        "shut_days",
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("day", name="pk_shut_days"),
    )


# --- what the older tables know ----------------------------------------------------------


def _fill_promises() -> None:
    """The promise of each quote, and the one that holds where another was agreed."""
    bind, promises = op.get_bind(), _raw("promises", "job_id", "promise", "reason", "agreed_with", "at", "by")
    jobs = _raw("jobs", "id", "quote", "promise", "booked_at", "booked_by")
    said = _raw("agreements", "job_id", "who_agreed", "words", "at", "by")
    for job in bind.execute(sa.select(jobs).order_by(jobs.c.id)).mappings().all():
        first = json.loads(job["quote"])["promise"]
        rows = [_promise(job["id"], first, "", None, job["booked_at"], job["booked_by"])]
        if json.loads(job["promise"]) != first:
            asked = sa.select(said).where(said.c.job_id == job["id"]).order_by(said.c.at.desc())
            last = bind.execute(asked).mappings().first()
            agreed = (last["words"], last["who_agreed"], last["at"], last["by"]) if last else None
            reason, who, at, by = agreed or ("", None, job["booked_at"], job["booked_by"])
            rows.append(_promise(job["id"], json.loads(job["promise"]), reason, who, at, by))
        bind.execute(sa.insert(promises), rows)


def _promise(
    job: int, said: dict[str, object], reason: str, agreed_with: str | None, at: object, by: str
) -> dict[str, object]:
    text = json.dumps(said, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))
    return {
        "job_id": job,
        "promise": text,
        "reason": reason,
        "agreed_with": agreed_with,
        "at": at,
        "by": by,
    }


def _fill_finishes() -> None:
    """For each job that is done: the last time one of its tapes was found ready."""
    bind, finishes = op.get_bind(), _raw("finishes", "job_id", "at", "by")
    jobs, tapes = _raw("jobs", "id", "number"), _raw("tapes", "job_id", "station")
    events = _raw("events", "seq", "job", "kind", "payload", "at", "by")
    open_still = sa.select(tapes.c.job_id).where(tapes.c.station.not_in(DONE))
    done = sa.select(jobs).where(jobs.c.id.not_in(open_still)).order_by(jobs.c.id)
    for job in bind.execute(done).mappings().all():
        moved = sa.select(events).where(events.c.job == job["number"], events.c.kind == "moved")
        lines = bind.execute(moved.order_by(events.c.seq.desc())).mappings()
        last = next((each for each in lines if json.loads(each["payload"])["station"] in DONE), None)
        if last is not None:
            bind.execute(sa.insert(finishes), [{"job_id": job["id"], "at": last["at"], "by": last["by"]}])


def _raw(name: str, *columns: str) -> sa.TableClause:
    """A table whose moments pass through as this database keeps them."""
    return sa.table(
        name, *(sa.column(each, MOMENT if each in ("at", "booked_at") else None) for each in columns)
    )


# --- append-only -------------------------------------------------------------------------


def _guard_sqlite(table: str, key: str) -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} "
            f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
        f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {key} = NEW.{key}) "
        f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
    )
