"""What an offcut counts for and from what size, faces, defects, photo, and the rests a plan leaves."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns; what is there counts for its price, has two good faces and no defects."""
    op.add_column("rack_item", sa.Column("value", sa.Text))
    op.add_column("rack_item", sa.Column("least", sa.Text))
    op.add_column("rack_item", sa.Column("faces", sa.Text, nullable=False, server_default="both"))
    op.add_column("rack_item", sa.Column("defects", sa.Text, nullable=False, server_default="[]"))
    op.add_column("rack_item", sa.Column("photo", sa.Text, nullable=False, server_default=""))
    op.add_column("rack_item", sa.Column("planned", sa.Text, nullable=False, server_default="[]"))
