"""The sources that the tables name: read once from the package, and put into words for a reader."""

from __future__ import annotations

import functools
import re
import tomllib
from collections.abc import Mapping
from importlib import resources
from types import MappingProxyType

from attrs import frozen

NOT_RECORDED = "not recorded"
NAMED = re.compile(r"\{([a-z0-9-]+)\}")


@frozen(kw_only=True)
class Source:
    """One standard, book, data sheet, chart or habit of the trade.

    Attributes
    ----------
    title, edition, publisher
        ``not recorded`` where nobody wrote it down.
    grade
        What it is worth at its best: a grade of the catalog, or ``computed``.
    reprints
        Ids of the standards whose values it carries at second hand.
    """

    title: str
    edition: str
    publisher: str
    grade: str
    reprints: tuple[str, ...]

    @property
    def words(self) -> str:
        """Title and edition, as a person reads them."""
        return self.title if self.edition == NOT_RECORDED else f"{self.title}, {self.edition}"


@functools.cache
def sources() -> Mapping[str, Source]:
    """Return every source by its id, in the order of the table."""
    text = resources.files("strapwright.catalog").joinpath("data/sources.toml").read_text("utf-8")
    return MappingProxyType(
        {
            key: Source(
                title=row["title"],
                edition=row["edition"],
                publisher=row["publisher"],
                grade=row["grade"],
                reprints=tuple(row.get("reprints", ())),
            )
            for key, row in tomllib.loads(text).items()
        }
    )


def in_words(text: str) -> str:
    """Return a text of a table with title and edition for every ``{id}``.

    Parameters
    ----------
    text
        As it stands in a table: ``{shigley}, table A-20``.

    Raises
    ------
    KeyError
        Where no source has that id; a test holds every table to them.
    """
    return NAMED.sub(lambda match: sources()[match[1]].words, text)
