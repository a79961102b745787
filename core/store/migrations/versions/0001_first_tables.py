"""The first tables, the triggers that keep history append-only, and the search over names."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

APPEND_ONLY = ("events", "payments", "agreements", "pickups", "handed_back")

BYTEWISE = sa.Text().with_variant(sa.Text(collation="C"), "postgresql")
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")


def upgrade() -> None:
    _make_books()
    _make_jobs()
    _make_tapes()
    _make_money()
    _make_events()
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
        _search_sqlite()
    else:
        _guard_postgresql()
        _search_postgresql()


def downgrade() -> None:
    raise NotImplementedError("there is nothing before the first tables; restore a backup instead")


# --- tables ------------------------------------------------------------------------------


def _make_books() -> None:
    counters = op.create_table(
        "counters",
        sa.Column("name", sa.String(20), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_counters"),
    )
    op.bulk_insert(counters, [{"name": "job", "last": 0}, {"name": "event", "last": 0}])
    op.create_table(
        "settings",
        sa.Column("name", sa.String(40), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_settings"),
    )
    op.create_table(
        "drafts",
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("inventory", sa.Text(), nullable=False),
        sa.Column("kept_at", MOMENT, nullable=False),
        sa.Column("kept_by", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_drafts"),
    )


def _make_jobs() -> None:
    op.create_table(
        "customers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("folded", BYTEWISE, nullable=False),
        sa.Column("phone", sa.Text(), nullable=True),
        sa.Column("digits", BYTEWISE, nullable=False),
        sa.Column("email", sa.Text(), nullable=True),
        sa.Column("since", MOMENT, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_customers"),
    )
    op.create_index("ix_customers_folded", "customers", ["folded"])
    op.create_index("ix_customers_digits", "customers", ["digits"])
    op.create_table(
        "jobs",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("number", sa.String(6), nullable=False),
        sa.Column("command", sa.String(80), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("booked_at", MOMENT, nullable=False),
        sa.Column("booked_by", sa.Text(), nullable=False),
        sa.Column("rush", sa.Boolean(), nullable=False),
        sa.Column("quote", sa.Text(), nullable=False),
        sa.Column("promise", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_jobs"),
        sa.UniqueConstraint("number", name="uq_jobs_number"),
        sa.UniqueConstraint("command", name="uq_jobs_command"),
        sa.ForeignKeyConstraint(["customer_id"], ["customers.id"], name="fk_jobs_customer_id_customers"),
    )
    op.create_index("ix_jobs_customer_id", "jobs", ["customer_id"])


def _make_tapes() -> None:
    op.create_table(
        "tapes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(10), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.Column("draft", sa.Text(), nullable=False),
        sa.Column("station", sa.String(40), nullable=False),
        sa.Column("since", MOMENT, nullable=False),
        sa.Column("findings", sa.Text(), nullable=False),
        sa.Column("verdict", sa.Text(), nullable=False),
        sa.Column("minutes", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("settled", sa.Text(), nullable=False),
        sa.Column("played_minutes", sa.Double(), nullable=True),
        sa.Column("deck", sa.String(80), nullable=True),
        sa.Column("not_for_reuse", sa.Boolean(), nullable=False),
        sa.Column("marked_at", MOMENT, nullable=True),
        sa.Column("returned_from", sa.String(40), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_tapes"),
        sa.UniqueConstraint("job_id", "place", name="uq_tapes_job_id_place"),
        sa.UniqueConstraint("code", name="uq_tapes_code"),
        sa.UniqueConstraint("deck", name="uq_tapes_deck"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_tapes_job_id_jobs"),
    )
    op.create_index("ix_tapes_station_job_id", "tapes", ["station", "job_id"])
    op.create_table(
        "splices",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tape_id", sa.Integer(), nullable=False),
        sa.Column("at_minutes", sa.Double(), nullable=False),
        sa.Column("cut_cm", sa.Double(), nullable=False),
        sa.Column("joined_with", sa.String(40), nullable=False),
        sa.Column("seconds_removed", sa.Double(), nullable=False),
        sa.Column("seconds_disturbed", sa.Double(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("struck_at", MOMENT, nullable=True),
        sa.Column("struck_because", sa.Text(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_splices"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_splices_tape_id_tapes"),
    )
    op.create_index("ix_splices_tape_id", "splices", ["tape_id"])
    op.create_table(
        "copies",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(40), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("handed_back_at", MOMENT, nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_copies"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_copies_job_id_jobs"),
    )
    op.create_index("ix_copies_job_id", "copies", ["job_id"])


def _make_money() -> None:
    op.create_table(
        "payments",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("minor", sa.BigInteger(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_payments"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_payments_job_id_jobs"),
    )
    op.create_index("ix_payments_job_id", "payments", ["job_id"])
    op.create_table(
        "agreements",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("who_agreed", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("ceiling_minor", sa.BigInteger(), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_agreements"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_agreements_job_id_jobs"),
    )
    op.create_index("ix_agreements_job_id", "agreements", ["job_id"])
    op.create_table(
        "pickups",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("command", sa.String(80), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("signed_by", sa.Text(), nullable=False),
        sa.Column("strokes", sa.Text(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_pickups"),
        sa.UniqueConstraint("command", name="uq_pickups_command"),
        sa.ForeignKeyConstraint(["job_id"], ["jobs.id"], name="fk_pickups_job_id_jobs"),
    )
    op.create_index("ix_pickups_job_id", "pickups", ["job_id"])
    op.create_table(
        "handed_back",
        sa.Column("tape_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("pickup_id", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("tape_id", name="pk_handed_back"),
        sa.ForeignKeyConstraint(["tape_id"], ["tapes.id"], name="fk_handed_back_tape_id_tapes"),
        sa.ForeignKeyConstraint(["pickup_id"], ["pickups.id"], name="fk_handed_back_pickup_id_pickups"),
    )
    op.create_index("ix_handed_back_pickup_id", "handed_back", ["pickup_id"])


def _make_events() -> None:
    op.create_table(
        "events",
        sa.Column("seq", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("job", sa.String(6), nullable=True),
        sa.Column("tape", sa.String(10), nullable=True),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("payload", sa.Text(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("previous", sa.String(64), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_events"),
        sa.UniqueConstraint("digest", name="uq_events_digest"),
    )
    op.create_index("ix_events_tape_seq", "events", ["tape", "seq"])
    op.create_index("ix_events_job_seq", "events", ["job", "seq"])


# --- append-only -------------------------------------------------------------------------


def _guard_sqlite() -> None:
    for table in APPEND_ONLY:
        for deed in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )
    for table, key in (
        ("events", "seq"),
        ("payments", "id"),
        ("agreements", "id"),
        ("pickups", "id"),
        ("handed_back", "tape_id"),
    ):
        # REPLACE deletes without firing the trigger for deletes.
        op.execute(
            f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
            f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {key} = NEW.{key}) "
            f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
        )


def _guard_postgresql() -> None:
    op.execute(
        "CREATE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$"
    )
    for table in APPEND_ONLY:
        op.execute(
            f"CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


# --- search ------------------------------------------------------------------------------


def _search_sqlite() -> None:
    """Any three letters of a name, or digits of a phone, found without reading every customer."""
    op.execute(
        "CREATE VIRTUAL TABLE customer_trigrams USING fts5("
        "folded, digits, content='customers', content_rowid='id', tokenize='trigram', detail='none')"
    )
    add = "INSERT INTO customer_trigrams (rowid, folded, digits) VALUES (NEW.id, NEW.folded, NEW.digits);"
    drop = (
        "INSERT INTO customer_trigrams (customer_trigrams, rowid, folded, digits) "
        "VALUES ('delete', OLD.id, OLD.folded, OLD.digits);"
    )
    op.execute(f"CREATE TRIGGER customers_found_new AFTER INSERT ON customers BEGIN {add} END")
    op.execute(f"CREATE TRIGGER customers_found_gone AFTER DELETE ON customers BEGIN {drop} END")
    op.execute(
        f"CREATE TRIGGER customers_found_changed AFTER UPDATE OF folded, digits ON customers "
        f"BEGIN {drop} {add} END"
    )


def _search_postgresql() -> None:
    """The same with pg_trgm, where the server has it and lets this user switch it on; else a plain scan."""
    bind = op.get_bind()
    try:
        with bind.begin_nested():
            bind.execute(sa.text("CREATE EXTENSION IF NOT EXISTS pg_trgm"))
    except sa.exc.DBAPIError:
        return
    for column in ("folded", "digits"):
        op.execute(
            f"CREATE INDEX ix_customers_{column}_trigram ON customers USING gin ({column} gin_trgm_ops)"
        )
