"""What a customer agreed to after booking may say that they pay no tax, and why."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    # It may be empty, so that adding it rebuilds no table and claims nothing about old rows.
    op.add_column("agreements", sa.Column("tax_exempt", sa.Text(), nullable=True))


def downgrade() -> None:
    raise NotImplementedError("restore the copy that was made before the update instead")
