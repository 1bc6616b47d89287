# ruff: noqa: E501  (sentences stand as they are read)
"""Closed shapes, rolled bars, rows of hits, stacks and limits, from a job's text to its plan."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve
from telling import told

from strapwright.bending import solve_curve, state_at_travel
from strapwright.bending.bar_shape import half_shape, released_bend
from strapwright.bending.bend_values import Floats
from strapwright.bending.solver_model import build
from strapwright.drawing.part_space import projected
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.midline.dimension_points import dimension_points
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.hits_and_stacks.rubbing_bars import rubbing
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.planning.settled_bend import settled
from strapwright.shop.job import Job
from strapwright.shop.part import Measured
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.steps.lay_words import roll_words
from strapwright.wording.telling import Told

T = 5.0
JOB = """\
format = 1
units = "metric"
[part]
name = "cleat"
bar = "{bar}"
material = "S235JR"
shape = [{shape}]
{extra}
[tooling]
nose = {{ radius = 9, reach = 140{nose} }}
shoulders = {{ radius = 6, opening = 52, height = 90 }}
"""


def job(*shape: str, bar: str = "flat 5 x 30", extra: str = "", nose: str = "") -> Job:
    words = ", ".join(f'"{word}"' for word in shape)
    return read_job(JOB.format(bar=bar, shape=words, extra=extra, nose=nose))


def found(made: Plan, code: str) -> Told:
    (one,) = [finding for finding in told(made) if finding.code == code]
    return one


def codes(made: Plan) -> set[str]:
    return {finding.code for finding in told(made)}


def along(made: Plan) -> list[float]:
    """Every leg's dimension, between its points and along the leg [mm]."""
    heading = 0.0
    lengths = []
    for number, (first, last) in enumerate(made.dimension_points):
        if number:
            bend = made.job.part.bends[number - 1]
            heading += bend.side * bend.angle
        lengths.append(
            (last[0] - first[0]) * math.cos(heading) + (last[1] - first[1]) * math.sin(heading)
        )
    return lengths


# Closed shapes

RING = ("50", "up 90", "90", "up 90", "110", "up 90", "90", "up 90", "50")


def closing(kind: str, size: float, absorb: int) -> str:
    return f'close = {{ kind = "{kind}", size = {size}, absorb = {absorb} }}'


@pytest.mark.parametrize("absorb", [1, 3, 5])
@pytest.mark.parametrize(("kind", "size"), [("gap", 3.0), ("weld gap", 1.5), ("gap", 0.0)])
@pytest.mark.parametrize("side", ["up", "down"])
def test_the_ends_of_a_ring_meet_in_line_within_a_hundredth(
    kind: str, size: float, absorb: int, side: str
) -> None:
    shape = [word.replace("up", side) for word in RING]
    made = plan(job(*shape, extra=closing(kind, size, absorb)))
    x, y = made.finished[-1] - made.finished[0]
    assert -x == pytest.approx(size, abs=0.01)
    assert y == pytest.approx(0.0, abs=0.01)
    stated = job(*shape).part.legs
    changed = [i + 1 for i, leg in enumerate(made.job.part.legs) if leg != stated[i]]
    assert changed == [absorb]
    assert f"{made.job.part.legs[absorb - 1]:.2f} mm" in found(made, "closing-leg").text
    assert along(made) == pytest.approx(made.job.part.legs, abs=0.01)


def test_ends_that_overlap_lie_one_thickness_beside_each_other() -> None:
    shape = (*RING[:6], "95", *RING[7:])
    made = plan(job(*shape, extra=closing("overlap", 20.0, 5)))
    x, y = made.finished[-1] - made.finished[0]
    assert x == pytest.approx(20.0, abs=0.01)
    assert abs(y) == pytest.approx(T, abs=0.01)


@pytest.mark.parametrize("side", ["up", "down"])
def test_the_last_end_meets_the_face_of_the_first_leg_flush_with_end_1(side: str) -> None:
    # Outside dimensions: opposite legs alike, the last one short of the first by its thickness.
    words = [word.replace("up", side) for word in ("100", "up 90", "80", "up 90", "100", "up 90")]
    made = plan(job(*words, "60", extra=closing("weld gap", 2.0, 4)))
    turn = 1 if side == "up" else -1
    x, y = made.finished[-1] - made.finished[0]
    assert turn * y - T / 2 == pytest.approx(2.0, abs=0.01)  # from end to inner face
    assert x - T / 2 == pytest.approx(0.0, abs=0.01)  # outer face flush with end 1
    # By plain sums: 80 outside, less the first leg's thickness and the gap.
    assert made.job.part.legs[3] == pytest.approx(80.0 - T - 2.0, abs=0.01)


