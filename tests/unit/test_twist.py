"""A quarter twist of a flat: blank and marks, order, the part in space, what is refused."""

from __future__ import annotations

import json

import numpy as np
import pytest
from test_blank_dxf import on, read

from strapwright.drawing.part_drawing import part_scene
from strapwright.drawing.twisted.twisted_bar import sections_of
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.pages.form import form_text, open_form
from strapwright.planning.bench_work.twisting_force import length_lost, twist_springs_back
from strapwright.planning.bench_work.work_values import Twisting
from strapwright.planning.bend_setups import known_bar
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.sheets.sheet_data import sheet_data
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

QUARTER = np.pi / 2
STAY = """\
format = 1
units = "metric"
[part]
name = "pontoon rail stay"
bar = "{bar}"
material = "S235"
shape = {shape}
{more}
[tooling]
nose = {{ shaft = "16", web = {{ thick = "10", height = "120" }} }}
shoulders = {{ radius = "8", opening = "48", depth = "70", height = "110", outer_edge = "34" }}
"""
SHAPE = '["100", "up 90", "90", "{twist}", "110", "down 90", "80"]'


def stay(twist: str = "twist 90 over 80", more: str = "", bar: str = "flat 4 x 40") -> Plan:
    return plan(read_job(STAY.format(bar=bar, shape=SHAPE.format(twist=twist), more=more)))


def plain(more: str = "") -> Plan:
    shape = '["100", "up 90", "200", "down 90", "80"]'
    return plan(read_job(STAY.format(bar="flat 4 x 40", shape=shape, more=more)))


def codes(made: Plan, severity: Severity = Severity.REFUSAL) -> set[str]:
    return {one.code for one in made.findings if one.severity is severity}


def twisting(made: Plan) -> Twisting:
    (work,) = [one for one in made.bench_work if isinstance(one, Twisting)]
    return work


def test_the_blank_is_longer_by_what_the_run_loses_and_the_legs_stay() -> None:
    made, straight = stay(), plain()
    assert made.blank is not None
    assert straight.blank is not None
    lost = sum(length_lost(QUARTER, 80.0, 40.0)) / 2.0
    assert made.blank.length - straight.blank.length == pytest.approx(lost)
    # The first mark stays, the second moves on by the length lost.
    moved = [
        after.nose - before.nose
        for before, after in zip(straight.blank.marks, made.blank.marks, strict=True)
    ]
    assert moved == pytest.approx([0.0, lost])
    (run,) = made.blank.twists
    assert run.end - run.begin == pytest.approx(80.0 + lost)
    # 90 mm from the outer face of bend 1 to the middle of the run, of which 40 are twisted.
    face = made.blank.zone(1)[1] - 0.5 * (made.blank.deductions[0] + made.blank.allowances[0])
    assert run.begin - face == pytest.approx(50.0)
    assert [one.length for one in made.legs] == [100.0, 200.0, 80.0]
    # The leg is less sure by half of what it may lose more or less.
    low, high = length_lost(QUARTER, 80.0, 40.0)
    assert made.legs[1].off - straight.legs[1].off == pytest.approx(0.5 * (high - low), rel=0.1)


def test_legs_beyond_the_twist_lie_in_another_plane() -> None:
    towards, away = stay(), stay("twist -90 over 80")
    for made, way in ((towards, -1.0), (away, 1.0)):
        # Leg 2 goes up; the last leg goes along z, to or from the viewer, by its own length.
        end, bend = made.finished_3d[-1], made.finished_3d[-3]
        step = (end - bend) / np.linalg.norm(end - bend)
        assert step == pytest.approx([0.0, 0.0, way], abs=1e-6)
    # In one plane, as it is bent, it is the plain part.
    assert np.allclose(towards.finished, plain().finished, atol=1e-6)


