"""Every command with what it asked for, and for a while what it was answered.

Ids from before, of orders and pickups and what else bore one, stay used; what they asked for nobody kept.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None

COMMANDS, ANSWERS = "commands", "command_answers"
MOMENT = sa.DateTime(timezone=True).with_variant(sa.String(27), "sqlite")
BEFORE = (
    ("jobs", "jobs.book", "booked_at", "booked_by"),
    ("pickups", "pickups.hand_back", "at", "by"),
    ("told", "after_ready.telling.tell", "at", "by"),
    ("agreement_versions", "agreement", "at", "by"),
    ("sign_offs", "checking.sign_offs.sign_off", "at", "by"),
    ("copy_steps", "copies", "at", "by"),
)
"""Tables that kept an id of their own, the step they were made by, when and by whom."""


def upgrade() -> None:
    op.create_table(
        COMMANDS,
        sa.Column("command", sa.String(80), nullable=False),
        sa.Column("step", sa.String(120), nullable=False),
        sa.Column("content", sa.String(64), nullable=True),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("command", name="pk_commands"),
    )
    op.create_table(
        ANSWERS,
        sa.Column("command", sa.String(80), nullable=False),
        sa.Column("answer", sa.Text(), nullable=False),
        sa.Column("salt", sa.String(32), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("command", name="pk_command_answers"),
        sa.ForeignKeyConstraint(
            ["command"], ["commands.command"], name="fk_command_answers_command_commands"
        ),
    )
    op.create_index("ix_command_answers_at", ANSWERS, ["at"])
    _keep_ids_from_before()
    if op.get_bind().dialect.name == "sqlite":
        _guard_sqlite()
    else:
        op.execute(
            f"CREATE TRIGGER {COMMANDS}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {COMMANDS} "
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")


def _keep_ids_from_before() -> None:
    """An id counts once, also where an order and a pickup were given the same."""
    for table, step, at, by in BEFORE:
        op.execute(
            f'INSERT INTO {COMMANDS} (command, step, content, "at", "by") '
            f'SELECT command, \'{step}\', NULL, "{at}", "{by}" FROM {table} '
            f"WHERE command IS NOT NULL AND command NOT IN (SELECT command FROM {COMMANDS})"
        )


def _guard_sqlite() -> None:
    for deed in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {COMMANDS}_no_{deed.lower()} BEFORE {deed} ON {COMMANDS} "
            f"BEGIN SELECT RAISE(ABORT, '{COMMANDS} is append-only'); END"
        )
    # REPLACE deletes without firing the trigger for deletes.
    op.execute(
        f"CREATE TRIGGER {COMMANDS}_no_replace BEFORE INSERT ON {COMMANDS} "
        f"WHEN EXISTS (SELECT 1 FROM {COMMANDS} WHERE command = NEW.command) "
        f"BEGIN SELECT RAISE(ABORT, '{COMMANDS} is append-only'); END"
    )
