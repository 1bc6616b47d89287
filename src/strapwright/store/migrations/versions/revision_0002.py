"""Rack and crib are kept too, and what long searches found."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_BEFORE = "('job', 'press', 'tooling', 'lot')"
_AFTER = "('job', 'press', 'tooling', 'lot', 'rack', 'crib')"
_STATES = "state IN ('running', 'done', 'stopped', 'failed')"


def upgrade() -> None:
    """Let items and drafts be of two more kinds, and add the table of searches."""
    # A check is only in the text of the schema, and nothing on disk depends on it; this is how
    # SQLite's own documentation of ALTER TABLE (section 7) changes one.  Making the table anew
    # instead would drop what versions refer to.
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
    op.create_table(
        "searches",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("item", sa.String(32), nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("asked", sa.String(64), nullable=False),
        sa.Column("begun", sa.String(32), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("result", sa.Text(), nullable=False),
        sa.CheckConstraint(_STATES, name=op.f("ck_searches_state")),
        sa.ForeignKeyConstraint(["item"], ["items.id"], name=op.f("fk_searches_item")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_searches")),
    )
    op.create_index("ix_searches_item", "searches", ["item", "begun"])
