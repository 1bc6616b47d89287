"""Properties of the blank.

The finished part is measured here on its own geometry: a bend is a run of arcs, its corner is
found by crossing two lines, its farthest point by walking round to where it stands square to
the leg.  None of the setback formulas under test are used to state a part.
"""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest
from attrs import evolve, frozen
from hypothesis import assume, given
from hypothesis import strategies as st

from strapwright.bending.bend_values import ReleasedBend
from strapwright.blank.allowance_methods import arc_allowance
from strapwright.blank.blank_values import Blank
from strapwright.blank.flat_layout import METHODS, lay_out
from strapwright.blank.leg_straights import straights
from strapwright.blank.length_band import length_band
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import BlankMethod, BlankSettings
from strapwright.shop.part import Bend, Hole, Measured, Part

TABLES = tuple(method for method in METHODS if method != "strain")
MEASURED: tuple[Measured, ...] = ("outside", "inside", "centre")
FACTOR = 0.4
ROUNDING = 1e-6  # mm; crossing two lines at 1 deg loses about six digits


@frozen(kw_only=True)
class Shape:
    """One finished part: straights, bends as (turn, mid-line radius) runs, thickness."""

    thickness: float
    straights: tuple[float, ...]
    bends: tuple[tuple[tuple[float, float], ...], ...]
    sides: tuple[int, ...]

    def angles(self) -> list[float]:
        return [sum(turn for turn, _ in runs) for runs in self.bends]

    def radii(self) -> list[float]:
        return [min(radius for _, radius in runs) - self.thickness / 2 for runs in self.bends]


def walk(runs: tuple[tuple[float, float], ...], until: float) -> tuple[float, float]:
    """Where the mid-line is once it has turned by ``until``, starting at 0, 0 along x."""
    x = y = heading = 0.0
    for turn, radius in runs:
        to = min(heading + turn, until)
        x += radius * (sin(to) - sin(heading))
        y += radius * (cos(heading) - cos(to))
        heading = to
    return x, y


def beyond(runs: tuple[tuple[float, float], ...], offset: float) -> float:
    """How far a leg's dimension runs past its straight, on a line ``offset`` outside the middle."""
    angle = sum(turn for turn, _ in runs)
    if angle > pi / 2:
        return walk(runs, pi / 2)[0] + offset
    # Leg 1's line is y = -offset; leg 2's runs through its start, moved outwards, at ``angle``.
    x, y = walk(runs, angle)
    x, y = x + offset * sin(angle), y - offset * cos(angle)
    return x + (-offset - y) * cos(angle) / sin(angle)


def stated(shape: Shape, measured: Measured, holes: tuple[Hole, ...] = ()) -> Part:
    half = {"outside": 0.5, "inside": -0.5, "centre": 0.0}[measured] * shape.thickness
    ends = [0.0, *(beyond(runs, half) for runs in shape.bends), 0.0]
    return Part(
        name="cleat",
        quantity=1,
        bar=Bar(section="flat", thickness=shape.thickness, width=50.0),
        material="A36 hot rolled",
        lot=Lot(),
        measured=measured,
        legs=tuple(straight + ends[i] + ends[i + 1] for i, straight in enumerate(shape.straights)),
        bends=tuple(
            Bend(angle=angle, side=1 if side > 0 else -1)
            for angle, side in zip(shape.angles(), shape.sides, strict=True)
        ),
        holes=holes,
    )


def released(shape: Shape) -> list[ReleasedBend]:
    """What a stroke solver would say of the shape; 1 % stretched in the flat."""
    return [
        ReleasedBend(
            angle=angle,
            thickness=shape.thickness,
            wrap_radius=radius,
            apex_distance=beyond(runs, 0.0) if angle <= pi / 2 else 0.0,
            outside_reach=beyond(runs, shape.thickness / 2) if angle > pi / 2 else 0.0,
            flat_length=0.99 * sum(turn * r for turn, r in runs),
        )
        for runs, angle, radius in zip(shape.bends, shape.angles(), shape.radii(), strict=True)
    ]


def develop(shape: Shape, method: BlankMethod, part: Part) -> Blank:
    return lay_out(
        part,
        released(shape),
        BlankSettings(method=method, factor=FACTOR),
        inside_radii=shape.radii(),
        sight_offset=7.0,
    )


lengths = st.floats(0.01, 400.0)
angles = st.one_of(
    st.floats(radians(1), radians(175)), st.sampled_from([pi / 2, pi / 12, radians(165)])
)