def test_it_is_bent_flat_in_a_proven_order_and_twisted_last() -> None:
    made = stay()
    assert not codes(made)
    assert made.handling is not None
    assert made.handling.proven
    work = twisting(made)
    assert work.before == ()
    text = " ".join(plan_to_text(made).split())
    assert "At the bench, after the last bend" in text
    assert "Twist leg 2 a quarter turn: Twist between" in text
    assert "the top beyond the run turns towards you" in text
    assert "out-of-plane" not in text
    (said,) = plan_to_data(made)["bench_work"]
    assert (said["kind"], said["leg"], said["before_bends"]) == ("twist", 2, [])
    json.dumps(said)
    assert len(on(read(made), "TWIST")) == 2


# Bent flat it is a U whose legs meet press or each other; a side alone is an angle.
NARROW = '["200", "up 90", "85", "twist 90 over 80", "85", "up 90", "200"]'


def test_where_the_flat_part_has_no_order_the_twist_comes_between() -> None:
    made = plan(read_job(STAY.format(bar="flat 4 x 40", shape=NARROW, more="")))
    assert not codes(made)
    assert [step.bend for step in made.steps] == [1, 2]
    assert twisting(made).before == (2,)
    assert [round(np.degrees(step.hold.roll)) for step in made.steps] == [0, -90]
    warned = codes(made, Severity.WARNING)
    assert {"twist-between", "order-not-searched"} <= warned
    assert "out-of-plane" not in warned
    text = " ".join(plan_to_text(made).split())
    assert "Twist leg 2 a quarter turn before bend 2" in text
    assert "what it may meet is not checked" in text
    assert "At the bench, after the last bend" not in text


# The first side is a U, and the last stands out of its plane: flat, its legs run into each other.
GUARD = """\
format = 1
units = "inch"
[part]
name = "winch guard bracket"
quantity = 3
bar = "flat 3/16 x 1"
material = "1018 HR"
shape = ["3", "up 90", "6", "up 90", "3", "twist 90 over 2-1/2", "3", "{way} 90", "6"]
[press]
bore = "3"
relief = "2000 psi"
{pump}
[tooling]
nose = {{ shaft = "3/4", web = {{ thick = "1/2", height = "3" }} }}
shoulders = {{ radius = "5/16", opening = "1-7/8", depth = "2", outer_edge = "{edge}" }}
"""


@pytest.mark.parametrize("way", ["up", pytest.param("down", marks=pytest.mark.long)])
def test_a_bracket_twisted_between_its_bends_is_planned_to_the_sheet(way: str) -> None:
    pump = 'hand_pump = { volume = "0.4 in3", strokes_per_minute = 30 }'
    made = plan(read_job(GUARD.format(way=way, pump=pump, edge="1-3/8")))
    assert codes(made) == set()
    assert [step.bend for step in made.steps] == [1, 2, 3]
    assert twisting(made).before == (3,)
    assert codes(made, Severity.WARNING) == {"twist-between", "twist-not-proven",
                                             "order-not-searched"}  # fmt: skip
    said, drawings = sheet_data(made)
    assert [one["tools"] for one in said["bends"]] == [
        "", "", "Twist leg 3 a quarter turn first, see At the bench."]  # fmt: skip
    assert said["work_head"] == "At the bench"
    assert "before bend 3" in said["bench_work"][0]["title"]
    assert {"bend-3-rest.svg", "bend-3-stroke.svg"} <= drawings.keys()
    text = " ".join(plan_to_text(made).split())
    third = text.index("3. Bend 3")
    assert text.index("Twist leg 3 a quarter turn first") > third > text.index("2. Bend 2")
    data = plan_to_data(made)
    assert data["bench_work"][0]["before_bends"] == [3]
    assert all(step["pump"]["strokes"] > 0 for step in data["steps"])
    # Shoulders that reach out to the twisted run leave bend 3 no place.
    wide = plan(read_job(GUARD.format(way=way, pump=pump, edge="2-1/2")))
    assert codes(wide)
    assert not any(one["tools"] for one in sheet_data(wide)[0]["bends"] if not one["clash"])


def test_a_shop_that_states_its_order_gets_that_order_or_none() -> None:
    shape = STAY.format(bar="flat 4 x 40", shape=NARROW, more="order = [1, 2]")
    assert "order-cannot-be-made" in codes(plan(read_job(shape)))


