"""The metals of bar: values, and finding one by the name people write."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from typing import Literal

from attrs import field, frozen

Grade = Literal["standard", "handbook", "data sheet", "common practice", "from memory"]
NoteKind = Literal["strength", "cracking", "surface"]
RadiusRule = Literal["ASTM A6", "EN 10025-2", "aluminium 90", "textbook", "rebar", "stated"]


@frozen(kw_only=True)
class Known:
    """How a number is known: what says so, and how much that is worth."""

    source: str
    grade: Grade


@frozen(kw_only=True)
class Note:
    """One remark about a metal, one clause without a full stop."""

    kind: NoteKind
    text: str


@frozen(kw_only=True)
class Material:
    """One metal in one condition.

    A spread of a strength is one standard deviation of its natural logarithm, which for small
    spreads is the relative deviation; a spread of an exponent or ratio is one standard deviation.

    Attributes
    ----------
    name, aliases
        Names people write.
    designation
        Standard, UNS or EN number that it is ordered by.
    family
        ``steel``, ``stainless``, ``aluminium``, ``copper``, ``brass``.
    modulus
        Young's modulus [MPa].
    poisson
        [-]
    density
        [kg/m3]
    yield_minimum, tensile_minimum
        What the standard promises, ``None`` where nothing does [MPa].
    yield_typical, tensile_typical
        What bar commonly has [MPa].
    yield_spread, tensile_spread
        [-]
    exponent, exponent_spread
        Hardening exponent of the flow curve [-].
    plateau, plateau_spread
        Strain over which it yields before it hardens, the Lueders strain; 0 for bar that has no
        plateau, such as drawn bar [-].
    elongation
        At fracture, on the low side [percent].
    unloading_ratio, unloading_spread
        Modulus on letting go after straining, over the elastic modulus [-].
    min_radius_rule
        Table that gives the smallest inside radius; ``stated``: ``min_radius_in_t``.
    min_radius_row
        Row of that table; empty for ``stated``.
    min_radius_in_t
        Smallest inside radius over thickness where it does not depend on thickness, else
        ``None`` [-].
    brittle
        Whether this bar can snap instead of bending.
    cracks
        Whether it is too hard for any cold bend to shape.
    softer
        Name of the metal or state that bends where this one cracks; empty where there is none.
    anneal
        Heat that brings this bar to about that state, ``None`` where none does [deg C].
    drawn
        Whether it is drawn to its size and not hot rolled.
    unknown
        Whether the row stands for metal that nobody knows.
    notes
        Remarks.
    sources
        Field name -> how its number is known.
    """

    name: str
    aliases: tuple[str, ...]
    designation: str
    family: str
    modulus: float
    poisson: float
    density: float
    yield_minimum: float | None
    tensile_minimum: float | None
    yield_typical: float
    yield_spread: float
    tensile_typical: float
    tensile_spread: float
    exponent: float
    exponent_spread: float
    plateau: float
    plateau_spread: float
    elongation: float
    unloading_ratio: float
    unloading_spread: float
    min_radius_rule: RadiusRule
    min_radius_row: str
    min_radius_in_t: float | None
    brittle: bool
    cracks: bool
    softer: str
    anneal: float | None
    drawn: bool
    unknown: bool
    notes: tuple[Note, ...]
    sources: Mapping[str, Known] = field(eq=False, repr=False)  # a mapping has no hash


def plain(name: str) -> str:
    """Return a name as compared: lower case, single spaces."""
    return " ".join(name.lower().split())


def nearest_names(name: str, known: Mapping[str, Material], count: int = 3) -> tuple[str, ...]:
    """Return the names of the metals most like a name nobody knows.

    Parameters
    ----------
    name
        As written.
    known
        Plain name or alias -> metal.
    count
        At most so many [-].
    """
    wanted = plain(name)[:40]  # the comparison is slow on a pasted page
    holding = [key for key in known if wanted and wanted in key]
    close = difflib.get_close_matches(wanted, list(known), n=2 * count, cutoff=0.5)
    found = dict.fromkeys(known[key].name for key in (*holding, *close))
    return tuple(found)[:count]