@st.composite
def shapes(draw: st.DrawFn, *, arcs: bool = True) -> Shape:
    thickness = draw(st.floats(1.0, 20.0))
    count = draw(st.integers(1, 4))
    bends = []
    for _ in range(count):
        angle = draw(angles)
        radius = draw(st.floats(0.0, 60.0)) + thickness / 2
        if arcs:
            bends.append(((angle, radius),))
        else:  # tight in the middle and slack on both sides, as a free bend is
            slack, wider = draw(st.floats(0.05, 0.4)), draw(st.floats(1.2, 5.0))
            side = (slack * angle, wider * radius)
            bends.append((side, (angle - 2 * side[0], radius), side))
    straights_ = tuple(draw(st.lists(lengths, min_size=count + 1, max_size=count + 1)))
    sides = tuple(draw(st.lists(st.sampled_from([1, -1]), min_size=count, max_size=count)))
    return Shape(thickness=thickness, straights=straights_, bends=tuple(bends), sides=sides)


def agree(left: Blank, right: Blank) -> None:
    assert left.length == pytest.approx(right.length, abs=ROUNDING)
    assert left.allowances == pytest.approx(right.allowances, abs=ROUNDING)
    for one, other in zip(left.marks, right.marks, strict=True):
        assert one.nose == pytest.approx(other.nose, abs=ROUNDING)
        assert one.sight == pytest.approx(other.sight, abs=ROUNDING)
        assert one.tangents == pytest.approx(other.tangents, abs=ROUNDING)


@given(shapes(), st.sampled_from(TABLES))
def test_a_part_gives_one_blank_however_it_is_measured(shape: Shape, method: BlankMethod) -> None:
    outside, inside, centre = (
        develop(shape, method, stated(shape, measured)) for measured in MEASURED
    )
    agree(outside, inside)
    agree(outside, centre)


@given(shapes(arcs=False))
def test_a_solved_part_gives_one_blank_however_it_is_measured(shape: Shape) -> None:
    flat = sum(shape.straights) + sum(bend.flat_length for bend in released(shape))
    for measured in MEASURED:
        blank = develop(shape, "strain", stated(shape, measured))
        assert blank.length == pytest.approx(flat, abs=ROUNDING)


@given(shapes(), st.sampled_from(METHODS), st.sampled_from(MEASURED))
def test_straights_and_allowances_make_up_the_blank(
    shape: Shape, method: BlankMethod, measured: Measured
) -> None:
    part = stated(shape, measured)
    blank = develop(shape, method, part)
    lengths_ = straights(part, None, inside_radii=shape.radii())
    assert lengths_ == pytest.approx(shape.straights, abs=ROUNDING)
    assert sum(lengths_) + sum(blank.allowances) == pytest.approx(blank.length, abs=ROUNDING)
    assert sum(part.legs) - sum(blank.deductions) == pytest.approx(blank.length, abs=ROUNDING)
    at = 0.0
    for straight, allowance, mark in zip(lengths_, blank.allowances, blank.marks, strict=False):
        at += straight
        assert mark.tangents == pytest.approx((at, at + allowance), abs=ROUNDING)
        assert mark.nose == pytest.approx(at + allowance / 2, abs=ROUNDING)
        assert mark.sight - mark.nose == pytest.approx(7.0)
        at += allowance


@given(shapes(), st.sampled_from(METHODS), st.sampled_from(MEASURED))
def test_a_mirrored_part_has_the_same_blank(
    shape: Shape, method: BlankMethod, measured: Measured
) -> None:
    mirrored = evolve(shape, sides=tuple(-side for side in shape.sides))
    assert develop(shape, method, stated(shape, measured)) == develop(
        mirrored, method, stated(mirrored, measured)
    )


@given(shapes(), st.sampled_from(METHODS), st.sampled_from(MEASURED))
def test_a_part_from_its_other_end_has_the_same_blank_turned_round(
    shape: Shape, method: BlankMethod, measured: Measured
) -> None:
    turned = evolve(
        shape, straights=shape.straights[::-1], bends=shape.bends[::-1], sides=shape.sides[::-1]
    )
    one = develop(shape, method, stated(shape, measured))
    other = develop(turned, method, stated(turned, measured))
    assert other.length == pytest.approx(one.length, abs=ROUNDING)
    assert [one.length - mark.nose for mark in reversed(one.marks)] == pytest.approx(
        [mark.nose for mark in other.marks], abs=ROUNDING
    )


@given(shapes(), st.sampled_from(METHODS), st.sampled_from(MEASURED), st.data())
def test_a_longer_leg_makes_the_blank_longer_by_as_much(
    shape: Shape, method: BlankMethod, measured: Measured, data: st.DataObject
) -> None:
    part = stated(shape, measured)
    leg = data.draw(st.integers(0, len(part.legs) - 1))
    more = data.draw(st.floats(0.1, 100.0))
    longer = evolve(
        part, legs=tuple(old + more * (index == leg) for index, old in enumerate(part.legs))
    )
    before, after = (develop(shape, method, each).length for each in (part, longer))
    assert after - before == pytest.approx(more, abs=ROUNDING)


# DIN 6935 takes v as 0 over an opening of 165 deg, so its allowance steps there by design.
din_ranges = st.sampled_from([(radians(0.5), radians(14.99)), (radians(15), pi)])


