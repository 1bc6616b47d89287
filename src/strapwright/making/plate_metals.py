"""Which row of the speed table a steel of the tooling is cut by."""

from __future__ import annotations

from strapwright.catalog.steels import MEDIUM, MILD, find_steel

__all__ = ["MEDIUM", "MILD", "is_hard", "metal_of"]


def metal_of(steel: str | None, otherwise: str) -> str:
    """Return the metal of the speed table for a steel.

    Parameters
    ----------
    steel
        Of the catalog, or ``None`` where nothing is stated.
    otherwise
        What is taken then.

    Returns
    -------
    str
        An unknown steel is cut as slowly as an alloy steel.

    Raises
    ------
    InputError
        Where the catalog has no such steel.
    """
    if steel is None:
        return otherwise
    return find_steel(steel, "material").metal


def is_hard(steel: str) -> bool:
    """Whether a steel of the catalog has a hard skin.

    Raises
    ------
    InputError
        Where the catalog has no such steel.
    """
    return find_steel(steel, "material").hardened
