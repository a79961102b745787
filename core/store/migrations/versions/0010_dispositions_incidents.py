"""What became of each tape, whether its note is for the customer, and what was lost or damaged."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

TABLE = "incidents"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    # Both may be empty: of an old tape its station tells, and an old note was meant for the shop.
    op.add_column("tapes", sa.Column("disposition", sa.String(40), nullable=True))
    op.add_column("tapes", sa.Column("note_is_told", sa.Boolean(), nullable=True))
    _make_incidents()
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        op.execute(
            f"CREATE TRIGGER {TABLE}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {TABLE} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _make_incidents() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("moment", MOMENT, nullable=True),
        sa.Column("photo", sa.Text(), nullable=True),
        sa.Column("sha256", sa.String(64), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_incidents"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_incidents_tape_id_tapes"),
    )
    op.create_index("ix_incidents_tape_id", TABLE, ["tape_id"])


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {TABLE}_no_{deed.lower()} BEFORE {deed} ON {TABLE} "
            f"BEGIN SELECT RAISE(ABORT, '{TABLE} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {TABLE}_no_replace BEFORE INSERT ON {TABLE} "
        f"WHEN EXISTS (SELECT 1 FROM {TABLE} WHERE id = NEW.id) "
        f"BEGIN SELECT RAISE(ABORT, '{TABLE} is append-only'); END"
    )
