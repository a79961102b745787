"""How each payment was made and after which line of history; counted drawers; numbered invoices.

The shop leads every key on a server and none in a file, as `0019_shops` has it.
"""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

from core.store import row_telling

revision = "0020"
down_revision = "0019"
branch_labels = None
depends_on = None

MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")
TABLES = {
    "drawer_counts": "id = NEW.id",
    "invoices": "id = NEW.id OR (series = NEW.series AND number = NEW.number)",
}
"""With what SQLite's REPLACE would take away."""


def upgrade() -> None:
    bind = op.get_bind()
    op.add_column("payments", sa.Column("method", sa.String(20), nullable=True))
    op.add_column("payments", sa.Column("note", sa.Text(), nullable=True))
    op.add_column("payments", sa.Column("line", sa.BigInteger(), nullable=True))
    is_file = bind.dialect.name == "sqlite"
    _make_counts(is_file)
    _make_invoices(is_file)
    for name, replaced in TABLES.items():
        if is_file:
            _guard_file(name, replaced)
        else:
            _guard_server(name)
    row_telling.tell(bind, ["payments"])


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _make_counts(is_file: bool) -> None:
    op.create_table(
        "drawer_counts",
        sa.Column("id", sa.Integer(), nullable=False, autoincrement=True),
        sa.Column("closes", sa.Boolean(), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("counted_minor", sa.BigInteger(), nullable=False),
        sa.Column("expected_minor", sa.BigInteger(), nullable=False),
        sa.Column("taken_out_minor", sa.BigInteger(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("line", sa.BigInteger(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        *_of_a_shop("drawer_counts", is_file),
    )
    op.create_index("ix_drawer_counts_day", "drawer_counts", _led(["day"], is_file))


def _make_invoices(is_file: bool) -> None:
    op.create_table(
        "invoices",
        sa.Column("id", sa.Integer(), nullable=False, autoincrement=True),
        sa.Column("series", sa.String(40), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("sums", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        *_of_a_shop("invoices", is_file),
        sa.UniqueConstraint(*_led(["series", "number"], is_file), name="uq_invoices_series_number"),
        sa.ForeignKeyConstraint(
            _led(["job_id"], is_file),
            [f"jobs.{each}" for each in _led(["id"], is_file)],
            name="fk_invoices_job_id_jobs",
        ),
    )
    op.create_index("ix_invoices_job_id", "invoices", _led(["job_id"], is_file))


def _led(columns: list[str], is_file: bool) -> list[str]:
    return columns if is_file else ["shop", *columns]


def _of_a_shop(name: str, is_file: bool) -> list[Any]:
    key = sa.PrimaryKeyConstraint(*_led(["id"], is_file), name=f"pk_{name}")
    if not is_file:
        return [sa.Column("shop", sa.String(40), nullable=False), key]
    kept = sa.Column("shop", sa.String(40), nullable=False, server_default="main")
    return [kept, key, sa.CheckConstraint("shop = 'main'", name=f"ck_{name}_one_shop")]


def _guard_file(name: str, replaced: str) -> None:
    for deed in ("UPDATE", "DELETE"):
        guard = "WHEN NOT EXISTS (SELECT 1 FROM erasures WHERE is_open) " if deed == "UPDATE" else ""
        op.execute(
            f"CREATE TRIGGER {name}_no_{deed.lower()} BEFORE {deed} ON {name} {guard}"
            f"BEGIN SELECT RAISE(ABORT, '{name} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {name}_no_replace BEFORE INSERT ON {name} "
        f"WHEN EXISTS (SELECT 1 FROM {name} WHERE {replaced}) "
        f"BEGIN SELECT RAISE(ABORT, '{name} is append-only'); END"
    )


def _guard_server(name: str) -> None:
    op.execute(
        f"CREATE TRIGGER {name}_append_only BEFORE UPDATE OR DELETE ON {name} "
        "FOR EACH ROW EXECUTE FUNCTION append_only()"
    )
    op.execute(
        f"CREATE TRIGGER {name}_whole BEFORE TRUNCATE ON {name} "
        "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
    )
