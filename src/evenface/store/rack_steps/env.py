"""Runs the steps on the connection that `rack_base` hands over, inside its transaction."""

from alembic import context

context.configure(
    connection=context.config.attributes["connection"], version_table="rack_version", transactional_ddl=True
)
with context.begin_transaction():
    context.run_migrations()