def test_the_cut_of_a_slanting_end_touches_first_with_its_near_corner() -> None:
    def triangle(second: str) -> Plan:
        return plan(job("120", "up 120", second, "up 120", "120", extra=closing("gap", 2.0, 3)))

    with pytest.raises(InputError, match="the legs 1 and 2 disagree") as caught:
        triangle("120")
    advised = re.search(r"make leg 2 ([0-9.]+) mm", str(caught.value))
    assert advised is not None
    made = triangle(advised[1])  # the remedy is one
    end = made.finished[-1]
    heading = math.radians(240.0)
    across = np.array([-math.sin(heading), math.cos(heading)])
    corners = [end + side * T / 2 * across for side in (-1, 1)]
    assert min(corner[1] for corner in corners) - T / 2 == pytest.approx(2.0, abs=0.01)


REFUSED = [
    (RING, closing("gap", 1, 2), "part.close.absorb '2': leg 2 runs across the direction in which the ends close, so no length of it makes them meet; let one of the legs 1, 3, 5 take it up."),
    ((*RING[:2], "96", *RING[3:]), closing("gap", 1, 1), "part.shape: the legs 2 and 4 disagree by 6.00 mm, so the ends pass each other by that sideways, more than 1.0 mm; make leg 4 96.00 mm, or change leg 2 likewise."),
    (RING[:5], closing("gap", 1, 1), "part.close: the bends turn the bar by 180° in all, so its ends do not meet; let them turn 360°"),
    (("100", "up 90", "80", "up 90", "100", "up 90", "60"), closing("overlap", 9, 4), "part.close.kind 'overlap': ends that meet at a corner cannot lie over each other; write"),
    ((*RING[:4], "200", *RING[5:]), closing("gap", 1, 1) , None),
    ((*RING[:4], "40", *RING[5:]), closing("gap", 1, 1), "part.close.absorb '1': leg 1 would have to go from 50.00 mm to -11.00 mm for the ends to meet"),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "extra", "said"), REFUSED, ids=range(len(REFUSED)))
def test_shapes_that_do_not_close_are_told_what_disagrees(
    shape: Sequence[str], extra: str, said: str | None
) -> None:
    if said is None:  # a longer far side is taken up like any other
        assert plan(job(*shape, extra=extra)).job.part.legs[0] == pytest.approx(149.0, abs=0.01)
        return
    with pytest.raises(InputError) as caught:
        plan(job(*shape, extra=extra))
    assert str(caught.value).startswith(said)


def test_legs_that_miss_by_less_than_a_millimetre_are_let_through_and_told() -> None:
    made = plan(job(*RING[:2], "90.6", *RING[3:], extra=closing("gap", 1, 1)))
    assert "Sideways they miss by 0.60 mm" in found(made, "closing-leg").text


def test_the_last_bend_of_a_closed_shape_is_not_proven_to_come_off() -> None:
    made = plan(job(*RING, extra=closing("gap", 1, 1) + "\norder = [2, 3, 4, 1]"))
    last = found(made, "closes-around-nose")
    assert (last.where, last.severity) == ("bend 1", Severity.WARNING)
    assert "not checked" in last.text
    assert "closes-around-nose" not in codes(plan(job(*RING)))


def test_a_closed_shape_without_tooling_closes_on_its_arcs() -> None:
    text = JOB[: JOB.index("[tooling]")].format(
        bar="flat 5 x 30",
        shape=", ".join(f'"{word}"' for word in RING),
        extra="inside_radius = 8\n" + closing("gap", 3.0, 5),
    )
    made = plan(read_job(text))
    _, y = made.finished[-1] - made.finished[0]
    # The book's blank is not the length of the mid-line, so only the leg is exact.
    assert made.job.part.legs[4] == pytest.approx(57.0, abs=1e-9)
    assert abs(y) < 1.0
    assert made.steps == ()


