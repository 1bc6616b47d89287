"""The tool crib: the cutters and saws a shop owns."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

DrillSeries = Literal["fractional", "number", "letter", "metric", "single"]


@frozen(kw_only=True)
class DrillSet:
    """A run of twist drills.

    Attributes
    ----------
    series
        ``fractional`` and ``metric`` run from size to size by a step; ``number`` and ``letter``
        name their drills; ``single`` is one drill.
    first, last
        Names of the ends, as written: ``1/16``, ``60``, ``A``, ``1``.
    sizes
        Diameters where the series gives them, rising [mm]; empty for ``number`` and ``letter``,
        whose diameters are in the catalog.
    """

    series: DrillSeries
    first: str
    last: str
    sizes: tuple[float, ...] = ()


@frozen(kw_only=True)
class BoringBar:
    """A boring bar.

    Attributes
    ----------
    smallest_bore, reach
        [mm]
    """

    smallest_bore: float
    reach: float | None = None


@frozen(kw_only=True)
class Saw:
    """A saw.

    Attributes
    ----------
    kerf
        [mm]
    """

    name: str
    kerf: float


@frozen(kw_only=True)
class Crib:
    """Every cutter owned.

    Attributes
    ----------
    drills
        Runs of drills.
    reamers, end_mills, hole_saws
        Diameters, rising [mm].
    taps
        Threads as written: ``1/4-20``, ``M8x1.25``.
    boring_bar
        ``None`` where there is none.
    radius_cutters
        Radii of corner-rounding cutters, rising [mm].
    saws
        In the order preferred.
    """

    drills: tuple[DrillSet, ...] = ()
    reamers: tuple[float, ...] = ()
    taps: tuple[str, ...] = ()
    end_mills: tuple[float, ...] = ()
    boring_bar: BoringBar | None = None
    hole_saws: tuple[float, ...] = ()
    radius_cutters: tuple[float, ...] = ()
    saws: tuple[Saw, ...] = ()
