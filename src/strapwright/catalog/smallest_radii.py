"""Smallest inside radius a bar takes without cracking, by standard or handbook.

Where a table is silent the answer stays on the large side, and its text says so.
"""

from __future__ import annotations

import csv
import functools
import math
from importlib import resources

from attrs import frozen

from strapwright.catalog.materials import Material
from strapwright.errors import InputError

# ASTM A6, appendix X4: bend line along the final rolling direction.  For tables that do not speak
# of grain the same factor is taken: common practice, no source.
ALONG_GRAIN = 1.5


@frozen
class _Row:
    """Upper limits of thickness [mm] and the entries [mm or multiples of thickness]."""

    limits: tuple[float, ...]
    entries: tuple[float, ...]

    def at(self, thickness: float) -> tuple[float, float]:
        """Return the entry for a thickness, and how far [-] the thickness is past the table."""
        for limit, entry in zip(self.limits, self.entries, strict=True):
            if thickness <= limit * (1 + 1e-9):  # 1/4 in is 6.35 mm however it was reckoned
                return entry, 1.0
        return self.entries[-1], thickness / self.limits[-1]


def smallest_radius(
    material: Material, thickness_mm: float, *, along_grain: bool = False
) -> tuple[float, str]:
    """Return the smallest inside radius for a cold bend.

    Parameters
    ----------
    material
        From the catalog.
    thickness_mm
        Of the bar, in the direction of bending [mm].
    along_grain
        Whether the bend line runs along the rolling direction (a strip cut across the plate).

    Returns
    -------
    radius_mm, source
        Radius [mm] and what says so.  Between columns the thicker one counts; past the last the
        multiple grows in proportion to the thickness and the source says 'not proven'.

    Raises
    ------
    InputError
        Where the thickness is not above zero and finite.

    Notes
    -----
    EN 10025-2 (cold flanging, up to 90 deg); ASTM A6, table X4.2; Aluminum Association type table
    (90 deg); Kalpakjian and Schmid, table 16.3; ACI 318 and EN 1992-1-1 for reinforcing bar.
    """
    if not (thickness_mm > 0 and math.isfinite(thickness_mm)):
        raise InputError(
            "thickness",
            "the thickness is not above 0",
            "give it, for example 1/4 in",
            value=f"{thickness_mm} mm",
        )
    if material.min_radius_rule == "EN 10025-2":
        return _en10025(material.min_radius_row, thickness_mm, along_grain=along_grain)
    said = material.sources["min_radius_rule"]
    text = f"{said.source} ({said.grade})"
    past = 1.0
    if material.min_radius_in_t is not None:
        multiple = material.min_radius_in_t
    elif material.min_radius_rule == "ASTM A6":
        multiple, past = _table("astm_a6")[(material.min_radius_row,)].at(thickness_mm)
    elif material.min_radius_rule == "rebar":
        multiple, past = _table("rebar")[(material.min_radius_row,)].at(thickness_mm)
    else:
        multiple, past = _table("aluminium")[(material.min_radius_row,)].at(thickness_mm)
    if along_grain:
        multiple *= ALONG_GRAIN
        if material.min_radius_rule == "ASTM A6":
            text += ", times 1.5 along the grain"
        else:
            text += ", times 1.5 along the grain (common practice, no source)"
    return multiple * past * thickness_mm, text + _past(past)


def textbook_multiple(row: str) -> float:
    """Return the smallest radius over thickness [-] of ``material|condition``.

    Source: Kalpakjian and Schmid, table 16.3.
    """
    name, condition = row.split("|")
    _, lines = _lines("textbook")
    soft, hard = next(line[1:] for line in lines if line[0] == name)
    return float({"soft": soft, "hard": hard}[condition])


def _en10025(grade: str, thickness: float, *, along_grain: bool) -> tuple[float, str]:
    line = "longitudinal" if along_grain else "transverse"
    radius, past = _table("en10025", 2)[(grade, line)].at(thickness)
    # Past the table both the thickness and its multiple grow.
    text = f"EN 10025-2, {grade}, bend line {line}, up to 90° (standard)"
    return radius * past**2, text + _past(past)


def _past(past: float) -> str:
    if past <= 1.0:
        return ""
    return ", carried on past the thickest bar of the table, not checked"


@functools.cache
def _table(name: str, keys: int = 1) -> dict[tuple[str, ...], _Row]:
    head, lines = _lines(name)
    limits = tuple(float(one) for one in head[keys:])
    return {
        tuple(line[:keys]): _Row(limits, tuple(float(one) for one in line[keys:])) for line in lines
    }


@functools.cache
def _lines(name: str) -> tuple[list[str], list[list[str]]]:
    """Return head and rows of one table of the package."""
    path = resources.files("strapwright.catalog").joinpath(f"data/smallest_radius_{name}.csv")
    text = [one for one in path.read_text("utf-8").splitlines() if not one.startswith("#")]
    head, *rows = csv.reader(text)
    return head, rows
