"""Hours that making a candidate takes at least, before it is drawn."""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence

from attrs import evolve

from strapwright.catalog.thread_sizes import find_thread
from strapwright.cutting.cut_list import Cut
from strapwright.errors import InputError
from strapwright.making.assembly.keepers import with_keepers
from strapwright.making.bolt_layout import TAPPED
from strapwright.making.edges.rounded_edges import round_edge
from strapwright.making.hole_table import bolt_hole, fit_hole, tapped_hole
from strapwright.making.making_hours import (
    CUT_AREA_A_MINUTE,
    MINUTES_A_CLAMPING,
    MINUTES_A_CUT,
    MINUTES_A_WEB,
    SHAFT_MINUTES,
    WELD_A_MINUTE,
    plate_minutes,
)
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_making import SQUARING, make_plate
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import Cutter, PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import round_up
from strapwright.proposing.candidate_sizes import CUT_STEP, Layout, below_nose, side_bolt
from strapwright.proposing.proposal_values import Choice
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM

_APART = 100.0  # mm between holes of which the places do not matter (numerical)
# Noses of reach, past which more of it changes no hole of a carrier (numerical).
_FAR = 3.0


class LeastMaking:
    """Counts hours before drawing; holes alike are worked out once.

    Parameters
    ----------
    units
        Of the first job.
    cutters
        Of the crib.
    """

    def __init__(self, units: Units, cutters: Sequence[Cutter]) -> None:
        self.units = units
        self.cutters = tuple(cutters)
        self._known: dict[Hashable, float] = {}

    def hours(self, choice: Choice, layout: Layout, cuts: Sequence[Cut], reach: float) -> float:
        """Return hours that making a choice takes at least.

        Parameters
        ----------
        choice, layout, cuts
            What is made, its sizes and its cut list.
        reach
            Of the nose [mm].
        """
        minutes = sum(_sawn(cut) for cut in cuts)
        welds = {
            "both ends": 4 * layout.carrier, "one end": 2 * layout.carrier, "web": 4 * layout.span,
        }  # fmt: skip
        nose_welds = 0.0 if choice.kept else welds[choice.held]
        minutes += (nose_welds + (0.0 if choice.tied else 4 * layout.length)) / (WELD_A_MINUTE)
        if choice.held == "web":
            minutes += MINUTES_A_WEB
        else:
            minutes += self._carriers(choice, layout, reach)
        if choice.tied:
            minutes += self._side_plates(choice)
        if choice.edge:
            edge = round_edge(choice.edge, layout.length, self.cutters)
            return (minutes + 2 * edge.minutes) / 60
        return (minutes + self._cheeks(choice, layout)) / 60

    def _carriers(self, choice: Choice, layout: Layout, reach: float) -> float:
        """Bores of the carriers with what keeps the nose in them [min]."""
        nose, plate = choice.nose.thickness, choice.carriers
        reach = min(reach, _FAR * nose)
        key = (nose, plate.thickness, plate.material, choice.held, layout.carrier, reach)
        if key not in self._known:
            count = 2 if choice.held == "both ends" else 1
            about = NoseLayout(
                shaft=nose, span=layout.span, carrier=plate.thickness, width=layout.carrier,
                centre=reach - nose / 2, count=count, below=below_nose(nose, self.units),
            )  # fmt: skip
            low = about.height - about.centre
            bore = fit_hole(about.width / 2, low, nose, "H7", "nose carrier", purpose="nose")
            face = PlateDrawing(
                name="nose carrier", piece="nose carrier", metal=metal_of(plate.material, MILD),
                width=about.width, height=about.height, thickness=about.carrier, holes=(bore,),
                quantity=count,
            )  # fmt: skip
            minutes = MINUTES_A_CLAMPING if count > 1 else 0.0
            self._known[key] = minutes + self._kept((face,), (), about)
        return self._known[key]

    def _cheeks(self, choice: Choice, layout: Layout) -> float:
        """Seats in both cheeks, clamped together, with the screws that keep the rounds [min]."""
        radius, body = choice.radius, choice.body
        key = (radius, body.thickness, body.material, layout.length)
        if key not in self._known:
            metal, tall = metal_of(body.material, MILD), max(layout.tall, 3 * radius)
            seat = fit_hole(
                body.thickness, tall - radius, 2 * radius, "H11", "cheek", purpose="both seats"
            )
            pair = PlateDrawing(
                name="cheeks", piece="pair of cheeks", metal=metal,
                width=2 * body.thickness, height=tall, thickness=layout.length, holes=(seat,),
                joint=True,
            )  # fmt: skip
            face = PlateDrawing(
                name="cheek", piece="cheek", metal=metal, width=layout.length, height=tall,
                thickness=body.thickness, holes=(), quantity=2, seat=radius,
            )  # fmt: skip
            round_ = ShaftDrawing(
                name="shoulder round", metal=MILD, diameter=2 * radius, length=layout.length,
                quantity=2,
            )  # fmt: skip
            about = NoseLayout(
                shaft=0.0, span=layout.span, carrier=0.0, width=0.0, centre=0.0, count=0, below=0.0
            )
            self._known[key] = self._kept((pair, face), (round_,), about)
        return self._known[key]

    def _side_plates(self, choice: Choice) -> float:
        """Threads in both ends of both cheeks, and the holes of both side plates [min]."""
        body = choice.body
        key = ("side plates", body.thickness, body.material)
        name = side_bolt(body.thickness, self.units)
        if name is not None and key not in self._known:
            thread = find_thread(name, "side plates")
            deep = round_up(body.thickness + TAPPED * thread.major, self.units) - body.thickness
            # Two bolts to each end of a cheek; where they are changes no minutes.
            places = ((_APART, _APART), (2 * _APART, _APART))
            holed = (*places, *((x, y + _APART) for x, y in places))
            face = PlateDrawing(
                name="side plate", piece="side plate", metal=metal_of(body.material, MILD),
                width=3 * _APART, height=3 * _APART, thickness=body.thickness, quantity=2,
                holes=tuple(
                    bolt_hole(x, y, thread.size, "normal", "side plate") for x, y in holed
                ),
            )  # fmt: skip
            end = evolve(
                face,
                quantity=4,
                thickness=3 * _APART,
                holes=tuple(
                    tapped_hole(x, y, thread.name, "cheek", depth=deep + 2 * thread.pitch)
                    for x, y in places
                ),
            )
            self._known[key] = sum(one.quantity * self._minutes(one) for one in (face, end))
        return self._known.get(key, 0.0)

    def _kept(
        self, plates: Sequence[PlateDrawing], shafts: Sequence[ShaftDrawing], about: NoseLayout
    ) -> float:
        """Holes of pieces that are sawn already, and everything for what keeps the rounds [min]."""
        kept = with_keepers(plates, shafts, about, drawable=False, units=self.units)
        return sum(one.quantity * self._minutes(one) for one in kept.plates)

    def _minutes(self, plate: PlateDrawing) -> float:
        """Of one plate [min]; 0 where it cannot be made, which its drawing then finds."""
        try:
            return plate_minutes(make_plate(plate, self.cutters, units=self.units))
        except InputError:
            if not self.cutters:
                raise
            return 0.0


def _sawn(cut: Cut) -> float:
    """Of one piece of a cut list, before its holes [min]."""
    if cut.stock.kind == "shaft":
        return (
            SHAFT_MINUTES + MINUTES_A_CUT + math.pi * cut.stock.thickness**2 / 4 / CUT_AREA_A_MINUTE
        )
    # Drawings round a plate up by less than its cut list has over.
    across = max(min(cut.width, cut.length) - CUT_STEP - INCH_MM / 16, 0.0)
    return SQUARING + MINUTES_A_CUT + cut.stock.thickness * across / CUT_AREA_A_MINUTE
