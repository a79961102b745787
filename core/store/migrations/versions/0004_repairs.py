"""The repair record: places in metres, the leader told apart, donors, what was tried, the look afterwards."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    # Every new column may be empty, so that adding it rebuilds no table and claims nothing about old rows.
    for added in (
        sa.Column("struck_by", sa.Text(), nullable=True),
        sa.Column("at_metres", sa.Double(), nullable=True),
        sa.Column("measured", sa.String(40), nullable=True),
        sa.Column("reckoned", sa.Text(), nullable=True),
        sa.Column("section", sa.String(40), nullable=True),
        sa.Column("removed", sa.Text(), nullable=True),
        sa.Column("disturbed", sa.Text(), nullable=True),
    ):
        op.add_column("splices", added)
    for name in ("repaired_at", "looked_at", "astray_since"):
        op.add_column("tapes", sa.Column(name, MOMENT, nullable=True))
    op.add_column("tapes", sa.Column("look", sa.String(40), nullable=True))
    op.add_column("tapes", sa.Column("looked_by", sa.Text(), nullable=True))
    _make_donors()
    _make_repairs()


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _make_donors() -> None:
    op.create_table(
        "donors",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("format", sa.String(40), nullable=False),
        sa.Column("part", sa.String(40), nullable=False),
        sa.Column("came_from", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_donors"),
        sa.UniqueConstraint("format", "part", "came_from", name="uq_donors_format_part_came_from"),
        sa.CheckConstraint("count >= 0", name=op.f("ck_donors_count_not_negative")),
    )


def _make_repairs() -> None:
    op.create_table(
        "repairs",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(40), nullable=False),
        sa.Column("succeeded", sa.Boolean(), nullable=False),
        sa.Column("part", sa.String(40), nullable=True),
        sa.Column("donor_id", sa.Integer(), nullable=True),
        sa.Column("came_from", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("settled", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("struck_at", MOMENT, nullable=True),
        sa.Column("struck_by", sa.Text(), nullable=True),
        sa.Column("struck_because", sa.Text(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_repairs"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_repairs_tape_id_tapes"),
        sa.ForeignKeyConstraint(["donor_id"], ["donors.id"], name="fk_repairs_donor_id_donors"),
    )
    op.create_index("ix_repairs_tape_id", "repairs", ["tape_id"])
    op.create_index("ix_repairs_donor_id", "repairs", ["donor_id"])
