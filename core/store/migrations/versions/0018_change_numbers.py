"""For each kind of records the number of the last step that changed it: every window knows what is new.

And where a shop was moved to.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0018"
down_revision = "0016"
branch_labels = None
depends_on = None

MOVES = "shop_moves"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.create_table(
        "change_numbers",
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("kind", name="pk_change_numbers"),
    )
    op.create_table(
        MOVES,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_shop_moves"),
    )
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        op.execute(
            f"CREATE TRIGGER {MOVES}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {MOVES} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {MOVES}_no_{deed.lower()} BEFORE {deed} ON {MOVES} "
            f"BEGIN SELECT RAISE(ABORT, '{MOVES} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {MOVES}_no_replace BEFORE INSERT ON {MOVES} "
        f"WHEN EXISTS (SELECT 1 FROM {MOVES} WHERE id = NEW.id) "
        f"BEGIN SELECT RAISE(ABORT, '{MOVES} is append-only'); END"
    )