# One part, however it is measured


def measured(base: Job, how: Measured, made: Plan) -> Job:
    """The same finished part, stated another way."""
    chords = np.diff(made.finished, axis=0)
    headings = np.unwrap(np.arctan2(chords[:, 1], chords[:, 0]))
    ends = []
    leaves, heading = 0, 0.0
    for bend in base.part.bends:
        leaves += int(np.argmax(np.abs(headings[leaves:] - heading) > 1e-6))
        heading += bend.side * bend.angle
        arrives = leaves + int(np.argmax(np.abs(headings[leaves:] - heading) < 1e-6))
        ends.append((leaves, arrives))
        leaves = arrives
    part = evolve(base.part, measured=how)
    points = dimension_points(part, T, made.finished, ends)
    legs = along(evolve(made, job=evolve(base, part=part), dimension_points=points))
    return evolve(base, part=evolve(part, legs=tuple(legs)))


@pytest.mark.parametrize(
    "shape",
    [
        ("80", "up 90", "120", "down 60", "80"),
        ("80", "up 115", "120", "down 130", "90"),
        pytest.param(("60", "down 60", "260", "up 120 radius 100", "260"), marks=pytest.mark.long),
    ],
)
def test_a_part_has_one_blank_whether_measured_outside_inside_or_centre(
    shape: Sequence[str],
) -> None:
    base = job(*shape, extra="order = [1, 2]")
    made = plan(base)
    assert made.blank is not None
    assert along(made) == pytest.approx(base.part.legs, abs=0.02)
    for how in ("inside", "centre"):
        other = plan(measured(base, how, made))
        assert other.blank is not None
        assert other.job.part.legs != base.part.legs
        assert other.blank.length == pytest.approx(made.blank.length, abs=0.05)
        total = sum(other.job.part.legs) - sum(other.blank.deductions)
        assert total == pytest.approx(other.blank.length, abs=1e-9)


# Rows of hits


def test_a_row_is_marked_hit_by_hit_and_made_as_one_step() -> None:
    made = plan(job("160", "up 90 radius 150", "160"))
    assert made.blank is not None
    (step,) = made.steps
    marks = made.blank.marks_of(1)
    assert [mark.label for mark in marks] == [f"1.{hit}" for hit in range(1, step.hits + 1)]
    spacing = np.diff([mark.nose for mark in marks])
    begin, end = made.blank.zone(1)
    assert spacing == pytest.approx(np.full(step.hits - 1, (end - begin) / step.hits))
    assert marks[0].nose - begin == pytest.approx(spacing[0] / 2)
    assert step.total == pytest.approx(math.pi / 2)
    assert step.hits * step.wanted == pytest.approx(math.pi / 2)
    assert step.free_angle == pytest.approx(step.wanted, abs=1e-6)
    assert (step.setting.faces, step.setting.block) == (None, None)
    # The true arc on its mid-line, and 5 straight on each side: the tangents lie at 155.
    arc = (150 + T / 2) * math.pi / 2
    assert made.blank.length == pytest.approx(arc + 10, rel=2e-3)
    assert {"row-of-hits", "hits-add-up"} <= codes(made)
    assert f"{step.hits} hits" in found(made, "row-of-hits").text
    assert "a guide only" in found(made, "hits-add-up").text


def test_a_row_at_the_press_rests_on_both_shoulders_beneath_the_nose() -> None:
    made = plan(job("150", "up 90 radius 120", "150"))
    for pose in made.steps[0].poses.all:
        for side in (-1, 1):
            off = np.hypot(pose.x - side * 26.0, pose.y + 6.0)
            dense = np.min(_distances(pose.x, pose.y, side * 26.0, -6.0))
            assert np.min(off) > 6.0 + T / 2 - 0.01
            assert dense == pytest.approx(6.0 + T / 2, abs=0.02)
        assert np.min(_distances(pose.x, pose.y, 0.0, pose.nose_y)) == pytest.approx(
            9.0 + T / 2, abs=0.02
        )


def _distances(x: Floats, y: Floats, cx: float, cy: float) -> Floats:
    """From a point to every piece of a line [mm]."""
    start = np.column_stack([x[:-1] - cx, y[:-1] - cy])
    chord = np.column_stack([np.diff(x), np.diff(y)])
    share = np.clip(-(start * chord).sum(1) / (chord**2).sum(1), 0.0, 1.0)
    return np.hypot(*(start + share[:, None] * chord).T)


