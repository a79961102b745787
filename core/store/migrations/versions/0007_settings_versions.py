"""The shop's settings and price books as dated versions that are never changed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

TABLE = "settings_versions"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part", sa.String(20), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("valid_from", sa.String(10), nullable=True),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("undoes", sa.Integer(), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_settings_versions"),
        sa.UniqueConstraint("part", "number", name="uq_settings_versions_part_number"),
    )
    is_sqlite = op.get_bind().dialect.name == "sqlite"
    _keep_what_was_settled(is_sqlite)
    op.drop_table("settings")
    if is_sqlite:
        _guard_sqlite()
    else:
        op.execute(
            f"CREATE TRIGGER {TABLE}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {TABLE} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _keep_what_was_settled(is_sqlite: bool) -> None:
    """Nobody wrote down when it was settled: it stands as what the shop always had."""
    ever = "'1970-01-01T00:00:00.000000Z'" if is_sqlite else "TIMESTAMPTZ '1970-01-01 00:00:00+00'"
    op.execute(
        f'INSERT INTO {TABLE} (part, number, value, words, "at", "by") '
        f"SELECT 'shop', 1, value, '', {ever}, '' FROM settings WHERE name = 'fittings'"
    )


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {TABLE}_no_{deed.lower()} BEFORE {deed} ON {TABLE} "
            f"BEGIN SELECT RAISE(ABORT, '{TABLE} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {TABLE}_no_replace BEFORE INSERT ON {TABLE} "
        f"WHEN EXISTS (SELECT 1 FROM {TABLE} WHERE id = NEW.id OR (part = NEW.part AND number = NEW.number)) "
        f"BEGIN SELECT RAISE(ABORT, '{TABLE} is append-only'); END"
    )
