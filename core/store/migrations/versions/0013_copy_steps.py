"""Copies as items of work: what each is made for, and everything that is done to it, line by line for good.

A copy booked before stays one piece without an order behind it: it is handed over as it always was.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None

STEPS = "copy_steps"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.add_column("copies", sa.Column("pieces", sa.Integer(), nullable=True))
    op.add_column("copies", sa.Column("delivery", sa.Text(), nullable=True))
    op.add_column("copies", sa.Column("left_out_in", sa.Integer(), nullable=True))
    op.add_column("copies", sa.Column("follows", sa.Integer(), nullable=True))
    _make_steps()
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        op.execute(
            f"CREATE TRIGGER {STEPS}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {STEPS} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _make_steps() -> None:
    op.create_table(
        STEPS,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("copy_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("contents", sa.Text(), nullable=True),
        sa.Column("drive", sa.Text(), nullable=True),
        sa.Column("download", sa.Text(), nullable=True),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("command", sa.String(80), nullable=True),
        sa.Column("content", sa.String(64), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_copy_steps"),
        sa.ForeignKeyConstraint(["copy_id"], ["copies.id"], name="fk_copy_steps_copy_id_copies"),
        sa.UniqueConstraint("command", name="uq_copy_steps_command"),
    )
    op.create_index("ix_copy_steps_copy_id", STEPS, ["copy_id"])


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {STEPS}_no_{deed.lower()} BEFORE {deed} ON {STEPS} "
            f"BEGIN SELECT RAISE(ABORT, '{STEPS} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {STEPS}_no_replace BEFORE INSERT ON {STEPS} "
        f"WHEN EXISTS (SELECT 1 FROM {STEPS} WHERE id = NEW.id) "
        f"BEGIN SELECT RAISE(ABORT, '{STEPS} is append-only'); END"
    )
