"""The blank as DXF, read back: places, layers, units, dimensions that say what they measure."""

from __future__ import annotations

import io
import re
from typing import Any, Literal

import ezdxf
import pytest
from attrs import evolve
from plan_fixture import fender_hanger, long_plan, make_plan

from strapwright.blank.blank_values import SawLine, TwistedRun
from strapwright.drawing.blank_dxf import LAYERS, STYLE, blank_dxf
from strapwright.errors import InputError
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.shop.part import Hole

UNITS: dict[Literal["inch", "metric"], tuple[int, int, float]] = {
    # $INSUNITS and $MEASUREMENT as the DXF reference lists them; mm in a unit.
    "inch": (1, 0, 25.4),
    "metric": (4, 1, 1.0),
}


def read(plan: Plan) -> Any:
    document = ezdxf.read(io.StringIO(blank_dxf(plan).decode("utf-8")))  # type: ignore[attr-defined]
    auditor = document.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    return document


def with_holes(units: Literal["inch", "metric"]) -> Plan:
    holes = (
        Hole(leg=1, from_bend=None, distance=25.4, diameter=14.2875),
        Hole(leg=4, from_bend=3, distance=44.45, diameter=9.525, across=12.0),
        Hole(leg=4, from_bend=3, distance=30.0, diameter=5.0, across=-12.0),
    )
    return make_plan(units, part=evolve(fender_hanger(), holes=holes))


def on(document: Any, layer: str) -> list[Any]:
    return [one for one in document.modelspace() if one.dxf.layer == layer]


def upright(document: Any, layer: str, size: float) -> list[float]:
    found = []
    for line in on(document, layer):
        assert line.dxf.start.x == pytest.approx(line.dxf.end.x, abs=1e-9)
        found.append(line.dxf.start.x * size)
    return sorted(found)


@pytest.mark.parametrize("units", UNITS)
def test_places_read_back_to_a_micrometre(units: Literal["inch", "metric"]) -> None:
    plan = with_holes(units)
    code, measurement, size = UNITS[units]
    document = read(plan)
    assert document.acad_release == "R2010"
    assert document.header["$INSUNITS"] == code
    assert document.header["$MEASUREMENT"] == measurement
    data = plan_to_data(plan)["blank"]
    length, width = data["length_mm"], plan.job.part.bar.width
    (outline,) = on(document, "OUTLINE")
    assert outline.closed
    corners = sorted((x * size, y * size) for x, y, *_ in outline.get_points())
    assert corners == [
        pytest.approx(one, abs=1e-3) for one in ((0, 0), (0, width), (length, 0), (length, width))
    ]
    marks = data["marks"]
    assert upright(document, "BEND-MIDDLE", size) == pytest.approx(
        sorted(mark["nose_mm"] for mark in marks), abs=1e-3
    )
    assert upright(document, "TANGENTS", size) == pytest.approx(
        sorted(at for mark in marks for at in mark["tangent_mm"]), abs=1e-3
    )
    assert upright(document, "SIGHT", size) == pytest.approx(
        sorted(mark["sight_mm"] for mark in marks), abs=1e-3
    )
    holes = sorted(
        (one.dxf.center.x * size, one.dxf.center.y * size, one.dxf.radius * 2 * size)
        for one in on(document, "HOLES")
    )
    assert holes == [
        pytest.approx(one, abs=1e-3)
        for one in sorted(
            (hole["position_mm"], width / 2 + hole["across_mm"], hole["diameter_mm"])
            for hole in data["holes"]
        )
    ]


@pytest.mark.parametrize("units", UNITS)
def test_dimensions_say_the_length_they_measure(units: Literal["inch", "metric"]) -> None:
    plan = with_holes(units)
    size = UNITS[units][2]
    document = read(plan)
    style = document.dimstyles.get(STYLE)
    assert style.dxf.dimlfac == 1.0
    assert style.dxf.dimscale == 1.0
    said, measured = [], []
    for dimension in on(document, "DIMENSIONS"):
        assert dimension.dxf.dimstyle == STYLE
        (text,) = [one.text for one in dimension.virtual_entities() if one.dxftype() == "MTEXT"]
        said.append(float(text))
        measured.append(dimension.get_measurement())
    decimals = 3 if units == "inch" else 2
    assert said == pytest.approx(measured, abs=0.501 * 10**-decimals)
    assert plan.blank is not None
    wanted = [plan.blank.length, plan.job.part.bar.width]
    wanted += [mark.nose for mark in plan.blank.marks]
    wanted += [hole.position for hole in plan.blank.holes]
    wanted += [25.4 + hole.across for hole in plan.blank.holes if hole.across]
    assert sorted(measured) == pytest.approx(sorted(one / size for one in wanted), abs=1e-6)


@pytest.mark.parametrize("units", UNITS)
def test_words_name_unit_bends_and_ends(units: Literal["inch", "metric"]) -> None:
    document = read(with_holes(units))
    texts = [one.dxf.text for one in on(document, "TEXT")]
    unit = "inches" if units == "inch" else "millimetres"
    assert any(one.startswith(f"Units: {unit}.") for one in texts)
    for wanted in ("1 up 90%%d, on top", "2 down 45%%d, on the bottom", "END 1", "END 2"):
        assert wanted in texts


def test_layers_are_by_purpose_and_every_entity_is_on_one() -> None:
    long = long_plan()
    assert long.blank is not None
    saws = (SawLine(end=2, position=long.blank.length - 6.0, length=6.0),)
    twists = (TwistedRun(leg=1, begin=20.0, end=60.0),)
    document = read(evolve(long, blank=evolve(long.blank, saws=saws, twists=twists)))
    used = {one.dxf.layer for one in document.modelspace()}
    assert used == set(LAYERS)
    for name, (colour, line_type) in LAYERS.items():
        layer = document.layers.get(name)
        assert (layer.color, layer.dxf.linetype.upper()) == (colour, line_type)


def test_the_same_plan_gives_the_same_bytes_without_a_date() -> None:
    plan = make_plan()
    written = blank_dxf(plan)
    assert blank_dxf(plan) == written
    # Julian dates of today would begin with 246; a fixed one lies in the past.
    created = re.search(rb"\$TDCREATE\s+40\s+(\d+)", written)
    assert created is not None
    assert int(created[1]) < 2460000


def test_a_name_cannot_smuggle_codes_in() -> None:
    part = evolve(fender_hanger(), name="hook %%c 50 %%% Ø Überbreite")
    texts = [one.dxf.text for one in on(read(make_plan(part=part)), "TEXT")]
    (named,) = [one for one in texts if one.startswith("hook")]
    assert "%%" not in named
    assert "Ø Überbreite" in named


def test_without_a_blank_it_says_what_is_missing() -> None:
    with pytest.raises(InputError, match="there is no blank to draw; give an inside radius"):
        blank_dxf(evolve(make_plan(), blank=None))