def test_a_row_that_no_nose_or_too_many_hits_would_make_is_refused() -> None:
    with pytest.raises(
        InputError, match=r"^bend 1: its radius of 9.0 mm .* no series of hits makes"
    ):
        plan(job("150", "up 90 radius 9", "150"))
    with pytest.raises(
        InputError, match=r"^hits.tolerance: a row within 0.01 mm .* takes \d+ hits"
    ):
        plan(job("900", "up 170 radius 900", "900", extra="[hits]\ntolerance = 0.01"))
    with pytest.raises(
        InputError, match=r"^bend 1: a series of hits is made with one bar at a time"
    ):
        plan(job("150", "up 90 radius 150", "150", extra="stacked = 2"))


# Rolls


@pytest.mark.parametrize("bar", ["round 8", "square 8"])
def test_a_rolled_part_has_the_blank_of_a_flat_one_and_leaves_the_plane_to_the_far_side(
    bar: str,
) -> None:
    flat = plan(job("60", "up 90", "80", "up 90", "60", bar=bar))
    rolled = plan(job("60", "up 90", "30", "roll 90", "50", "up 90", "60", bar=bar))
    assert rolled.blank == flat.blank
    assert rolled.finished == pytest.approx(flat.finished)
    assert flat.finished_3d[:, :2] == pytest.approx(flat.finished)
    assert flat.finished_3d[:, 2] == pytest.approx(0.0)
    # Top towards you brings the far side up: z towards the viewer falls along the last leg.
    way = rolled.finished_3d[-1] - rolled.finished_3d[-2]
    assert way / np.linalg.norm(way) == pytest.approx([0.0, 0.0, -1.0], abs=1e-5)
    assert [step.hold.roll for step in rolled.steps] == pytest.approx([0.0, math.pi / 2])
    assert [step.setting for step in rolled.steps] == [step.setting for step in flat.steps]
    words = found(rolled, "out-of-plane")
    assert "for bend 2 roll 90° towards you" in words.text
    assert "not checked" in words.text


def test_half_a_roll_and_up_is_no_roll_and_down() -> None:
    up = plan(job("60", "up 90", "80", "roll 180", "up 90", "60", bar="square 8"))
    down = plan(job("60", "up 90", "80", "down 90", "60", bar="square 8"))
    assert up.finished_3d == pytest.approx(down.finished_3d, abs=1e-9)


def test_two_quarter_rolls_count_on() -> None:
    shape = ("60", "up 90", "80", "roll 90", "up 90", "80", "roll 90", "up 90", "60")
    made = plan(job(*shape, bar="round 8"))
    assert [abs(step.hold.roll) for step in made.steps] == pytest.approx([0, math.pi / 2, math.pi])


def test_a_roll_is_said_as_seen_from_where_one_stands() -> None:
    quarter = math.pi / 2
    assert roll_words(quarter) == "roll 90° towards you"
    assert roll_words(-quarter) == "roll 90° away from you"
    assert roll_words(quarter, end_left=2) == "roll 90° away from you"
    assert roll_words(math.pi) == "roll 180°, top face down"
    assert roll_words(0.0) == ""


def test_the_view_from_a_corner_shortens_all_axes_alike() -> None:
    seen = projected(np.vstack([np.eye(3), np.ones((1, 3))]))
    assert np.hypot(*seen[:3].T) == pytest.approx(np.full(3, math.sqrt(2 / 3)))
    assert seen[3] == pytest.approx([0.0, 0.0])  # the line of sight


def test_rolls_and_closing_are_not_mixed() -> None:
    with pytest.raises(InputError, match="rolled out of one plane cannot be closed here"):
        plan(job(*RING[:3], "roll 90", *RING[3:], bar="square 5", extra=closing("gap", 1, 1)))


# Stacks


