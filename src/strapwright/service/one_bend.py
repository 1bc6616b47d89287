"""The stroke of a single bend from flags: no job, no blank, no order."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Mapping
from typing import Any, cast

from attrs import frozen

from strapwright.bending import solve_curve, state_at_travel, state_for_free_angle
from strapwright.bending.bar_lot import known_metal
from strapwright.bending.bend_values import BendSetup, StrokeCurve, StrokeState
from strapwright.bending.hydraulics import pressure_for
from strapwright.bending.springback_causes import springback_parts, springback_sentence
from strapwright.catalog import find_material
from strapwright.errors import InputError
from strapwright.quantities import Units, show_angle
from strapwright.shop.bar import Lot
from strapwright.shop.unit_slips import refuse_too_thick
from strapwright.shop_files.quantity_fields import (
    ANGLE,
    FRICTION,
    LENGTH,
    PRESSURE,
    SHARE,
    needed,
    quantity,
)
from strapwright.shop_files.reading_bar import read_bar
from strapwright.shop_files.toml_table import Table
from strapwright.wording.caution_words import ESTIMATE, NEVER_ABOVE, READ_LOADED
from strapwright.wording.figures import Figures
from strapwright.wording.steps.gauge_words import READING
from strapwright.wording.steps.step_words import FORCE, RELEASED, UNDER_LOAD
from strapwright.wording.steps.stop_words import FROM_CONTACT, TRAVEL

POINTS = 100
WIDTH = 88  # columns


@frozen(kw_only=True)
class OneBend:
    """One bend, solved.

    Attributes
    ----------
    gauge
        Reading along the curve, ``None`` without a bore [MPa].
    target, target_gauge
        The bar at the angle or travel asked for, ``None`` where none was.
    relief
        ``None`` where not stated [MPa].
    springback
        By how much and why the classical ratio misses the springback asked for; empty where
        nothing was, and for round rod, for which that ratio is not made.
    """

    units: Units
    curve: StrokeCurve
    gauge: tuple[float, ...] | None
    target: StrokeState | None
    target_gauge: float | None
    relief: float | None
    springback: str

    @property
    def beyond_relief(self) -> bool:
        """Whether the relief valve opens before the state asked for is reached."""
        if self.relief is None or self.gauge is None or self.target is None:
            return False
        on_the_way = [
            reading
            for travel, reading in zip(self.curve.travel.tolist(), self.gauge, strict=True)
            if travel <= self.target.travel
        ]
        return max([*on_the_way, self.target_gauge or 0.0]) > self.relief


def solve_one_bend(flags: Mapping[str, str | None], units: Units | None) -> OneBend:
    """Read flags and solve the bend.

    Parameters
    ----------
    flags
        Flag with its dashes -> as typed, ``None`` where not given.
    units
        Unit system of bare numbers, or ``None``, which refuses them.

    Returns
    -------
    OneBend
        Curve from touch to the jam, and the state asked for.

    Raises
    ------
    InputError
        If a flag cannot be used, or the angle or travel lies past the jam (named with its angle).
    SolverError
        If the solver finds no answer.
    """
    given = {name: text for name, text in flags.items() if text is not None}
    table = Table(data=given, path="", units=units, lines={})
    if "--angle" in given and "--travel" in given:
        raise InputError("--travel", "both --angle and --travel are given", "keep one of them")
    setup = _setup(table)
    curve = solve_curve(setup, points=POINTS)
    angle = quantity(table, "--angle", ANGLE)
    travel = quantity(table, "--travel", LENGTH)
    target = None
    if angle is not None:
        target = state_for_free_angle(setup, math.radians(angle))
    elif travel is not None:
        target = state_at_travel(setup, travel)
    bore = quantity(table, "--bore", LENGTH)
    share = quantity(table, "--efficiency", SHARE) or 1.0

    def gauge(force: float) -> float | None:
        return None if bore is None else pressure_for(force, bore, share)

    readings = [gauge(force) for force in curve.force.tolist()]
    return OneBend(
        # Without a unit system every figure carried its unit; answers then come in inches.
        units=units or "inch",
        curve=curve,
        gauge=None if bore is None else tuple(cast("list[float]", readings)),
        target=target,
        target_gauge=None if target is None else gauge(target.force),
        relief=quantity(table, "--relief", PRESSURE),
        springback="" if target is None else _springback(setup, target),
    )


def _springback(setup: BendSetup, state: StrokeState) -> str:
    if setup.section == "round":
        return ""
    try:
        return springback_sentence(springback_parts(setup, state))
    except InputError:  # the nose is so large that the ratio says nothing
        return ""


def _setup(table: Table) -> BendSetup:
    try:
        bar = read_bar(
            Table(data={"bar": table.data["--bar"]}, path="", units=table.units, lines={})
        )
    except InputError as error:
        raise InputError("--bar", *error.marked, value=error.value) from None
    opening = needed(table, "--opening", LENGTH, "2-1/2 in")
    refuse_too_thick(bar.thickness, opening, table.units, "--bar")
    metal = known_metal(find_material(str(table.data["--material"]), "--material"), Lot())
    return BendSetup(
        section=bar.section,
        thickness=bar.thickness,
        width=bar.width,
        opening=opening,
        nose_radius=needed(table, "--nose-radius", LENGTH, "1/2 in"),
        shoulder_radius=needed(table, "--shoulder-radius", LENGTH, "3/8 in"),
        friction=needed(table, "--friction", FRICTION, "0.1", zero=True),
        flow=metal.flow,
        unloading_ratio=metal.unloading_ratio,
    )


def one_bend_to_data(found: OneBend) -> dict[str, Any]:
    """Turn the answer into plain data: mm, N, MPa, degrees."""
    curve, target = found.curve, found.target
    return {
        "format": 1,
        "travel_mm": curve.travel.tolist(),
        "force_N": curve.force.tolist(),
        "gauge_MPa": None if found.gauge is None else list(found.gauge),
        "loaded_angle_deg": [math.degrees(angle) for angle in curve.loaded_angle.tolist()],
        "free_angle_deg": [math.degrees(angle) for angle in curve.free_angle.tolist()],
        "jam_angle_deg": math.degrees(curve.jam_angle),
        "beyond_relief": found.beyond_relief,
        "target": None
        if target is None
        else {
            "travel_mm": target.travel,
            "force_N": target.force,
            "gauge_MPa": found.target_gauge,
            "loaded_angle_deg": math.degrees(target.loaded_angle),
            "free_angle_deg": math.degrees(target.free_angle),
            "straight_left_mm": target.straight_left,
            "wrapped": target.wrapped,
            "classical_springback": found.springback or None,
        },
        "converged": curve.solved.converged and (target is None or target.solved.converged),
    }


def one_bend_to_text(found: OneBend) -> str:
    """Write the answer for a person: the state asked for, then the stroke in ten lines."""
    show = Figures(units=found.units, reading="decimal" if found.units == "inch" else "mm")
    lines = []
    if found.target is not None:
        target = found.target
        lines += [
            f"{TRAVEL['command']:<12}{show.setting(target.travel)} {FROM_CONTACT}",
            f"{UNDER_LOAD['command']:<12}{show.angle(target.loaded_angle)}; {READ_LOADED}",
            f"{RELEASED['command']:<12}{show.angle(target.free_angle)}",
            f"{FORCE['command']:<12}{show.force(target.force)}",
        ]
        if found.target_gauge is not None:
            lines.append(f"{READING['command']:<12}{show.pressure(found.target_gauge)}")
        if found.beyond_relief:
            lines += textwrap.wrap(
                f"The relief valve opens at {show.pressure_down(found.relief or 0.0)}, so this "
                "press cannot make this bend. Do not raise the relief setting; use a wider opening "
                "or a thinner bar.",
                WIDTH,
            )
        if found.springback:
            lines += textwrap.wrap(
                found.springback,
                WIDTH,
                initial_indent=f"{'Springback':<12}",
                subsequent_indent=" " * 12,
            )
        lines.append("")
    lines.append(show.jam(found.curve.jam_angle, float(found.curve.loaded_angle[-1])))
    lines.append(f"{'travel':>12}{'under load':>12}{'released':>12}{'force':>14}{'gauge':>14}")
    count = found.curve.travel.size - 1
    for row in range(count // 10, count + 1, max(count // 10, 1)):
        reading = "" if found.gauge is None else show.pressure(found.gauge[row])
        lines.append(
            f"{show.setting(float(found.curve.travel[row])):>12}"
            f"{show_angle(float(found.curve.loaded_angle[row])):>12}"
            f"{show_angle(float(found.curve.free_angle[row])):>12}"
            f"{show.force(float(found.curve.force[row])):>14}{reading:>14}"
        )
    limit = ""
    if found.relief is not None:
        limit = f" The relief valve is set to {show.pressure_down(found.relief)}."
    lines += textwrap.wrap(
        f"Model values only, with no allowance for your bar; a plan gives the likely range.{limit} "
        f"{NEVER_ABOVE} {ESTIMATE}",
        WIDTH,
    )
    return "\n".join(lines) + "\n"
