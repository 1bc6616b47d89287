"""Holes that are drilled after bending: by rule or as stated, and where they then do not stand."""

from __future__ import annotations

import pytest
from test_blank_dxf import on, read

from strapwright.errors import InputError
from strapwright.planning.bench_work.work_values import Drilling
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

THICK = 6.0
ANGLE = """\
format = 1
units = "metric"
[part]
name = "pontoon angle"
bar = "flat 6 x 50"
material = "S235"
assumed_radius = "9"
shape = ["120", "up 90", "80"]
{trim}
[[part.hole]]
leg = 1
from_end = "{at}"
diameter = "10"
{drilled}
"""


def made(at: float, drilled: str = "", trim: str = "") -> Plan:
    return plan(read_job(ANGLE.format(at=at, drilled=drilled, trim=trim)))


def bend_begins() -> float:
    blank = made(20.0).blank
    assert blank is not None
    return blank.zone(1)[0]


def codes(plan: Plan) -> set[str]:
    return {one.code for one in plan.findings}


def test_a_hole_nearer_than_two_thicknesses_is_drilled_after_and_one_further_flat() -> None:
    # The edge of a 10 mm hole stands 5 mm nearer than its middle: 2 x 6 + 5 = 17 mm.
    limit = bend_begins() - 2.0 * THICK - 5.0
    flat, after = made(limit - 0.1), made(limit + 0.1)
    assert flat.bench_work == ()
    (work,) = after.bench_work
    assert isinstance(work, Drilling)
    assert work.away == pytest.approx(2.0 * THICK - 0.1)
    assert "hole-near-bend" not in codes(after)
    text = " ".join(plan_to_text(after).split())
    assert "Drill hole 1 now, not in the flat" in text
    assert "nearer than twice the thickness (common practice, no source)" in text
    assert "hole 1:" not in text.split("At the bench")[0]
    assert "hole 1:" in plan_to_text(flat)


def test_what_is_drilled_after_is_no_hole_to_cut_in_the_flat() -> None:
    flat, after = made(20.0), made(20.0, 'drilled = "after bending"')
    assert len(on(read(flat), "HOLES")) == 1
    assert on(read(after), "HOLES") == []
    (said,) = plan_to_data(after)["bench_work"]
    assert (said["kind"], said["distance_mm"]) == ("drill", 20.0)
    assert "common practice" not in said["text"]  # nobody needs a reason for what he asked for
    assert read_job(write_job(after.job)).part.holes == after.job.part.holes


def test_flat_on_purpose_is_warned_of_as_before() -> None:
    near = made(bend_begins() - THICK - 5.0, 'drilled = "flat"')
    assert "hole-near-bend" in codes(near)
    assert near.bench_work == ()
    # One that reaches into the bend is in the wrong place, whenever it is drilled.
    assert "hole-in-bend" in codes(made(bend_begins() - 4.0))


def test_it_is_drilled_once_the_end_is_sawn_off_that_it_is_measured_from() -> None:
    both = made(20.0, 'drilled = "after bending"', 'trim = { end_1 = "12" }')
    assert [type(one).__name__ for one in both.bench_work] == ["Sawing", "Drilling"]
    drilling = both.bench_work[1]
    assert isinstance(drilling, Drilling)
    assert drilling.place.distance == 20.0


def test_another_word_is_refused() -> None:
    with pytest.raises(InputError, match="later"):
        made(20.0, 'drilled = "later"')
