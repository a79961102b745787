"""How long a cold tape rests, the order boxes were put in, and days shut that can be taken back."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

APPEND_ONLY = ("box_orders", "day_events")
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    # An old tape did not come in cold, as far as anybody said.
    op.add_column("tapes", sa.Column("rests_until", MOMENT, nullable=True))
    _make_box_orders()
    _make_day_events()
    _move_shut_days()
    for table in APPEND_ONLY:
        if op.get_bind().dialect.name == "sqlite":
            _guard_sqlite(table)
        else:
            op.execute(
                f"CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
                "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
            )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _make_box_orders() -> None:
    op.create_table(
        "box_orders",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("numbers", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_box_orders"),
    )


def _make_day_events() -> None:
    op.create_table(
        "day_events",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("kind", sa.String(10), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_day_events"),
    )
    op.create_index("ix_day_events_day", "day_events", ["day"])


def _move_shut_days() -> None:
    """A day could be shut once only, so that one taken back could never be shut again."""
    op.execute(
        'INSERT INTO day_events (day, kind, words, "at", "by") '
        'SELECT day, \'shut\', words, "at", "by" FROM shut_days ORDER BY day'
    )
    op.drop_table("shut_days")


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
