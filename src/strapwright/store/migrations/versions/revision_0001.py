"""The first schema: items, versions, drafts, meta."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_KINDS = "kind IN ('job', 'press', 'tooling', 'lot')"


def upgrade() -> None:
    """Make the tables of an empty file, and mark the file as ours."""
    op.execute("PRAGMA application_id = 1400140400")  # "Strp" in ASCII: a file of ours
    op.create_table(
        "items",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("file", sa.String(100), nullable=False),
        sa.Column("file_key", sa.String(200), nullable=False),
        sa.Column("created", sa.String(32), nullable=False),
        sa.Column("updated", sa.String(32), nullable=False),
        sa.Column("current", sa.Integer(), nullable=False),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.Column("sound", sa.Boolean(), nullable=False),
        sa.Column("trouble", sa.Text(), nullable=True),
        sa.Column("material", sa.String(200), nullable=True),
        sa.Column("bar", sa.String(200), nullable=True),
        sa.Column("quantity", sa.Integer(), nullable=True),
        sa.Column("sought", sa.Text(), nullable=False),
        sa.CheckConstraint(_KINDS, name=op.f("ck_items_kind")),
        sa.CheckConstraint("current >= 1", name=op.f("ck_items_current")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_items")),
        sa.UniqueConstraint("file_key", name=op.f("uq_items_file_key")),
    )
    op.create_index("ix_items_listed", "items", ["kind", "archived", "updated"])
    op.create_table(
        "versions",
        sa.Column("item", sa.String(32), nullable=False),
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("saved_at", sa.String(32), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("sound", sa.Boolean(), nullable=False),
        sa.Column("trouble", sa.Text(), nullable=True),
        sa.CheckConstraint("number >= 1", name=op.f("ck_versions_number")),
        sa.ForeignKeyConstraint(["item"], ["items.id"], name=op.f("fk_versions_item")),
        sa.PrimaryKeyConstraint("item", "number", name=op.f("pk_versions")),
    )
    op.create_table(
        "drafts",
        sa.Column("item", sa.String(32), nullable=False),
        sa.Column("who", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("base", sa.Integer(), nullable=True),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column("updated", sa.String(32), nullable=False),
        sa.CheckConstraint(_KINDS, name=op.f("ck_drafts_kind")),
        sa.PrimaryKeyConstraint("item", "who", name=op.f("pk_drafts")),
    )
    op.create_table(
        "meta",
        sa.Column("key", sa.String(64), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_meta")),
    )
