"""Properties of rows of hits, closed shapes and rolled bars, on ideal arcs."""

from __future__ import annotations

from math import cos, isclose, pi, radians, sin, tan

import numpy as np
import pytest
from attrs import evolve
from hypothesis import assume, given
from hypothesis import strategies as st

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.closing_leg import close_shape
from strapwright.blank.hit_spacing import row_of_hits
from strapwright.blank.leg_straights import setbacks
from strapwright.errors import InputError
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import Job
from strapwright.shop.part import Bend, Closing, Measured, Part

T = 6.0
RADIUS = 9.0  # inside, where no row is stated

angles = st.floats(radians(5), radians(170))


@given(
    angle=angles,
    radius=st.floats(20, 2000),
    thickness=st.floats(1, 15),
    tolerance=st.floats(0.3, 5),
)
def test_a_row_turns_as_far_as_its_arc_and_is_as_long_to_second_order(
    angle: float, radius: float, thickness: float, tolerance: float
) -> None:
    row = row_of_hits(angle, radius, thickness, tolerance)
    assert isclose(row.hits * row.angle, angle, rel_tol=1e-12)
    assert row.stand_off <= tolerance * (1 + 1e-9)
    fewer = angle / (row.hits - 1)
    if row.hits > 2:  # no fewer would do: a corner stands off by R (1/cos(delta/2) - 1)
        assert (radius + thickness) * (1 / cos(fewer / 2) - 1) > tolerance
    whole = row.released(None)
    arc = (radius + thickness / 2) * angle
    # tan(x)/x - 1 = x^2/3 + 2 x^4/15 + ..., x half the angle of one hit.
    x = row.angle / 2
    assert 0 <= whole.flat_length / arc - 1 == pytest.approx(tan(x) / x - 1, abs=1e-9)
    # A hit with a rounded corner is shorter than its two tangents by what the corner cuts off.
    nose = 0.1 * radius
    hit = ReleasedBend(
        angle=row.angle,
        thickness=thickness,
        wrap_radius=nose,
        apex_distance=nose * tan(x),
        outside_reach=nose,
        flat_length=nose * row.angle,
    )
    cut = row.hits * nose * (2 * tan(x) - row.angle)
    assert row.released(hit).flat_length == pytest.approx(whole.flat_length - cut)


@given(
    width=st.floats(60, 900),
    height=st.floats(60, 900),
    share=st.floats(0.3, 0.7),
    gap=st.floats(0, 10),
    absorb=st.sampled_from([1, 3, 5]),
    side=st.sampled_from([1, -1]),
    measured=st.sampled_from(["outside", "inside", "centre"]),
    slip=st.floats(-20, 20),
)
def test_a_ring_closes_to_its_gap_whichever_leg_takes_it_up(
    width: float,
    height: float,
    share: float,
    gap: float,
    absorb: int,
    side: int,
    measured: Measured,
    slip: float,
) -> None:
    part = Part(
        name="ring",
        quantity=1,
        bar=Bar(section="flat", thickness=T, width=30.0),
        material="S235JR",
        lot=Lot(),
        measured=measured,
        legs=(share * width, height, width + slip, height, (1 - share) * width),
        bends=(Bend(angle=pi / 2, side=1 if side > 0 else -1),) * 4,
        close=Closing(kind="gap", size=gap, absorb=absorb),
    )
    ends = setbacks(part, None, inside_radii=[RADIUS] * 4)
    assume(min(part.legs) > 50)
    middle = RADIUS + T / 2
    closed = close_shape(part, ends, [middle] * 4)
    assert closed.sideways == pytest.approx(0.0, abs=1e-9)
    assert not closed.corner
    # Walked straight by straight and arc by arc.
    x = y = heading = 0.0
    for i, leg in enumerate(closed.part.legs):
        taken = (ends[0].to(measured)) * ((i > 0) + (i < 4))
        x += (leg - taken) * cos(heading)
        y += (leg - taken) * sin(heading)
        if i < 4:
            turned = heading + side * pi / 2
            x += side * middle * (sin(turned) - sin(heading))
            y -= side * middle * (cos(turned) - cos(heading))
            heading = turned
    assert x == pytest.approx(-gap, abs=1e-9)
    assert y == pytest.approx(0.0, abs=1e-9)
    again = close_shape(closed.part, ends, [middle] * 4)
    assert again.change == pytest.approx(0.0, abs=1e-9)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Parts of round rod without tooling, with bends, rows and rolls."""
    count = draw(st.integers(1, 4))
    bends = tuple(
        Bend(
            angle=draw(angles),
            side=draw(st.sampled_from([1, -1])),
            radius=draw(st.one_of(st.none(), st.floats(30, 300))),
        )
        for _ in range(count)
    )
    rolls = (0.0, *(draw(st.floats(-pi, pi)) for _ in range(count - 1)))
    part = Part(
        name="hanger",
        quantity=1,
        bar=Bar(section="round", thickness=T, width=T),
        material="S235JR",
        lot=Lot(),
        measured=draw(st.sampled_from(["outside", "inside", "centre"])),
        legs=tuple(draw(st.floats(20, 2000)) for _ in range(count + 1)),
        bends=bends,
        rolls=rolls if any(rolls) else (),
        inside_radius=RADIUS,
    )
    return Job(units="metric", part=part)


def laid_flat(job: Job) -> Plan:
    """The plan, or another example where a leg is too short for its bends."""
    try:
        return plan(job)
    except InputError:
        assume(condition=False)
        raise


@given(jobs())
def test_legs_and_allowances_add_up_and_turning_the_part_changes_nothing(job: Job) -> None:
    made = laid_flat(job)
    part, blank = job.part, made.blank
    assert blank is not None
    assert sum(part.legs) - sum(blank.deductions) == pytest.approx(blank.length)
    mirrored = evolve(part, bends=tuple(evolve(b, side=-b.side) for b in part.bends))
    assert plan(evolve(job, part=mirrored)).blank == blank
    assert plan(evolve(job, part=evolve(part, rolls=()))).blank == blank
    # End for end: a roll between two bends stays between them.
    rolls = (0.0, *part.rolls[:0:-1]) if part.rolls else ()
    back = evolve(part, legs=part.legs[::-1], bends=part.bends[::-1], rolls=rolls)
    behind = plan(evolve(job, part=back))
    assert behind.blank is not None
    assert behind.blank.length == pytest.approx(blank.length)
    assert [blank.length - mark.nose for mark in behind.blank.marks[::-1]] == pytest.approx(
        [mark.nose for mark in blank.marks]
    )
    # The same part in space: ends equally far apart.
    apart = [float(np.linalg.norm(one.finished_3d[-1])) for one in (made, behind)]
    assert apart[0] == pytest.approx(apart[1], abs=1e-6 * blank.length)


@given(jobs())
def test_a_rolled_part_is_as_long_in_space_as_in_one_plane(job: Job) -> None:
    made = laid_flat(job)
    flat = np.hypot(*np.diff(made.finished, axis=0).T)
    space = np.linalg.norm(np.diff(made.finished_3d, axis=0), axis=1)
    assert space == pytest.approx(flat, abs=1e-9)
