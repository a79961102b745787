"""The files recorded from each tape: what they hold, and the checksum they are known by."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.create_table(
        "recordings",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("report", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("struck_at", MOMENT, nullable=True),
        sa.Column("struck_because", sa.Text(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_recordings"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_recordings_tape_id_tapes"),
    )
    op.create_index("ix_recordings_tape_id", "recordings", ["tape_id"])
    op.create_index("ix_recordings_sha256", "recordings", ["sha256"])


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")
