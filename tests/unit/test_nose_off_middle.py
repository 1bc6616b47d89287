"""A nose that may stand off the middle, and bends beside their marks, as a plan tells them."""

from __future__ import annotations

import json

import pytest
from attrs import evolve

from strapwright.bending.off_middle.two_legs import uneven_at_travel
from strapwright.errors import InputError
from strapwright.findings import Angle, BendAt, Choice, Finding, Length, Severity, Share, Yes
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.member_loads import bench_of
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Remedies
from strapwright.planning.uneven_legs.leg_bands import leg_bands
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.obstructions import is_refused, obstructions
from strapwright.remedies.quick_look import reaches
from strapwright.remedies.tooling_levers import AGAINST
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.reader import at_command
from strapwright.wording.telling import tell_all

JOB = """
format = 1
units = "metric"
[part]
name = "rail bracket"
bar = "flat 6 x 40"
material = "S235JR"
measured = "outside"
shape = ["110", "up 90", "160", "down 45", "120"]
[press]
bore = "63"
relief = "140 bar"
[tooling]
mark_error = "1"
[tooling.nose]
radius = "9"
offset = "2"
[tooling.shoulders]
radius = "6"
opening = "56"
[tooling.members]
off_centre = "0"
"""

# The nearer leg is gripped between nose and shoulder before the angle is reached.
NEAR_JAM = (
    JOB.replace('offset = "2"', 'offset = "5"')
    .replace('radius = "9"', 'radius = "16"')
    .replace(', "down 45", "120"', "")
)


def planned(text: str) -> Plan:
    return plan(read_job(text), search=False)


def off_middle(made: Plan) -> list[Finding]:
    return [one for one in made.findings if one.code == "nose-off-middle"]


def test_a_nose_in_the_middle_is_not_told_of() -> None:
    assert off_middle(planned(JOB.replace('offset = "2"', 'offset = "0"'))) == []
    assert off_middle(planned(JOB.replace('offset = "2"\n', ""))) == []


def test_what_a_nose_off_the_middle_does_stands_with_figures() -> None:
    made = planned(JOB)
    square, half = off_middle(made)
    (step,) = (one for one in made.steps if one.bend == 1)
    assert square.severity is Severity.WARNING
    assert half.severity is Severity.NOTE  # under half a degree
    tooling = made.job.tooling
    assert tooling is not None
    setup = bend_setup(made.job, known_bar(made.job), tooling)
    bend = uneven_at_travel(setup, 2.0, step.setting.travel)
    assert bend is not None
    assert square.one(Angle, "free").value == pytest.approx(
        bend.free_angle - step.free_angle, abs=1e-5
    )
    assert square.one(Share, "near").value == pytest.approx(bend.near_share, abs=1e-5)
    # 2 mm of the nose itself, and what the bar rolls on it, half its thickness off its round.
    assert square.one(Length, "lands").value == pytest.approx(2.0 + 12.0 * bend.tilt, abs=1e-4)
    told = " ".join(plan_to_text(made).split())
    assert "The nose may stand 2 mm off centre between the shoulders." in told
    assert "Centre the nose between the shoulders." in told


def test_the_bands_reach_further_where_the_nose_may_stand_off() -> None:
    even = planned(JOB.replace('offset = "2"', 'offset = "0"')).steps[0].bands
    off = planned(JOB).steps[0].bands
    # It only ever bends further, and never needs more travel.
    assert off.free_angle.high > even.free_angle.high + 0.005
    assert off.travel.low < even.travel.low
    assert off.force.high > even.force.high
    assert off.travel.high <= even.travel.high + 1e-9


def test_a_bend_that_jams_off_the_middle_is_refused_with_nothing_to_stop_at() -> None:
    made = planned(NEAR_JAM)
    (square,) = off_middle(made)
    assert square.one(Choice, "how").value == "jams"
    assert square.severity is Severity.REFUSAL
    (step,) = made.steps
    assert has_no_stop(made, step)
    told = " ".join(plan_to_text(made).split())
    assert "the leg on the near side jams." in told
    # What only warns of the nose leaves the figures in place.
    warned = planned(JOB)
    assert not any(has_no_stop(warned, one) for one in warned.steps)


