"""Blocks as shoulders: a flat or square bar standing up on a base, its inner top edge rounded."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.making.shop_lengths import sixteenth
from strapwright.proposing.candidate_sizes import widest_bars
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack, Stock

# Radius of the edge in thicknesses of the bar: sharp enough to be worked with a file and a radius
# gauge, and blunt enough not to mark; common practice, no source.
EDGES = (1.0, 2.0)
# Edge radii of thickness at least: the push meets the inner half; common practice, no source.
BACK = 2.0


def edges(jobs: Sequence[Job]) -> tuple[float, ...]:
    """Radii of an edge to try [mm]: sixteenths of an inch or whole mm, which a gauge is had for.

    Parameters
    ----------
    jobs
        The parts; the thickest bar counts.
    """
    _, thickness = widest_bars(jobs)
    return tuple(sixteenth(one * thickness, jobs[0].units) for one in EDGES)


def bars_for(rack: Rack, edge: float) -> tuple[Stock, ...]:
    """Flat and square bars that are thick enough for an edge, in the order of the rack.

    Parameters
    ----------
    rack
        What there is.
    edge
        Radius [mm].
    """
    return tuple(one for one in rack.stock if carries_edge(one, edge))


def carries_edge(bar: Stock, edge: float) -> bool:
    """Whether a flat or square bar is thick enough for an edge of a radius [mm]."""
    return bar.kind == "flat" and bar.thickness >= BACK * edge - 1e-6
