"""A backup carries a seal over every row."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table of the seal, which has rows in a backup alone."""
    op.create_table(
        "seal",
        sa.Column("of_table", sa.String(64), nullable=False),
        sa.Column("rows", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("of_table", name=op.f("pk_seal")),
    )
