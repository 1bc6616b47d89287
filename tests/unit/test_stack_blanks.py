"""Bars bent on each other: each has a blank, marks and angles of its own."""

from __future__ import annotations

import io
import math

import ezdxf
import pytest

from page_texts import page_texts
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.service.plan_files import plan_files
from strapwright.sheets.setup_sheet import setup_sheet
from strapwright.sheets.template_sheet import template_pdf
from strapwright.shop_files.reading_job import read_job

JOB = """\
format = 1
units = "metric"

[part]
name = "stacked cleat"
bar = "flat 6 x 40"
material = "S235"
shape = ["90", "up 60", "120", "up 90", "100"]
stacked = 3
{more}
[press]
bore = "90 mm"
relief = "150 bar"
daylight = "300 mm"

[tooling]
nose = {{ shaft = "20", reach = "150", web = {{ thick = "12", height = "130" }}, span = "80" }}
shoulders = {{ radius = "10", opening = "90", height = "200", outer_edge = "60" }}
"""


@pytest.fixture(scope="module")
def stacked() -> Plan:
    return plan(read_job(JOB.format(more="")))


@pytest.fixture(scope="module")
def by_factor() -> Plan:
    return plan(read_job(JOB.format(more='\n[blank]\nmethod = "factor"\nfactor = 0.5\n')))


def rule(radius: float, angle: float, thickness: float) -> float:
    """What a bend takes off two outside legs, with the neutral axis half way [mm].

    Geometry of two legs tangent to an arc, up to 90 deg: twice the outside setback
    (R + T) tan(A / 2), less the arc (R + T / 2) A.
    """
    return 2.0 * (radius + thickness) * math.tan(0.5 * angle) - (radius + 0.5 * thickness) * angle


def test_every_bar_has_a_blank_of_its_own_and_bar_1_has_that_of_the_plan(stacked: Plan) -> None:
    assert [one.bar for one in stacked.stack] == [1, 2, 3]
    assert stacked.blank is not None
    assert stacked.stack[0].blank == stacked.blank
    assert stacked.stack[0].radii == (10.0, 10.0)
    assert stacked.stack[1].radii == (16.0, 16.0)
    assert stacked.stack[2].radii == (22.0, 22.0)
    for one in stacked.stack:
        # No length is lost: what the bends take off the legs is all that is missing.
        legs = sum(stacked.job.part.legs)
        assert one.blank.length == pytest.approx(legs - sum(one.blank.deductions), abs=1e-9)


def test_a_bar_one_thickness_farther_out_is_as_much_shorter_as_its_neutral_radius_says(
    by_factor: Plan,
) -> None:
    # Hand calculation for one bend of 90 deg, both bars at 90: the neutral radius is larger by
    # t = 6 mm, so the arc is longer by 6 x pi / 2 = 9.42 mm, and each of the two outside legs ends
    # 6 x tan 45 = 6 mm sooner: 9.42 - 12 = -2.58 mm.
    assert rule(10.0, math.pi / 2, 6.0) - rule(16.0, math.pi / 2, 6.0) == pytest.approx(
        -2.58, abs=0.005
    )
    for inner, outer in zip(by_factor.stack, by_factor.stack[1:], strict=False):
        expected = sum(
            rule(inside, before, 6.0) - rule(outside, after, 6.0)
            for inside, before, outside, after in zip(
                inner.radii, inner.free, outer.radii, outer.free, strict=True
            )
        )
        found = outer.blank.length - inner.blank.length
        # The bar follows the nose to a few tenths of a millimetre, of which a bend takes 0.43.
        assert found == pytest.approx(expected, abs=0.2)
        assert found < -2.0


def test_marks_of_all_bars_come_under_the_nose_together(by_factor: Plan) -> None:
    inner, outer = by_factor.stack[:2]
    for bend in (1, 2):
        (a,), (b,) = inner.blank.marks_of(bend), outer.blank.marks_of(bend)
        # Up to the middle of bend 1 half of what that bend takes off is missing, up to the middle
        # of bend 2 all of bend 1 and half of bend 2.
        missing = [
            rule(r1, a1, 6.0) - rule(r2, a2, 6.0)
            for r1, a1, r2, a2 in zip(inner.radii, inner.free, outer.radii, outer.free, strict=True)
        ]
        expected = 0.5 * missing[0] if bend == 1 else missing[0] + 0.5 * missing[1]
        assert b.nose - a.nose == pytest.approx(expected, abs=0.2)


def test_angles_of_the_bars_are_those_of_the_finding(stacked: Plan) -> None:
    assert stacked.stack[0].free == pytest.approx((math.radians(60), math.radians(90)))
    for one in stacked.stack[1:]:
        assert all(
            free < inner for free, inner in zip(one.free, stacked.stack[0].free, strict=True)
        )


def test_command_data_sheet_strips_and_files_name_every_bar(stacked: Plan) -> None:
    text = plan_to_text(stacked)
    for words in (
        "bar 1 (at the nose): cut",
        "bar 2: cut",
        "bar 3: cut",
        "bar 1 is at the nose",
        "blank of bar 1",
    ):
        assert words in text
    bars = plan_to_data(stacked)["stack"]
    assert [one["bar"] for one in bars] == [1, 2, 3]
    assert [one["blank"]["length_mm"] for one in bars] == [
        one.blank.length for one in stacked.stack
    ]
    sheet = "\n".join(page_texts(setup_sheet(stacked)))
    strips = page_texts(template_pdf(stacked))
    for words in ("Bar 1 (at the nose)", "Bar 2", "Bar 3"):
        assert words in sheet
        assert any(f"{words}, cut to" in page for page in strips), words
    files = plan_files(stacked)
    for bar in (2, 3):
        drawn = ezdxf.read(io.StringIO(files[f"blank-bar-{bar}.dxf"].decode()))  # type: ignore[attr-defined]
        said = [one.dxf.text for one in drawn.modelspace().query("TEXT")]
        assert any(f"bar {bar}" in one for one in said)
    assert "blank-bar-1.dxf" not in files


def test_a_single_bar_has_no_stack() -> None:
    found = plan(read_job(JOB.format(more="").replace("stacked = 3", "")))
    assert found.stack == ()
    assert plan_to_data(found)["stack"] == []
    assert "Each bar of the stack" not in plan_to_text(found)
