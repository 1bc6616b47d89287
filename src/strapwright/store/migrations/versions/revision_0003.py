"""A version says which one it brought back."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the number of the version brought back, which until now stood in the note alone."""
    op.add_column("versions", sa.Column("restores", sa.Integer(), nullable=True))
    number = "CAST(substr(note, length('back to version ') + 1) AS INTEGER)"
    op.execute(
        f"UPDATE versions SET restores = {number} "  # noqa: S608 - no text from outside in it
        f"WHERE note = 'back to version ' || {number} AND {number} >= 1"
    )