def test_a_side_that_would_stand_on_edge_in_the_shoulders_does_not_come_last() -> None:
    # 43 mm of flat bar from the middle of bend 2 to the run; the shoulders end 34 mm out, then 50.
    made = STAY.format(bar="flat 4 x 40", shape=NARROW, more="")
    assert twisting(plan(read_job(made))).before
    wider = plan(read_job(made.replace('outer_edge = "34"', 'outer_edge = "50"')))
    assert "no-order" in codes(wider)
    assert "twist-frees-nothing" in codes(wider, Severity.NOTE)


HOLE = '[[part.hole]]\nleg = 2\nfrom_bend = {bend}\ndistance = "{at}"\ndiameter = "9"'


def test_a_hole_measured_across_the_twist_moves_with_what_it_loses() -> None:
    lost = sum(length_lost(QUARTER, 80.0, 40.0)) / 2.0
    for bend, at, moved in ((1, 40, 0.0), (1, 150, lost), (2, 60, lost), (2, 160, 0.0)):
        hole = HOLE.format(bend=bend, at=at)
        with_it, without = stay(more=hole).blank, plain(hole).blank
        assert with_it is not None
        assert without is not None
        off = with_it.holes[0].position - without.holes[0].position
        assert off == pytest.approx(moved), (bend, at)
    with pytest.raises(InputError, match=r"it lies in the twisted run of leg 2.*80\.0 mm"):
        stay(more=HOLE.format(bend=1, at=90))
    # Its edge counts: 90 + 40 + 4.5 is clear, a little less is not.
    assert stay(more=HOLE.format(bend=1, at="134.6")).blank is not None
    with pytest.raises(InputError, match="in the twisted run"):
        stay(more=HOLE.format(bend=1, at="134.4"))


def test_a_trimmed_end_keeps_the_twist_in_its_place() -> None:
    shape = '["60", "twist 90 over 60", "70", "up 90", "90"]'
    long = plan(
        read_job(STAY.format(bar="flat 4 x 30", shape=shape, more='trim = { end_1 = "25" }'))
    )
    short = plan(read_job(STAY.format(bar="flat 4 x 30", shape=shape, more="")))
    assert long.blank is not None
    assert short.blank is not None
    assert not codes(short)
    assert long.blank.twists[0].begin - short.blank.twists[0].begin == pytest.approx(25.0)
    assert np.allclose(long.finished_3d[-1], short.finished_3d[-1], atol=1e-6)
    assert [type(one).__name__ for one in long.bench_work] == ["Twisting", "Sawing"]
    # The drawn bar turns by a quarter, from edge to edge of the run of the finished part.
    for made in (long, short):
        line, wide, (middle,) = sections_of(made)
        assert line[middle] == pytest.approx([60.0, 0.0, 0.0], abs=0.01)
        assert wide[0] == pytest.approx([0.0, 0.0, 1.0])
        assert abs(float(wide[-1] @ wide[0])) < 1e-9
        assert part_scene(made).shapes


def test_without_a_length_the_run_is_two_widths_or_what_the_metal_asks_for() -> None:
    assert twisting(stay("twist 90")).end - twisting(stay("twist 90")).begin > 80.0
    hard = stay("twist 90").job
    text = write_job(hard).replace("S235", "4140 annealed")
    run = twisting(plan(read_job(text)))
    assert run.end - run.begin >= 80.0


def test_a_file_is_written_back_as_it_was_read() -> None:
    for twist in ("twist 90", "twist -90 over 80"):
        job = stay(twist).job
        assert read_job(write_job(job)).part == job.part


def test_the_page_has_a_field_for_it_and_keeps_the_file() -> None:
    text = STAY.format(bar="flat 4 x 40", shape=SHAPE.format(twist="twist 90 over 80"), more="")
    form = open_form(text, "part")
    labels = {field.name: field.label for field in form.fields}
    assert labels["part.shape[3]"] == "Leg 2 to the middle of its twist"
    assert labels["part.shape[4]"] == "Quarter twist in leg 2"
    assert labels["part.shape[5]"] == "Leg 2 from the middle of its twist"
    assert form.values["part.shape[4]"] == "90 over 80"
    assert form_text(text, form) == text
    typed = open_form(text, "part", {"part.shape[4]": "-90 over 90"})
    assert '"twist -90 over 90"' in form_text(text, typed)


