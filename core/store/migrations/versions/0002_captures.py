"""What the decks showed of every tape they played, so that the shop can learn from it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.create_table(
        "captures",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("minutes", sa.Double(), nullable=False),
        sa.Column("speed", sa.String(40), nullable=True),
        sa.Column("recorded_as", sa.String(40), nullable=True),
        sa.Column("tv", sa.String(40), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_captures"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_captures_tape_id_tapes"),
    )
    op.create_index("ix_captures_tape_id", "captures", ["tape_id"])
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        op.execute(
            "CREATE TRIGGER captures_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON captures "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER captures_no_{deed.lower()} BEFORE {deed} ON captures "
            "BEGIN SELECT RAISE(ABORT, 'captures is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        "CREATE TRIGGER captures_no_replace BEFORE INSERT ON captures "
        "WHEN EXISTS (SELECT 1 FROM captures WHERE id = NEW.id) "
        "BEGIN SELECT RAISE(ABORT, 'captures is append-only'); END"
    )
