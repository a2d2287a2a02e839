"""Items of the rack and the log of what was done with them."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Bring an empty place to the first shape."""
    op.create_table(
        "rack_action",
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("person", sa.Text, nullable=False, server_default=""),
        sa.Column("job", sa.Text, nullable=False, server_default=""),
        sa.Column("note", sa.Text, nullable=False, server_default=""),
        sa.Column("undoes", sa.Integer, sa.ForeignKey("rack_action.number"), unique=True),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "rack_change",
        sa.Column("action", sa.Integer, sa.ForeignKey("rack_action.number"), primary_key=True),
        sa.Column("place", sa.Integer, primary_key=True),
        sa.Column("code", sa.Text, nullable=False),
        sa.Column("before", sa.Text),
        sa.Column("after", sa.Text),
    )
    op.create_index("rack_change_code", "rack_change", ["code"])
    op.create_table(
        "rack_item",
        sa.Column("code", sa.Text, primary_key=True),
        sa.Column("form", sa.Text, nullable=False),
        sa.Column("material", sa.Text, nullable=False),
        sa.Column("length", sa.BigInteger, sa.CheckConstraint("length > 0"), nullable=False),
        sa.Column("width", sa.BigInteger, sa.CheckConstraint("width > 0"), nullable=False),
        sa.Column("thickness", sa.BigInteger),
        sa.Column("batch", sa.Text, nullable=False, server_default=""),
        sa.Column("grain", sa.Text, nullable=False, server_default="along"),
        sa.Column("moisture", sa.Double),
        sa.Column("moisture_on", sa.Text),
        sa.Column("place", sa.Text, nullable=False, server_default=""),
        sa.Column("price", sa.Text),
        sa.Column("currency", sa.Text, nullable=False, server_default=""),
        sa.Column("received", sa.Text),
        sa.Column("notes", sa.Text, nullable=False, server_default=""),
        sa.Column("state", sa.Text, nullable=False, server_default="free"),
        sa.Column("reserved_for", sa.Text, nullable=False, server_default=""),
        sa.Column("parent", sa.Text, nullable=False, server_default=""),
        sa.Column("last_action", sa.Integer, sa.ForeignKey("rack_action.number"), nullable=False),
        sa.CheckConstraint("state IN ('free', 'reserved', 'cut', 'spoiled')"),
        sa.CheckConstraint("(state = 'reserved') = (reserved_for <> '')"),
    )
    op.create_index("rack_item_use", "rack_item", ["material", "state"])
    op.create_index("rack_item_parent", "rack_item", ["parent"])
