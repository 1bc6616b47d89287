"""Steels of tooling: the least strength of core and case, and whether they weld."""

from __future__ import annotations

import csv
import difflib
import functools
from collections.abc import Mapping
from importlib import resources
from typing import cast

from attrs import frozen

from strapwright.catalog.materials import Grade, plain
from strapwright.catalog.sources import in_words
from strapwright.errors import InputError

MODULUS = 200_000.0  # MPa, of any steel; handbook value
POISSON = 0.3  # of any steel; handbook value


MILD = "low carbon steel"
MEDIUM = "medium carbon steel"
ALLOY = "alloy steel"
# Per cent, highest of each class; the usual bounds (from memory).
LOW_CARBON, MEDIUM_CARBON = 0.30, 0.55


@frozen(kw_only=True)
class Steel:
    """One steel of a nose, shoulder, plate or rod.

    Attributes
    ----------
    name, aliases
        Names people write.
    yield_strength, tensile_strength
        Least of the core, which carries bending [MPa].
    case_yield
        Of a hardened skin, which carries contact, or ``None`` [MPa].
    carbon
        Most of its class [percent].
    alloy
        Whether it is an alloy steel, which cuts slower than its carbon lets expect.
    brittle
        Whether it can shatter.
    source, grade
        How the strengths are known.
    """

    name: str
    aliases: tuple[str, ...]
    yield_strength: float
    tensile_strength: float
    case_yield: float | None
    carbon: float
    alloy: bool
    brittle: bool
    source: str
    grade: Grade

    @property
    def metal(self) -> str:
        """Class it is cut by and sold as; an unknown steel is cut as slowly as an alloy steel."""
        if self.alloy or self.carbon > MEDIUM_CARBON:
            return ALLOY
        return MILD if self.carbon <= LOW_CARBON else MEDIUM

    @property
    def hardened(self) -> bool:
        """Whether it has a hard case, which no arc may touch."""
        return self.case_yield is not None

    @property
    def skin_yield(self) -> float:
        """Yield where it is touched along a line [MPa]."""
        return self.yield_strength if self.case_yield is None else self.case_yield


@functools.cache
def steels() -> tuple[Steel, ...]:
    """Return every steel of the table, in its order."""
    return tuple(
        Steel(
            name=row["name"],
            aliases=tuple(filter(None, row["aliases"].split("|"))),
            yield_strength=float(row["yield"]),
            tensile_strength=float(row["tensile"]),
            case_yield=float(row["case_yield"]) if row["case_yield"] else None,
            carbon=float(row["carbon"]),
            alloy=row["alloy"] == "yes",
            brittle=row["brittle"] == "yes",
            source=in_words(row["source"]),
            grade=cast("Grade", row["grade"]),
        )
        for row in table_rows("tool_steels.csv")
    )


def find_steel(name: str, where: str) -> Steel:
    """Return the steel of that name or alias; case and spacing do not matter.

    Parameters
    ----------
    name
        As written.
    where
        Key path, for the message.

    Raises
    ------
    InputError
        Where no steel has that name.
    """
    index = _index()
    found = index.get(plain(name))
    if found is not None:
        return found
    near = difflib.get_close_matches(plain(name)[:40], list(index), n=3, cutoff=0.5)
    names = tuple(dict.fromkeys(index[one].name for one in near)) or ("A36", "hardened shaft")
    raise InputError(
        where,
        "the catalog has no such steel for tooling",
        f"write {' or '.join(map(repr, names))}, or 'unknown steel' for the low end",
        value=name,
    )


@functools.cache
def _index() -> Mapping[str, Steel]:
    return {plain(key): one for one in steels() for key in (one.name, *one.aliases)}


def table_rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a table of the package; lines that begin with # say where it is from."""
    text = resources.files("strapwright.catalog").joinpath(f"data/{name}").read_text("utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
