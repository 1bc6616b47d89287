"""The rates of the shop are kept too."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

_BEFORE = "('job', 'press', 'tooling', 'lot', 'rack', 'crib')"
_AFTER = "('job', 'press', 'tooling', 'lot', 'rack', 'crib', 'rates')"


def upgrade() -> None:
    """Let items and drafts be of one more kind."""
    # As in the second step: the check is only in the text of the schema.
    connection = op.get_bind()
    number = connection.exec_driver_sql("PRAGMA schema_version").scalar_one()
    op.execute("PRAGMA writable_schema = ON")
    for table in ("items", "drafts"):
        connection.execute(
            sa.text(
                "UPDATE sqlite_master SET sql = replace(sql, :before, :after) "
                "WHERE type = 'table' AND name = :name"
            ),
            {"before": _BEFORE, "after": _AFTER, "name": table},
        )
    op.execute(f"PRAGMA schema_version = {number + 1}")
    op.execute("PRAGMA writable_schema = OFF")