@pytest.mark.parametrize(
    ("shape", "bar", "code"),
    [
        # 25 mm of leg are left beside the run, and half of 60 is asked for.
        (
            '["100", "up 90", "60", "twist 90 over 60", "60", "up 90", "80"]',
            "flat 4 x 60",
            "no-room",
        ),
        (
            '["100", "up 90", "90", "twist 90 over 20", "110", "up 90", "80"]',
            "flat 4 x 40",
            "too-short",
        ),
        ('["300", "twist 90 over 150", "300", "up 90", "80"]', "flat 20 x 60", "too-heavy"),
    ],
)
def test_a_twist_that_cannot_be_made_is_refused_with_its_reason(
    shape: str, bar: str, code: str
) -> None:
    made = plan(read_job(STAY.format(bar=bar, shape=shape, more="")))
    assert f"twist-{code}" in codes(made)
    no_figures_to_twist_by(made)


def test_a_part_refused_for_its_bends_is_not_twisted_either() -> None:
    shape = SHAPE.format(twist="twist 90 over 80").replace('"80"]', '"20"]')
    made = plan(read_job(STAY.format(bar="flat 4 x 40", shape=shape, more="")))
    assert codes(made)
    assert not any(one.startswith("twist") for one in codes(made))
    no_figures_to_twist_by(made)


def no_figures_to_twist_by(made: Plan) -> None:
    text = " ".join(plan_to_text(made).split())
    assert "Twist leg" in text
    assert not any(word in text for word in ("Go past", "pull up to", "from the middle."))
    (said,) = plan_to_data(made)["bench_work"]
    assert "refused" in said["text"]
    assert not any(sign in said["text"] for sign in "0123456789°")
    figures = [said[name] for name in ("past_deg", "torque_N_mm", "people", "arm_mm")]
    assert figures == [None] * 4


@pytest.mark.parametrize(
    ("shape", "more", "sentence"),
    [
        ('["80", "up 90", "twist 90", "80"]', "", "no length between a twist and a bend"),
        ('["80", "twist 45", "80", "up 90", "80"]', "", "only a quarter twist"),
        ('["80", "twist", "80", "up 90", "80"]', "", "which way it is twisted"),
        ('["80", "twist 90 over", "80", "up 90", "80"]', "", "how long the twisted run is"),
        (
            '["80", "twist 90", "80", "twist 90", "80", "up 90", "80"]',
            "",
            "this leg is twisted twice",
        ),
        (
            '["80", "twist 90", "80", "up 90", "80"]',
            'close = { kind = "gap", size = "2", absorb = 1 }',
            "do not meet in one plane",
        ),
    ],
)
def test_what_is_no_twist_is_refused(shape: str, more: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        read_job(STAY.format(bar="flat 4 x 40", shape=shape, more=more))


def test_a_rod_is_rolled_instead() -> None:
    shape = '["80", "twist 90", "80", "up 90", "80"]'
    with pytest.raises(InputError, match=r"a round bar needs no twist.*roll it before"):
        read_job(STAY.format(bar="round 12", shape=shape, more=""))


def test_the_least_it_springs_back_is_that_of_a_soft_bar() -> None:
    made = stay()
    metal, (low, high) = known_bar(made.job).metal, twisting(made).past
    least, most = twist_springs_back((1.0, 1.0), metal.flow, QUARTER, 80.0, 4.0, 40.0)
    # One bar in twenty is harder than exp(1.645 s) and one softer than exp(-1.645 s), with s the
    # standard deviation of the logarithm of the strength (normal distribution, any table).
    apart = np.exp(2.0 * 1.645 * metal.strength_spread)
    assert apart > 1.05
    assert high / low == pytest.approx(most / least * apart, rel=1e-3)