def test_clearance_of_a_stack_that_a_nose_off_the_middle_may_use_up_is_not_proven() -> None:
    # A single bar is held against what is about it with the nose off, too; a stack is not.
    alone = plan(read_job(JOB.replace('"down 45"', '"up 45"')))
    assert "clearance-off-middle" not in {one.code for one in alone.findings}
    two_up = JOB.replace('"down 45"', '"up 45"').replace("[press]", "stacked = 2\n[press]", 1)

    def told(offset: str) -> tuple[list[Finding], Plan]:
        made = plan(read_job(two_up.replace('offset = "2"', f'offset = "{offset}"')))
        return [one for one in made.findings if one.code == "clearance-off-middle"], made

    assert told("0")[0] == []
    assert told("0.1")[0] == []
    found, made = told("2")
    assert found
    for one in found:
        assert one.severity is Severity.WARNING
        (about,) = one.about
        assert isinstance(about, BendAt)
        step = next(step for step in made.steps if step.bend == about.number)
        assert step.clearance is not None
        assert one.one(Length, "clearance").value == pytest.approx(step.clearance)
        # The slope under a load at a and b from two supports is (b - a)/(a b) of what it sinks
        # there (beam tables, from memory); hinged at the nose it is of the same size. So the far
        # end moves by many times the offset; the rounds eat up so much of a stack's arms that they
        # lie further apart than those of the opening alone.
        legs = made.job.part.legs
        longer = max(sum(legs[: about.number]), sum(legs[about.number :]))
        closer = one.one(Length, "closer").value
        turned = 4.0 * step.setting.travel / (26.0 * 30.0)
        assert 2.0 + longer * turned < closer < 2.0 + 2.5 * longer * turned
        assert step.clearance - closer < 1.5
    words = tell_all(found, at_command(read_job(JOB)))
    assert "is not checked" in words[0].text


def test_a_wider_opening_is_looked_for_where_the_near_leg_jams() -> None:
    made = planned(NEAR_JAM)
    (stands,) = obstructions(made)
    assert (stands.kind, stands.bend) == ("jam", 0)
    assert "opening" in dict(AGAINST[stands.kind])
    # In the middle the nose would reach the angle: it is the near leg alone that jams.
    assert not reaches(read_job(NEAR_JAM))
    assert reaches(read_job(NEAR_JAM.replace('offset = "5"', 'offset = "0"')))
    wider = NEAR_JAM.replace('opening = "56"', 'opening = "66"')
    assert reaches(read_job(wider))
    after = planned(wider)
    assert not is_refused(after)
    # What is a warning now was a refusal: no remedy is turned down for it.
    (square,) = off_middle(after)
    assert square.severity is Severity.WARNING
    carried = with_remedies(made, Remedies(found=(), in_vain=(), untried=()))
    (told,) = off_middle(carried)
    assert told.one(Yes, "tried").value


def test_a_nose_past_a_tenth_of_the_opening_is_refused() -> None:
    read_job(JOB.replace('offset = "2"', 'offset = "5.6"'))
    with pytest.raises(InputError, match=r"tooling.nose.offset .*more than a tenth of the opening"):
        read_job(JOB.replace('offset = "2"', 'offset = "5.7"'))


def test_the_members_stand_the_uneven_push() -> None:
    made = planned(JOB)
    tooling, press = made.job.tooling, made.job.press
    assert tooling is not None
    (plan_load, relief) = bench_of([made], tooling, press).pushes
    centred = evolve(tooling, nose=evolve(tooling.nose, offset=0.0))
    even = planned(JOB.replace('offset = "2"', 'offset = "0"'))
    (_, relief_even) = bench_of([even], centred, press).pushes
    assert relief_even.near == 0.5
    assert relief_even.across == 0.0
    near = [one.one(Share, "near").value for one in off_middle(made)]
    assert plan_load.near >= max(near)
    assert relief.down > relief_even.down
    assert relief.outward > relief_even.outward
    assert relief.across >= max(one.one(Share, "across").value for one in off_middle(made)) * (
        relief.force
    )


def test_legs_take_their_share_of_marks_blank_and_nose() -> None:
    # Two bends take 10 and 30 mm: of 4 mm of blank a quarter and three quarters, halved between
    # their legs: 0.5 and 1.5.  A mark each way adds by squares between two bends: 0.3 sqrt 2.
    found = leg_bands((100.0, 50.0, 80.0), (10.0, 30.0), 4.0, 0.3, (0.0, 1.0))
    assert [one.off for one in found] == pytest.approx(
        [0.8, 0.42426407 + 2.0 + 1.0, 0.3 + 1.5 + 1.0]
    )
    assert found[0].band.low == pytest.approx(99.2)


def test_the_legs_are_told_with_their_bands() -> None:
    made = planned(JOB.replace('offset = "2"', 'offset = "0"'))
    told = " ".join(plan_to_text(made).split())
    assert "With bends within 1 mm of their marks: leg 1 " in told
    assert "; leg 3 " in told
    bands = plan_to_data(made)["legs_band_mm"]
    closer = planned(
        JOB.replace('offset = "2"', 'offset = "0"').replace('error = "1"', 'error = "0"')
    )
    others = plan_to_data(closer)["legs_band_mm"]
    assert bands[0]["high"] - others[0]["high"] == pytest.approx(1.0)
    assert bands[1]["high"] - others[1]["high"] == pytest.approx(2.0**0.5)
    json.dumps(bands)
