"""Who was told that an order is ready, and what customers wish for its handover; never changed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

TABLES = ("told", "handover_wishes")
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.create_table(
        "told",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("command", sa.String(80), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("round", sa.Integer(), nullable=False),
        sa.Column("how", sa.String(40), nullable=False),
        sa.Column("result", sa.String(40), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_told"),
        sa.UniqueConstraint("command", name="uq_told_command"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_told_job_id_jobs"),
    )
    op.create_table(
        "handover_wishes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("said_by", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_handover_wishes"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_handover_wishes_job_id_jobs"),
    )
    for table in TABLES:
        op.create_index(f"ix_{table}_job_id", table, ["job_id"])
        if op.get_bind().dialect.name == "sqlite":
            _guard_sqlite(table)
        else:
            op.execute(
                f"CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
                "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
            )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _guard_sqlite(table: str) -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} "
            f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
        f"WHEN EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id) "
        f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
    )
