"""The tables of the store; ``migrations`` makes them, a test holds the two together."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import ClassVar

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Dialect,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    MetaData,
    String,
    Text,
    TypeDecorator,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

# Named, because a later migration can only change what has a name.
_NAMES = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}


_KINDS = "kind IN ('job', 'press', 'tooling', 'lot', 'rack', 'crib', 'rates')"


class Moment(TypeDecorator[datetime]):
    """A moment as text in UTC of one length, so that it sorts and a person can read it."""

    impl = String(32)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """Write a moment.

        Raises
        ------
        ValueError
            If it carries no time zone.
        """
        del dialect
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment in the store carries its time zone")
        return value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """Read a moment, in UTC."""
        del dialect
        return None if value is None else datetime.fromisoformat(value)


class Base(DeclarativeBase):
    """What the tables have in common."""

    metadata = MetaData(naming_convention=_NAMES)
    type_annotation_map: ClassVar = {datetime: Moment}


class ItemRow(Base):
    """One item, with what its current version says."""

    __tablename__ = "items"
    __table_args__ = (
        CheckConstraint(_KINDS, name="kind"),
        CheckConstraint("current >= 1", name="current"),
        Index("ix_items_listed", "kind", "archived", "updated"),
    )

    id: Mapped[str] = mapped_column(String(32), primary_key=True)
    kind: Mapped[str] = mapped_column(String(16))
    name: Mapped[str] = mapped_column(String(80))
    file: Mapped[str] = mapped_column(String(100))
    file_key: Mapped[str] = mapped_column(String(200), unique=True)  # without upper and lower case
    created: Mapped[datetime]
    updated: Mapped[datetime]
    current: Mapped[int]
    archived: Mapped[bool]
    sound: Mapped[bool]
    trouble: Mapped[str | None] = mapped_column(Text)
    material: Mapped[str | None] = mapped_column(String(200))
    bar: Mapped[str | None] = mapped_column(String(200))
    quantity: Mapped[int | None]
    sought: Mapped[str] = mapped_column(Text)  # what a search looks through, case folded


class VersionRow(Base):
    """One saved version; never changed, never deleted."""

    __tablename__ = "versions"
    __table_args__ = (CheckConstraint("number >= 1", name="number"),)

    item: Mapped[str] = mapped_column(ForeignKey("items.id"), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    text: Mapped[str] = mapped_column(Text)
    saved_at: Mapped[datetime]
    note: Mapped[str] = mapped_column(Text)
    restores: Mapped[int | None]  # the version whose text it brought back
    sha256: Mapped[str] = mapped_column(String(64))
    sound: Mapped[bool]
    trouble: Mapped[str | None] = mapped_column(Text)


class DraftRow(Base):
    """A half-typed edit; its item may not be there yet, so the id refers to nothing."""

    __tablename__ = "drafts"
    __table_args__ = (CheckConstraint(_KINDS, name="kind"),)

    item: Mapped[str] = mapped_column(String(32), primary_key=True)
    who: Mapped[str] = mapped_column(String(64), primary_key=True)
    kind: Mapped[str] = mapped_column(String(16))
    base: Mapped[int | None]
    fields: Mapped[dict[str, str]] = mapped_column(JSON)
    updated: Mapped[datetime]


class SearchRow(Base):
    """Long work on a job; its result outlives the server that did it."""

    __tablename__ = "searches"
    __table_args__ = (
        CheckConstraint("state IN ('running', 'done', 'stopped', 'failed')", name="state"),
        Index("ix_searches_item", "item", "begun"),
    )

    id: Mapped[str] = mapped_column(String(32), primary_key=True)
    item: Mapped[str] = mapped_column(ForeignKey("items.id"))
    state: Mapped[str] = mapped_column(String(16))
    asked: Mapped[str] = mapped_column(String(64))
    begun: Mapped[datetime]
    said: Mapped[str] = mapped_column(Text)
    result: Mapped[str] = mapped_column(Text)


class LogRow(Base):
    """One state of one line of the shop log; never changed, never deleted."""

    __tablename__ = "log"
    __table_args__ = (
        CheckConstraint("line >= 1", name="line"),
        CheckConstraint("revision >= 1", name="revision"),
        CheckConstraint("part >= 1", name="part"),
        CheckConstraint("bend >= 1", name="bend"),
        ForeignKeyConstraint(["item", "version"], ["versions.item", "versions.number"]),
        Index("ix_log_item", "item", "part", "bend"),
    )

    line: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    revision: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    item: Mapped[str] = mapped_column(String(32))
    version: Mapped[int]
    part: Mapped[int]
    bend: Mapped[int]
    lot: Mapped[str] = mapped_column(String(200))
    press: Mapped[str] = mapped_column(String(200))
    tooling: Mapped[str] = mapped_column(String(200))
    mounting: Mapped[int]
    typed: Mapped[dict[str, str]] = mapped_column(JSON)
    figures: Mapped[dict[str, float]] = mapped_column(JSON)
    counted: Mapped[bool]
    why: Mapped[str] = mapped_column(Text)
    kept_at: Mapped[datetime]


class SealRow(Base):
    """What a table held when a backup was taken; a store in use has none."""

    __tablename__ = "seal"

    of_table: Mapped[str] = mapped_column(String(64), primary_key=True)
    rows: Mapped[int]
    sha256: Mapped[str] = mapped_column(String(64))


class MetaRow(Base):
    """A few facts about the store itself."""

    __tablename__ = "meta"

    key: Mapped[str] = mapped_column(String(64), primary_key=True)
    value: Mapped[str] = mapped_column(Text)
