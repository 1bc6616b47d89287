"""Properties of making: places in the DXF, the last cutter's size, the machine's limits."""

from __future__ import annotations

import io
import math
from typing import Literal

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strapwright.catalog.cutting_speeds import METALS
from strapwright.catalog.thread_sizes import find_thread
from strapwright.drawing.plate_dxf import plate_dxf
from strapwright.making.crib_cutters import cutters_of, usual_cutters
from strapwright.making.cutters import make_hole
from strapwright.making.hole_table import bolt_hole, fit_hole, hole_table, plain_hole, tapped_hole
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import CORNERS, HoleSpec, Machine, PlateDrawing
from strapwright.shop.crib import BoringBar, Crib, DrillSet

SIZES = st.floats(3.0, 30.0).map(lambda one: round(one, 3))


@st.composite
def holes(draw: st.DrawFn, x: float = 0.0, y: float = 0.0) -> HoleSpec:
    kind = draw(st.sampled_from(["plain", "fit", "bolt", "tapped"]))
    if kind == "plain":
        return plain_hole(x, y, draw(SIZES), "w")
    if kind == "fit":
        grade = draw(st.sampled_from(["H6", "H7", "H8", "H9", "H11", "F7", "G7", "D10", "JS7"]))
        return fit_hole(x, y, draw(SIZES), grade, "w")
    if kind == "bolt":
        size = draw(st.sampled_from(["#10", "1/4", "3/8", "1/2", "M5", "M8", "M12", "M20"]))
        return bolt_hole(x, y, size, draw(st.sampled_from(["close", "normal", "loose"])), "w")
    name = draw(st.sampled_from(["#10-24", "1/4-20", "3/8-16", "M6", "M10", "M12x1.25"]))
    return tapped_hole(x, y, name, "w", depth=draw(st.sampled_from([None, 8.0, 15.0])))


@st.composite
def cribs(draw: st.DrawFn) -> Crib:
    few = st.lists(SIZES, max_size=12).map(lambda one: tuple(sorted(set(one))))
    sizes: list[tuple[float, ...]] = [(one,) for one in draw(few) or (6.0,)]
    if draw(st.booleans()):  # a whole box beside them
        sizes.append(tuple(n / 2 for n in range(2, 27)))
    bar = draw(st.none() | st.floats(6.0, 25.0))
    return Crib(
        drills=tuple(DrillSet(series="metric", first="", last="", sizes=one) for one in sizes),
        reamers=draw(few),
        end_mills=draw(few),
        hole_saws=draw(few),
        taps=tuple(draw(st.sets(st.sampled_from(["1/4-20", "3/8-16", "M6", "M10"])))),
        boring_bar=None if bar is None else BoringBar(smallest_bore=bar),
    )  # fmt: skip


@given(hole=holes(), crib=cribs(), thickness=st.floats(4.0, 40.0))
def test_the_last_cutter_leaves_the_diameter_within_its_limits(
    hole: HoleSpec, crib: Crib, thickness: float
) -> None:
    made = make_hole(hole, cutters_of(crib), thickness=thickness, where="w")
    if not made.cuts:
        assert made.ways
        return
    last = made.cuts[-1]
    assert hole.least - 1e-9 <= last.least <= last.most <= hole.most + 1e-9
    # Each cutter finds metal to cut: what stood before it is smaller than what it leaves.
    for before, after in zip(made.cuts, made.cuts[1:], strict=False):
        assert before.most < after.most + 1e-9
    if hole.kind == "tapped":
        thread = find_thread(hole.thread, "w")
        assert made.percent == pytest.approx(thread.percent(made.cuts[-2].cutter.diameter))
        assert made.percent is not None
        assert 55 <= made.percent <= 85
        assert last.cutter.thread == thread.name


def a_plate(
    many: list[HoleSpec], corner: str = "lower left", metal: str = METALS[0]
) -> PlateDrawing:
    return PlateDrawing(
        name="plate", metal=metal, width=400.0, height=80.0, thickness=12.0, holes=tuple(many),
        corner=next(one for one in CORNERS if one == corner),
    )  # fmt: skip


@st.composite
def plates(draw: st.DrawFn) -> PlateDrawing:
    """Up to four holes well apart, anywhere within their stretch of the plate."""
    many = [
        draw(holes(x=100 * n + 50 + draw(st.floats(-15, 15)), y=draw(st.floats(35, 45))))
        for n in range(draw(st.integers(1, 4)))
    ]
    shallow = [one for one in many if one.depth is None or one.depth < 12.0]
    return a_plate(
        shallow or many[:0], draw(st.sampled_from(CORNERS)), draw(st.sampled_from(METALS))
    )


@settings(max_examples=25, deadline=None)
@given(plate=plates(), units=st.sampled_from(["inch", "metric"]))
def test_places_read_back_from_the_dxf_to_a_micrometre(
    plate: PlateDrawing, units: Literal["inch", "metric"]
) -> None:
    made = make_plate(plate, usual_cutters(), units=units)
    raw = plate_dxf(made)
    assert raw == plate_dxf(made)
    document = ezdxf.read(io.StringIO(raw.decode("utf-8")))  # type: ignore[attr-defined]
    auditor = document.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert document.header["$INSUNITS"] == {"inch": 1, "metric": 4}[units]
    per = 25.4 if units == "inch" else 1.0
    points = [one.dxf.location for one in document.modelspace().query("POINT")]
    found = sorted((abs(one.x) * per, abs(one.y) * per) for one in points)
    said = sorted((row.x, row.y) for row in hole_table(plate))
    assert len(found) == len(said) == len(plate.holes)
    for one, other in zip(found, said, strict=True):
        assert one == pytest.approx(other, abs=1e-3)
    # Signs follow the corner: places lie in the plate, which the outline says.
    outline = document.modelspace().query("LWPOLYLINE")[0].get_points("xy")
    for point in points:
        assert min(x for x, _ in outline) < point.x < max(x for x, _ in outline)
        assert min(y for _, y in outline) < point.y < max(y for _, y in outline)
    circles = document.modelspace().query('CIRCLE[layer=="HOLES-DRILLED"]')
    plain = sorted(one.diameter for one in plate.holes if one.kind in ("plain", "clearance"))
    assert sorted(2 * one.dxf.radius * per for one in circles) == pytest.approx(plain, abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(
    plate=plates(),
    low=st.floats(20.0, 400.0),
    times=st.floats(1.5, 20.0),
    power=st.floats(100.0, 5000.0),
)
def test_no_spindle_runs_beyond_its_machine(
    plate: PlateDrawing, low: float, times: float, power: float
) -> None:
    machine = Machine(rpm_low=low, rpm_high=low * times, power=power)
    made = make_plate(plate, usual_cutters(), units="metric", machine=machine)
    for group in made.groups:
        for one in group.cuts:
            at = one.setting
            assert low <= at.rpm <= low * times
            assert at.minutes > 0
            assert math.isfinite(at.thrust)
            if not at.notes:
                assert at.power <= 0.8 * power + 1e-6