def test_a_stack_adds_forces_and_opens_the_outer_bar_more() -> None:
    shape = ("90", "up 60", "90")
    alone, both = plan(job(*shape)), plan(job(*shape, extra="stacked = 2"))
    (one,), (two,) = alone.steps, both.steps
    assert two.free_angle == pytest.approx(math.radians(60), abs=1e-6)
    # The outer bar of the stack, solved by itself on its own round: at the inner bar's travel the
    # legs must stand alike, or they would not lie on each other.
    stated = job(*shape)
    assert stated.tooling is not None
    setup = bend_setup(stated, known_bar(stated), stated.tooling)
    outer = state_at_travel(evolve(setup, nose_radius=9.0 + T), two.setting.travel)
    assert outer.loaded_angle == pytest.approx(two.loaded_angle, abs=math.radians(1.0))
    inner = solve_curve(evolve(setup, shoulder_radius=6.0 + T))
    share = float(np.interp(two.loaded_angle, inner.loaded_angle, inner.force))
    assert two.force == pytest.approx(share + outer.force, rel=0.03)
    assert 1.7 * one.force < two.force < 2.4 * one.force
    assert np.all(two.curve_low <= two.curve.force)
    assert np.all(two.curve.force <= two.curve_high)
    # At touch the plate stands one thickness higher.
    lift = (two.setting.faces or 0) + two.setting.travel - (one.setting.faces or 0)
    assert lift - one.setting.travel == pytest.approx(T, abs=1e-6)
    words = found(both, "stacked-outer-bar")
    assert "bends round 14 mm" in words.text
    assert "may be higher" in words.text
    # What rubbing can add is in the range, on the high side alone.
    most = float(
        rubbing(evolve(setup, shoulder_radius=6.0 + T), 2, np.array([two.loaded_angle]))[0]
    )
    assert f"up to {math.ceil(100.0 * (most - 1.0))} %" in words.text
    assert two.bands.force.high / two.force > most
    assert two.bands.force.low / two.force == pytest.approx(
        one.bands.force.low / one.force, abs=0.04
    )
    assert "stacked-outer-bar" not in codes(alone)


@pytest.mark.parametrize("press", ["", '[press]\nbore = "100"\n'])
def test_a_stack_is_held_to_what_it_asks_where_its_bars_rub(press: str) -> None:
    def rated(force: float, extra: str) -> set[str]:
        made = job("90", "up 60", "90", extra=extra + "\n" + press)
        assert made.tooling is not None
        return codes(plan(evolve(made, tooling=evolve(made.tooling, rating=force)), search=False))

    (one,) = plan(job("90", "up 60", "90")).steps
    (two,) = plan(job("90", "up 60", "90", extra="stacked = 2")).steps
    # A tenth over what is expected: enough for one bar, and not for two that rub.  What the press loses
    # to its seals is some per cent more of the gauge.
    assert "tooling-too-weak" not in rated(1.1 * one.peak_force, "")
    assert "ease-off-below-band" in rated(1.1 * one.peak_force, "")
    assert "tooling-too-weak" in rated(1.1 * two.peak_force, "stacked = 2")


def test_a_stack_that_jams_is_refused() -> None:
    with pytest.raises(InputError, match=r"^part.stacked '5': 5 bars on each other jam between"):
        plan(job("90", "up 90", "90", extra="stacked = 5"))


# Limits


def test_the_bulge_of_a_bend_must_pass_between_what_carries_the_nose() -> None:
    needed = 30.0 + 2 * 0.105 * T  # finite elements of whole bars
    wide = plan(job("90", "up 60", "90", nose=f", span = {needed + 0.01}"))
    tight = plan(job("90", "up 60", "90", nose=f", span = {needed - 0.01}"))
    assert "too-wide-for-nose" not in codes(wide)
    assert found(tight, "too-wide-for-nose").severity is Severity.REFUSAL
    two = plan(job("90", "up 60", "90", nose=f", span = {needed + 0.01}", extra="at_once = 2"))
    assert "2 bars side by side" in found(two, "too-wide-for-nose").text


def test_a_groove_takes_the_proof_from_half_of_the_dents_and_only_round_rod_lies_in_it() -> None:
    plain = plan(job("60", "up 60", "60", bar="round 10"))
    grooved = plan(job("60", "up 60", "60", bar="round 10", nose=', groove = "fitted"'))
    assert "0.14 mm" in found(plain, "line-contact").text
    assert "last 0.07 mm" in found(grooved, "groove-not-proven").text
    with pytest.raises(InputError, match="a square bar does not lie in a groove made for round"):
        plan(job("60", "up 60", "60", bar="square 10", nose=', groove = "fitted"'))