@given(st.sampled_from(TABLES), st.data(), st.floats(0.5, 20), st.floats(0, 60), din_ranges)
def test_a_sharper_bend_uses_more_bar(
    method: BlankMethod,
    data: st.DataObject,
    thickness: float,
    radius: float,
    within: tuple[float, float],
) -> None:
    less, more = sorted(data.draw(st.tuples(st.floats(*within), st.floats(*within))))
    assume(more - less > 1e-6)
    assert arc_allowance(method, FACTOR, less, thickness, radius) < arc_allowance(
        method, FACTOR, more, thickness, radius
    )


@given(st.sampled_from(TABLES), st.floats(0.01, pi), st.floats(0.5, 20), st.floats(0, 60))
def test_a_larger_radius_uses_more_bar(
    method: BlankMethod, angle: float, thickness: float, radius: float
) -> None:
    assert arc_allowance(method, FACTOR, angle, thickness, radius) < arc_allowance(
        method, FACTOR, angle, thickness, radius + 0.01
    )


@given(shapes(arcs=False), st.sampled_from(METHODS), st.sampled_from(MEASURED))
def test_every_method_that_applies_stands_beside_the_one_used(
    shape: Shape, method: BlankMethod, measured: Measured
) -> None:
    # The widest of a run of arcs spans more bar than one arc, so no leg falls short here.
    part = stated(evolve(shape, straights=tuple(s + 700 for s in shape.straights)), measured)
    blank = develop(shape, method, part)
    assert {other.method for other in blank.alternatives} == set(METHODS) - {method}
    for other in blank.alternatives:
        assert develop(shape, other.method, part).length == other.length


@given(shapes(), st.sampled_from(METHODS), st.sampled_from(MEASURED), st.floats(0.1, 0.9))
def test_a_hole_lies_where_it_is_from_either_end_of_its_leg(
    shape: Shape, method: BlankMethod, measured: Measured, share: float
) -> None:
    shape = evolve(shape, straights=tuple(straight + 60 for straight in shape.straights))
    part = stated(shape, measured)
    last = len(part.legs)
    holes = []
    for leg in range(1, last + 1):
        length = part.legs[leg - 1]
        before, after = (None if leg == 1 else leg - 1), (None if leg == last else leg)
        holes.append(Hole(leg=leg, from_bend=before, distance=share * length, diameter=4.0))
        holes.append(Hole(leg=leg, from_bend=after, distance=(1 - share) * length, diameter=4.0))
    flat = develop(shape, method, evolve(part, holes=tuple(holes))).holes
    for one, other in zip(flat[::2], flat[1::2], strict=True):
        assert one.position == pytest.approx(other.position, abs=ROUNDING)
        assert one.edge_to_zone == pytest.approx(other.edge_to_zone, abs=ROUNDING)


@given(shapes(), st.floats(0, 200), st.sampled_from(METHODS))
def test_a_hole_in_the_straight_keeps_its_distance_from_the_bend(
    shape: Shape, gap: float, method: BlankMethod
) -> None:
    # Leg 1 is made long enough for the hole; its edge is ``gap`` from where the leg stops.
    shape = evolve(shape, straights=(gap + 30, *shape.straights[1:]))
    hole = Hole(leg=1, from_bend=None, distance=30 - 3.0, diameter=6.0)
    flat = develop(shape, method, stated(shape, "outside", holes=(hole,))).holes[0]
    assert flat.position == pytest.approx(27.0)
    assert flat.edge_to_zone == pytest.approx(gap, abs=ROUNDING)
    assert flat.bend == 1


@given(shapes(), st.sampled_from(METHODS), st.sampled_from(MEASURED))
def test_the_band_holds_the_blank_of_every_bar_within_the_tolerance(
    shape: Shape, method: BlankMethod, measured: Measured
) -> None:
    # Straights are long, so that no leg falls short at the limits of the tolerance.
    shape = evolve(shape, straights=tuple(straight + 50 for straight in shape.straights))
    part = stated(shape, measured)
    settings = BlankSettings(method=method, factor=FACTOR)

    def band(thickness: float, radius: float) -> tuple[float, float]:
        return length_band(
            part,
            released(shape),
            settings,
            inside_radii=shape.radii(),
            thickness_tolerance=thickness,
            radius_tolerance=radius,
        )

    middle = develop(shape, method, part).length
    assert band(0.0, 0.0) == pytest.approx((middle, middle))
    low, high = band(0.3, 0.5)
    assert low <= middle <= high
    if method == "strain":
        return  # other bars have another shape, which only the solver knows
    for change, wider in ((0.3, 0.0), (-0.3, 0.0), (0.0, 0.5)):
        other = evolve(part, lot=Lot(thickness=shape.thickness + change))
        length = lay_out(
            other,
            None,
            settings,
            inside_radii=[radius + wider for radius in shape.radii()],
            sight_offset=0.0,
        ).length
        assert low - ROUNDING <= length <= high + ROUNDING
