"""The shop's tables as text, read once each from the package."""

from __future__ import annotations

import csv
import functools
from collections.abc import Mapping
from importlib import resources
from types import MappingProxyType

Row = Mapping[str, str]


@functools.cache
def table(name: str) -> tuple[Row, ...]:
    """Return the rows of one table by column, in the order of the text.

    Parameters
    ----------
    name
        Of a file in the catalog's data folder, without ``.csv``.  Its first lines, each begun
        with a hash and a space, say what it is and where it comes from.
    """
    lines = [one for one in _lines(name) if not one.startswith("# ")]  # '#7' is a drill
    return tuple(MappingProxyType(row) for row in csv.DictReader(lines))


def _lines(name: str) -> list[str]:
    path = resources.files("strapwright.catalog").joinpath(f"data/{name}.csv")
    return path.read_text("utf-8").splitlines()