def test_a_worse_or_unknown_grain_asks_for_a_larger_radius() -> None:
    # EN 10025-2, S235, 5 mm: 5 mm across the grain, 8 mm along it; 6 mm lies between.
    job_text = JOB.replace("radius = 9,", "radius = 6,")
    for grain, warned in (("across", False), ("along", True), ("unknown", True)):
        made = plan(
            read_job(
                job_text.format(
                    bar="flat 5 x 30",
                    shape='"90", "up 60", "90"',
                    extra=f'grain = "{grain}"',
                    nose="",
                )
            )
        )
        assert ("radius-too-small" in codes(made)) is warned, grain


def test_cut_edges_are_to_be_dressed() -> None:
    for edges in ("sheared", "flame cut"):
        made = plan(job("90", "up 60", "90", extra=f'edges = "{edges}"'))
        assert edges in found(made, "edges-to-dress").text.lower().replace("-", " ")
    assert "edges-to-dress" not in codes(plan(job("90", "up 60", "90")))


def test_welds_in_and_near_a_bend_are_told_and_those_farther_off_are_not() -> None:
    def welded(distance: float) -> set[str]:
        weld = f"[[part.weld]]\nleg = 2\nfrom_bend = 1\ndistance = {distance}"
        return codes(plan(job("90", "up 90", "120", extra=weld))) & {
            "weld-in-bend",
            "weld-near-bend",
        }

    assert welded(3) == {"weld-in-bend"}
    assert welded(40) == {"weld-near-bend"}
    assert welded(110) == set()


# Where a bend ends


@pytest.mark.parametrize(
    ("bar", "degrees"), [("flat 5 x 30", 30), ("flat 5 x 30", 115), ("round 8", 60)]
)
def test_a_bend_ends_where_it_is_straight_once_let_go(bar: str, degrees: int) -> None:
    stated = job("90", f"up {degrees}", "90", bar=bar)
    assert stated.tooling is not None
    model = build(bend_setup(stated, known_bar(stated), stated.tooling))
    angle = math.radians(degrees)
    shape, bend = half_shape(model, free=angle), released_bend(model, angle)
    short, kept = settled(shape, bend)
    turned = 2.0 * float(np.sum(short.free * np.diff(short.arc)))
    assert turned == pytest.approx(angle, abs=1e-9)
    # Both apexes less both flats: what the bend takes off its legs, and so the blank, stays.
    assert 2 * kept.apex_distance - kept.flat_length == pytest.approx(
        2 * bend.apex_distance - bend.flat_length
    )
    beyond = shape.free[short.arc.size - 1 :] * np.diff(shape.arc)[short.arc.size - 1 :]
    assert abs(float(np.sum(beyond))) < math.radians(0.02)
    # Well inside the shoulders, where the bar lay curved only as long as it was pushed.
    assert short.arc[-1] < 0.75 * shape.arc[-1]
    if degrees > 90:
        # The farthest outer point is the same point; the leg only counts from nearer by.
        moved = bend.apex_distance - kept.apex_distance
        assert bend.outside_reach - kept.outside_reach == pytest.approx(moved, abs=0.02)


def test_bends_may_stand_as_close_as_the_shoulders_let_them() -> None:
    # Half the opening and a little bar, then half of what stays bent of the neighbour.
    made = plan(job("90", "up 60", "46", "down 60", "90"))
    assert "leg-off-shoulder" not in codes(made)
    assert made.blank is not None
    (_, first), (second, _) = made.blank.zone(1), made.blank.zone(2)
    assert 0.0 < second - first < 26.0


@pytest.mark.long
def test_every_example_of_the_documents_can_be_made() -> None:
    folder = Path(__file__).parents[2] / "docs" / "examples"
    texts = {path: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.toml"))}
    # Beside whole jobs there are a rack and the parts that a tooling is proposed for.
    jobs = {path: text for path, text in texts.items() if "\n[tooling" in text}
    assert len(jobs) >= 8
    for path, text in jobs.items():
        made = plan(read_job(text))
        assert made.steps
        assert all(one.severity is not Severity.REFUSAL for one in told(made)), path.name
