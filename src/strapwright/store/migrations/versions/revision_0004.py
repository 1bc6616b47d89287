"""The shop log: what was read of each bend, with every correction."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table of the log; a correction is a row of its own."""
    op.create_table(
        "log",
        sa.Column("line", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("revision", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("item", sa.String(32), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("part", sa.Integer(), nullable=False),
        sa.Column("bend", sa.Integer(), nullable=False),
        sa.Column("lot", sa.String(200), nullable=False),
        sa.Column("press", sa.String(200), nullable=False),
        sa.Column("tooling", sa.String(200), nullable=False),
        sa.Column("mounting", sa.Integer(), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("figures", sa.JSON(), nullable=False),
        sa.Column("counted", sa.Boolean(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("kept_at", sa.String(32), nullable=False),
        sa.CheckConstraint("line >= 1", name=op.f("ck_log_line")),
        sa.CheckConstraint("revision >= 1", name=op.f("ck_log_revision")),
        sa.CheckConstraint("part >= 1", name=op.f("ck_log_part")),
        sa.CheckConstraint("bend >= 1", name=op.f("ck_log_bend")),
        sa.ForeignKeyConstraint(
            ["item", "version"], ["versions.item", "versions.number"], name=op.f("fk_log_item")
        ),
        sa.PrimaryKeyConstraint("line", "revision", name=op.f("pk_log")),
    )
    op.create_index("ix_log_item", "log", ["item", "part", "bend"])
