"""The press: cylinder, pump, relief and what the machine gives."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

Axis = Literal["down", "up", "level"]


@frozen(kw_only=True)
class Press:
    """A double-acting hydraulic cylinder and what feeds it; ``None`` where not stated.

    Attributes
    ----------
    bore, rod, stroke
        [mm]
    relief
        Relief valve setting [MPa].
    flow
        Pump delivery, powered or by hand [mm3/s].
    efficiency
        Share of the hydraulic force that reaches the nose [-].
    no_load
        What the gauge reads while the ram moves against nothing [MPa].
    give
        Travel the machine loses per newton [mm/N].
    gauge_step
        Smallest division of the gauge [MPa].
    axis
        Which way the ram pushes.
    daylight
        How far the nose stands above the bar when it is laid in [mm].
    columns_apart, column_width
        Clear distance between the columns of the frame across the bar, and their width [mm].
    bed_width
        Of the bed that the shoulders stand on, across the bar [mm].
    """

    bore: float | None = None
    rod: float | None = None
    relief: float | None = None
    stroke: float | None = None
    flow: float | None = None
    efficiency: float = 0.95
    no_load: float = 0.0
    give: float = 0.0
    gauge_step: float | None = None
    axis: Axis = "down"
    daylight: float | None = None
    columns_apart: float | None = None
    column_width: float | None = None
    bed_width: float | None = None
