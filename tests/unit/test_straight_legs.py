"""Legs stated as straight lengths beside an arc: blank, marks, large radii by hits, holes."""

from __future__ import annotations

import math

import numpy as np
import pytest

from strapwright.drawing.leg_lines import find_legs
from strapwright.drawing.part_drawing import part_scene
from strapwright.errors import InputError
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

SADDLE = """\
format = 1
units = "metric"
[part]
name = "piling saddle"
bar = "flat 5 x 40"
material = "S235"
measured = "{measured}"
shape = {shape}
{more}
{tooling}
"""
TOOLING = """\
[tooling]
nose = { shaft = "16", web = { thick = "10", height = "120" } }
shoulders = { radius = "8", opening = "48", depth = "70", height = "110" }
"""


def made(measured: str, shape: str, more: str = "", tooling: str = "") -> Plan:
    text = SADDLE.format(measured=measured, shape=shape, more=more, tooling=tooling)
    return plan(read_job(text), search=False)


def test_a_straight_length_is_shorter_than_an_outside_one_by_the_setback() -> None:
    # Inside radius 20, 5 thick: (20 + 5) tan 45 = 25; at 60 degrees 25 tan 30 = 14.434; past 90,
    # at 120, the outside dimension ends a radius and a thickness past the tangent: 25.
    for angle, setback in ((90, 25.0), (60, 25.0 * math.tan(math.radians(30.0))), (120, 25.0)):
        radius = 'assumed_radius = "20"'
        straight = made("straight", f'["100", "up {angle}", "80"]', radius)
        outside = made(
            "outside", f'["{100 + setback:.9f}", "up {angle}", "{80 + setback:.9f}"]', radius
        )
        assert straight.blank is not None
        assert outside.blank is not None
        assert straight.blank.length == pytest.approx(outside.blank.length, abs=1e-6)
        assert straight.blank.zone(1)[0] == pytest.approx(100.0)
        assert np.allclose(straight.finished[-1], outside.finished[-1], atol=1e-5)


def test_a_large_radius_by_hits_has_its_legs_beside_the_arc() -> None:
    found = made("straight", '["200", "up 90 radius 150", "180"]', "", TOOLING)
    assert found.blank is not None
    (step,) = found.steps
    assert step.hits > 3
    first, last = found.blank.zone(1)
    assert first == pytest.approx(200.0)
    assert found.blank.length - last == pytest.approx(180.0)
    # The mid-line of the arc is (150 + 2.5) pi/2 = 239.55 long, and a polygon about it no shorter.
    assert last - first == pytest.approx(239.55, rel=0.01)
    text = plan_to_text(found)
    assert "mark" in text.lower()
    again = read_job(write_job(found.job)).part
    assert (again.legs, again.measured) == (found.job.part.legs, "straight")
    # Its dimensions are drawn from where the straight ends.
    legs = find_legs(found.job.part, found.finished, found.dimension_points)
    assert [leg.span[1] - leg.span[0] for leg in legs] == pytest.approx([200.0, 180.0], abs=0.01)
    assert part_scene(found).description.count("straight, from bend to bend") == 1


def test_with_tooling_the_straight_ends_where_the_bend_is_marked() -> None:
    found = made("straight", '["100", "up 90", "90", "down 45", "80"]', "", TOOLING)
    assert found.blank is not None
    assert found.blank.zone(1)[0] == pytest.approx(100.0)
    assert found.blank.zone(2)[0] - found.blank.zone(1)[1] == pytest.approx(90.0)
    assert found.blank.length - found.blank.zone(2)[1] == pytest.approx(80.0)
    hole = '[[part.hole]]\nleg = 2\nfrom_bend = 1\ndistance = "45"\ndiameter = "8"'
    holed = made("straight", '["100", "up 90", "90", "down 45", "80"]', hole, TOOLING).blank
    assert holed is not None
    assert holed.holes[0].position - holed.zone(1)[1] == pytest.approx(45.0)


@pytest.mark.parametrize(
    ("shape", "more", "sentence"),
    [
        ('["80", "joggle up 10 over 40", "80"]', "", "the legs are measured straight"),
        ('["?", "up 90", "80"]', 'overall = { width = "90" }', "needs to know the radius"),
    ],
)
def test_what_needs_corners_is_refused(shape: str, more: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        made("straight", shape, more)
