"""How Alembic runs the versions: on the connection, and in the transaction, that the schema opened."""

from __future__ import annotations

from alembic import context

context.configure(
    connection=context.config.attributes["connection"],
    transactional_ddl=True,
    render_as_batch=True,
)
context.run_migrations()
