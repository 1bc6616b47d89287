"""How long a proposed tooling takes to make, with the cutters that the crib holds."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from strapwright.catalog.thread_sizes import find_thread
from strapwright.cutting.cut_list import Cut
from strapwright.making.bolt_layout import TAPPED
from strapwright.making.hole_table import bolt_hole, fit_hole, tapped_hole
from strapwright.making.plate_making import SQUARING, make_plate
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import Cutter, HoleSpec, PlateDrawing
from strapwright.proposing.candidate_sizes import Layout, side_bolt
from strapwright.proposing.proposal_values import Choice, HoleUse, NotInCrib
from strapwright.quantities import Units

# Time of making, common practice, no source.
MINUTES_A_CUT = 5.0
CUT_AREA_A_MINUTE = 600.0  # mm2 through steel on a small band saw
MINUTES_A_CLAMPING = 10.0  # two pieces clamped together to be bored as one
MINUTES_A_BORE = 10.0  # to set a boring bar and to measure
MINUTES_ROUND = 60.0  # the way round a cutter that is missing: another machine, a sleeve, or a trip
MINUTES_A_WEB = 20.0  # to bed a shaft on the edge of its web
WELD_A_MINUTE = 15.0  # mm

Time = tuple[float, NotInCrib | None]
_SPOT = 1000.0  # mm, of a piece large enough for any hole; numerical


class MakingTime:
    """Minutes of holes, each kind worked out once."""

    def __init__(self, cutters: Sequence[Cutter], units: Units) -> None:
        self.cutters = tuple(cutters)
        self.units = units
        self.known: dict[tuple[object, ...], Time] = {}

    def hours(self, choice: Choice, layout: Layout, cuts: Sequence[Cut]) -> float:
        """Return the hours of making a choice: sawing, holes, seats and welds.

        Parameters
        ----------
        choice, layout, cuts
            What is made, its sizes and its cut list.
        """
        minutes = sum(time for time, _ in self._holes(choice, layout))
        minutes += _weld_length(choice, layout) / WELD_A_MINUTE
        if choice.held == "web":
            minutes += MINUTES_A_WEB
        for cut in cuts:
            area = cut.stock.thickness * cut.width
            if cut.stock.kind == "shaft":
                area *= math.pi / 4
            minutes += MINUTES_A_CUT + area / CUT_AREA_A_MINUTE
        return minutes / 60

    def ways(self, choice: Choice, layout: Layout) -> tuple[NotInCrib, ...]:
        """Return what the crib has no cutter for, with the way round, each once."""
        found = (way for _, way in self._holes(choice, layout) if way is not None)
        return tuple(dict.fromkeys(found))

    def _holes(self, choice: Choice, layout: Layout) -> list[Time]:
        thick, body = choice.carriers.thickness, choice.body
        times = [self._seats(choice.shoulders.thickness, layout.length, body.material)]
        if choice.held != "web":
            metal = choice.carriers.material
            bore = self._bore(choice.nose.thickness, thick, metal)
            times += [bore] * (2 if choice.held == "both ends" else 1)
            if choice.held == "both ends":
                times.append((MINUTES_A_CLAMPING, None))
        name = side_bolt(body.thickness, self.units) if choice.tied else None
        if name is not None:
            times += [
                *[self._clearance(name, body.thickness, body.material)] * 8,
                *[self._tapped(name, layout.length, body.material)] * 8,
            ]
        return times

    def _bore(self, diameter: float, thickness: float, metal: str) -> Time:
        return self._hole(
            ("nose", "", diameter, thickness, metal),
            lambda x: fit_hole(x, x, diameter, "H7", "nose"),
            across=diameter,
        )

    def _seats(self, diameter: float, length: float, metal: str) -> Time:
        """Bore both seats as one hole on the joint of the two cheeks, clamped face to face."""
        minutes, way = self._hole(
            ("shoulder seats", "", diameter, length, metal),
            lambda x: fit_hole(x, x, diameter, "H11", "shoulders"),
            across=diameter,
        )
        return minutes + MINUTES_A_CLAMPING, way

    def _clearance(self, name: str, thickness: float, metal: str) -> Time:
        bolt = find_thread(name, "side plates").size
        return self._hole(
            ("clearance", bolt, 0.0, thickness, metal),
            lambda x: bolt_hole(x, x, bolt, "normal", "side plates"),
        )

    def _tapped(self, name: str, thickness: float, metal: str) -> Time:
        depth = TAPPED * find_thread(name, "side plates").major
        return self._hole(
            ("thread", name, depth, thickness, metal),
            lambda x: tapped_hole(x, x, name, "side plates", depth=depth),
        )

    def _hole(
        self,
        key: tuple[HoleUse, str, float, float, str],
        made: Callable[[float], HoleSpec],
        *,
        across: float | None = None,
    ) -> Time:
        """Return minutes of a hole and the way round it; ``across`` where no name says its size."""
        if key not in self.known:
            use, size, _, thickness, metal = key
            plate = PlateDrawing(
                name=use, metal=metal_of(metal, MILD), width=_SPOT, height=_SPOT,
                thickness=thickness, holes=(made(_SPOT / 2),),
            )  # fmt: skip
            making = make_plate(plate, self.cutters, units=self.units)
            minutes, way = making.minutes - SQUARING, None
            (group,) = making.groups
            if any(one.cut.role == "bore" for one in group.cuts):
                minutes += MINUTES_A_BORE
            if not group.cuts:
                minutes += MINUTES_ROUND
                way = NotInCrib(use=use, size=size, diameter=across, way=group.making.ways[0])
            self.known[key] = (minutes, way)
        return self.known[key]


def _weld_length(choice: Choice, layout: Layout) -> float:
    """Of all runs [mm]."""
    nose = {
        "both ends": 4 * layout.carrier,
        "one end": 2 * layout.carrier,
        "web": 4 * layout.span,
    }[choice.held]
    return nose + (0.0 if choice.tied else 4 * layout.length)
