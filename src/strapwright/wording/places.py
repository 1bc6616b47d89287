"""What a finding is about, in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from strapwright.findings import BendAt, HoleAt, Place
from strapwright.wording.reader import Medium


def where(about: Sequence[Place], medium: Medium = "command") -> str:
    """Name what a finding is about.

    Parameters
    ----------
    about
        Of a finding.
    medium
        A command names a hole by its key, paper by its number.
    """
    bends = sorted(one.number for one in about if isinstance(one, BendAt))
    named = [] if not bends else [f"bend{'s' if len(bends) > 1 else ''} {listed(bends)}"]
    named += [_named(one, medium) for one in about if not isinstance(one, BendAt)]
    return ", ".join(named)


def listed(items: Iterable[object]) -> str:
    """List things: ``1``, ``1 and 2``, ``1, 2 and 4``."""
    *first, last = map(str, items)
    return f"{', '.join(first)} and {last}" if first else last


def _named(place: Place, medium: Medium) -> str:
    if isinstance(place, HoleAt) and medium == "paper":
        return f"hole {place.number}"
    return str(place)
