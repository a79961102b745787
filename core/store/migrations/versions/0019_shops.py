"""A shop in every key, so that several share the tables of a server; what is there becomes the main shop.

On a server the shop stands before every primary key, unique constraint, link and index (save those of
trigrams, which have no order). Ids stay numbers of the whole table. A file holds one shop, which a check sees
to: its keys stay as they are, because SQLite numbers rows by a key of one column alone. The digests of the
rows leave the shop out, so that none changes.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0019"
down_revision = "0018"
branch_labels = None
depends_on = None

SHOP = "VARCHAR(40) NOT NULL DEFAULT 'main'"


def upgrade() -> None:
    bind = op.get_bind()
    found = sa.inspect(bind)
    names = [each for each in found.get_table_names() if each != "alembic_version" and "trigram" not in each]
    if bind.dialect.name == "sqlite":
        for name in names:
            check = f"CONSTRAINT ck_{name}_one_shop CHECK (shop = 'main')"
            op.execute(f"ALTER TABLE {name} ADD COLUMN shop {SHOP} {check}")
    else:
        _lead_keys(names, [*_statements(bind, names)])
        _guard_row_by_row()


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _lead_keys(names: list[str], statements: list[str]) -> None:
    for name in names:
        op.execute(f"ALTER TABLE {name} ADD COLUMN shop {SHOP}")
        op.execute(f"ALTER TABLE {name} ALTER COLUMN shop DROP DEFAULT")
    for each in statements:
        op.execute(each)


def _statements(bind: sa.Connection, names: list[str]) -> Iterator[str]:
    """Links go first and come last, because they rest on the keys."""
    found = sa.inspect(bind)
    links = [(name, link) for name in names for link in found.get_foreign_keys(name)]
    for name, link in links:
        yield f"ALTER TABLE {name} DROP CONSTRAINT {link['name']}"
    for name in names:
        key = found.get_pk_constraint(name)
        yield from _led(name, key["name"], "PRIMARY KEY", key["constrained_columns"])
        uniques = found.get_unique_constraints(name)
        for each in uniques:
            yield from _led(name, each["name"], "UNIQUE", each["column_names"])
        constraints = {each["name"] for each in uniques}
        for index in found.get_indexes(name):
            if index["name"] not in constraints and "trigram" not in str(index["name"]):
                yield f"DROP INDEX {index['name']}"
                yield f"CREATE INDEX {index['name']} ON {name} ({_listed(index['column_names'])})"
    for name, link in links:
        yield (
            f"ALTER TABLE {name} ADD CONSTRAINT {link['name']} FOREIGN KEY "
            f"({_listed(link['constrained_columns'])}) "
            f"REFERENCES {link['referred_table']} ({_listed(link['referred_columns'])})"
        )


def _led(name: str, constraint: Any, kind: str, columns: Any) -> Iterator[str]:
    yield f"ALTER TABLE {name} DROP CONSTRAINT {constraint}"
    yield f"ALTER TABLE {name} ADD CONSTRAINT {constraint} {kind} ({_listed(columns)})"


def _listed(columns: Any) -> str:
    return ", ".join(("shop", *(f'"{each}"' for each in columns)))


def _guard_row_by_row() -> None:
    """The guards look at each row, to know its shop: an erasure, or a restore, of one opens no other."""
    op.execute(
        "CREATE OR REPLACE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "
        "IF TG_OP = 'UPDATE' THEN IF NEW.shop = OLD.shop AND EXISTS "
        "(SELECT 1 FROM erasures WHERE shop = OLD.shop AND is_open) THEN RETURN NEW; END IF; "
        "ELSIF TG_OP = 'DELETE' THEN "
        "IF OLD.shop = current_setting('tapewright.replaced', true) THEN RETURN OLD; END IF; END IF; "
        "RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$"
    )
    guarded = (
        "SELECT DISTINCT event_object_table FROM information_schema.triggers "
        "WHERE trigger_schema = current_schema() AND trigger_name = event_object_table || '_append_only'"
    )
    for name in op.get_bind().exec_driver_sql(guarded).scalars().all():
        op.execute(f"DROP TRIGGER {name}_append_only ON {name}")
        op.execute(
            f"CREATE TRIGGER {name}_append_only BEFORE UPDATE OR DELETE ON {name} "
            "FOR EACH ROW EXECUTE FUNCTION append_only()"
        )
        op.execute(
            f"CREATE TRIGGER {name}_whole BEFORE TRUNCATE ON {name} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )
