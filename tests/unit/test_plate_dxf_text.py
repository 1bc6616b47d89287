"""What the text of a plate's file says is where its geometry is, whatever the datum corner."""

from __future__ import annotations

import io
import re

import ezdxf
import pytest

from strapwright.drawing.plate_dxf import plate_dxf
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.hole_table import fit_hole, plain_hole, tapped_hole
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import CORNERS, Corner, PlateDrawing
from strapwright.quantities import Units

_PLACE = re.compile(r"^(\w+): X (-?[\d.]+) Y (-?[\d.]+) (in|mm), (.*)$")


@pytest.mark.parametrize("units", ["inch", "metric"])
@pytest.mark.parametrize("corner", CORNERS)
def test_every_place_in_words_is_the_centre_of_a_circle(corner: Corner, units: Units) -> None:
    plate = PlateDrawing(
        name="foot", metal="low carbon steel", width=152.4, height=88.9, thickness=12.7,
        corner=corner,
        holes=(
            plain_hole(25.4, 19.05, 6.35, "w"),
            fit_hole(76.2, 44.45, 19.05, "H7", "w"),
            tapped_hole(127.0, 63.5, "3/8-16", "w"),
        ),
    )  # fmt: skip
    made = make_plate(plate, usual_cutters(), units=units)
    document = ezdxf.read(io.StringIO(plate_dxf(made).decode()))  # type: ignore[attr-defined]
    space = document.modelspace()
    points = {
        (round(one.dxf.location.x, 3), round(one.dxf.location.y, 3)) for one in space.query("POINT")
    }
    told = [m for one in space.query("TEXT") if (m := _PLACE.match(one.dxf.text))]
    assert len(told) == len(points) == 3
    unit = "in" if units == "inch" else "mm"
    tolerance = 0.0006 if units == "inch" else 0.006
    for label, x, y, said, _ in (one.groups() for one in told):
        assert said == unit
        near = [p for p in points if abs(p[0] - float(x)) < tolerance]
        assert any(abs(p[1] - float(y)) < tolerance for p in near), label
        # Into the plate is to the left from a right corner, and down from an upper one.
        assert (float(x) < 0) == corner.endswith("right")
        assert (float(y) < 0) == corner.startswith("upper")
    other = "mm" if unit == "in" else r"\d in\b"
    assert not [one for one in space.query("TEXT") if re.search(rf"\b{other}\b", one.dxf.text)]
