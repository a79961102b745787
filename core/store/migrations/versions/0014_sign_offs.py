"""Who signed the files of a tape off, never changed; by whom a tape is signed off now; splices made again."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None

TABLE = "sign_offs"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("files", sa.Text(), nullable=False),
        sa.Column("accepted", sa.Text(), nullable=False),
        sa.Column("because", sa.Text(), nullable=False),
        sa.Column("command", sa.String(80), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_sign_offs"),
        sa.UniqueConstraint("command", name="uq_sign_offs_command"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_sign_offs_tape_id_tapes"),
    )
    op.create_index("ix_sign_offs_tape_id", TABLE, ["tape_id"])
    op.add_column("tapes", sa.Column("signed_off_by", sa.Text(), nullable=True))
    op.add_column("splices", sa.Column("redone", sa.Boolean(), nullable=True))
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        op.execute(
            f"CREATE TRIGGER {TABLE}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {TABLE} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {TABLE}_no_{deed.lower()} BEFORE {deed} ON {TABLE} "
            f"BEGIN SELECT RAISE(ABORT, '{TABLE} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {TABLE}_no_replace BEFORE INSERT ON {TABLE} "
        f"WHEN EXISTS (SELECT 1 FROM {TABLE} WHERE id = NEW.id "
        "OR (NEW.command IS NOT NULL AND command = NEW.command)) "
        f"BEGIN SELECT RAISE(ABORT, '{TABLE} is append-only'); END"
    )
