"""Bends made part of the way on the press and finished in a vise or by squeezing."""

from __future__ import annotations

import math
from typing import Any

import jsonschema
import numpy as np
import pytest
from test_plan_json import SCHEMA

from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.pages.remedy_offers import offered_text
from strapwright.pages.taking_remedies import taken
from strapwright.planning.bench_work.work_values import Closing
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.remedies.part_levers import part_way
from strapwright.remedies.search_figures import find_remedies
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

# A channel too narrow for its opening: whichever leg is up, it meets the other shoulder.
CHANNEL = """\
format = 1
units = "metric"
[part]
name = "railing clip"
bar = "flat 5 x 40"
material = "304"
measured = "inside"
shape = ["60", "up 90", "43.5", "up 90", "60"]
{finish}
[press]
bore = "100"
relief = "170 bar"
stroke = "250"
[tooling]
nose = {{ shaft = "20", web = {{ thick = "12", height = "120" }} }}
shoulders = {{ radius = "10", opening = "55", depth = "80", height = "110" }}
"""
# A hook that the tooling jams on before its angle.
HOOK = """\
format = 1
units = "inch"
[part]
name = "fender line hook"
bar = "flat 3/16 x 1"
material = "A36 hot rolled"
shape = ["6", "up 150", "2"]
{finish}
[press]
bore = "3"
relief = "2000 psi"
[tooling]
nose = {{ shaft = "3/4", web = {{ thick = "1/2", height = "4" }} }}
shoulders = {{ radius = "3/8", opening = "2", height = "4" }}
"""
# Hard aluminium on a sharp nose in a wide opening: at 15 degrees it is hardly bent yet.
RAIL = """\
format = 1
units = "metric"
[part]
name = "rail bracket"
bar = "flat 10 x 40"
material = "6061-T6"
measured = "outside"
shape = ["160", "up 90", "160"]
{finish}
[tooling]
nose = {{ radius = "6", web = {{ thick = "12", height = "120" }} }}
shoulders = {{ radius = "12", opening = "80", depth = "80", height = "110" }}
"""


def made(text: str, finish: str = "") -> Plan:
    return plan(read_job(text.format(finish=finish)))


def refusals(plan: Plan) -> set[str]:
    return {one.code for one in plan.findings if one.severity is Severity.REFUSAL}


def closing(plan: Plan) -> Closing:
    (work,) = plan.bench_work
    assert isinstance(work, Closing)
    return work


def test_a_channel_is_made_by_closing_one_bend_in_the_vise() -> None:
    whole = made(CHANNEL)
    part_way = made(CHANNEL, "[[part.finish]]\nbend = 1\nat = 50")
    assert refusals(whole) == {"no-order"}
    assert refusals(part_way) == set()
    # The press makes 50 degrees of it, springback counted; the part is the whole one.
    (step,) = (one for one in part_way.steps if one.bend == 1)
    assert step.free_angle == pytest.approx(math.radians(50.0), abs=1e-3)
    assert step.loaded_angle > step.free_angle
    assert whole.blank is not None
    assert part_way.blank is not None
    assert part_way.blank.length == pytest.approx(whole.blank.length)
    assert part_way.blank.marks == whole.blank.marks
    assert np.allclose(part_way.finished[-1], whole.finished[-1])
    assert part_way.job.part.bends == whole.job.part.bends
    # The bands are about the legs as stated, not about those that the press was planned with.
    assert [one.length for one in part_way.legs] == pytest.approx([60.0, 43.5, 60.0])
    assert part_way.legs == whole.legs
    text = " ".join(plan_to_text(part_way).split())
    assert "Bend 1, up 50°, the rest up to 90° at the bench" in text
    assert "Close bend 1 from 50° to 90° in the vise" in text
    assert "Slide a pipe over leg 1" in text
    assert "finish-not-proven" in text


def test_a_hook_that_jams_is_squeezed_shut() -> None:
    assert "bend-jams" in refusals(made(HOOK))
    hook = made(HOOK, '[[part.finish]]\nbend = 1\nat = 90\nby = "squeeze"')
    assert refusals(hook) == set()
    # Nobody knows how far the bend on the press would have moved them.
    assert hook.legs == ()
    work = closing(hook)
    assert work.gauge is not None
    data: dict[str, Any] = plan_to_data(hook)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    (said,) = data["bench_work"]
    assert (said["kind"], said["bend"]) == ("squeeze", 1)
    assert said["from_deg"] == pytest.approx(90.0)
    assert said["to_deg"] == pytest.approx(150.0)
    assert "Press the two legs towards each other" in said["text"]


def test_a_trimmed_leg_is_closed_first_and_sawn_last() -> None:
    text = HOOK.replace('"2"]', '"1-1/4"]\ntrim = {{ end_2 = "3/4" }}')
    hook = made(text, '[[part.finish]]\nbend = 1\nat = 90\nby = "squeeze"')
    assert refusals(hook) == set()
    assert [type(one).__name__ for one in hook.bench_work] == ["Closing", "Sawing"]
    short = made(HOOK.replace('"2"]', '"1-1/4"]'), "[[part.finish]]\nbend = 1\nat = 90")
    assert np.allclose(hook.finished[-1], short.finished[-1], atol=1e-6)


def test_what_no_one_can_pull_or_squeeze_is_refused() -> None:
    heavy = CHANNEL
    for before, after in (
        ("5 x 40", "12 x 80"),
        ('"60", "up 90", "43.5"', '"90", "up 90", "140"'),
        ('shaft = "20"', 'shaft = "32"'),
        ('opening = "55"', 'opening = "90"'),
    ):
        heavy = heavy.replace(before, after)
    pulled = made(heavy, "[[part.finish]]\nbend = 1\nat = 50")
    assert "finish-too-heavy" in refusals(pulled)
    weak = heavy.replace('relief = "170 bar"', 'relief = "20 bar"')
    squeezed = made(weak, '[[part.finish]]\nbend = 1\nat = 50\nby = "squeeze"')
    assert "finish-too-heavy" in refusals(squeezed)
    assert "and the ram gives" in plan_to_text(squeezed)


def test_jaws_need_bar_to_hold() -> None:
    tight = CHANNEL.replace("43.5", "40.4")
    assert "finish-no-grip" in refusals(made(tight, "[[part.finish]]\nbend = 1\nat = 40"))


@pytest.mark.parametrize("by", ["vise", "squeeze"])
def test_a_refused_part_gets_no_figures_to_close_a_bend_by(by: str) -> None:
    # One is refused for its finish, the other for a bend that the press makes whole.
    finish = f'[[part.finish]]\nbend = 1\nat = 40\nby = "{by}"'
    tight = CHANNEL.replace("43.5", "40.4")
    locked = CHANNEL.replace('"up 90", "60"]', '"up 160", "60"]')
    for text in (tight, locked):
        refused = made(text, finish)
        assert refusals(refused)
        closing(refused)
        said = " ".join(plan_to_text(refused).split())
        assert "Close bend 1 from 40° to 90°" in said
        assert "It takes up to" not in said
        assert "opens again by" not in said
        (work,) = plan_to_data(refused)["bench_work"]
        assert not any(sign in work["text"] for sign in "0123456789")
        assert [work[key] for key in ("past_deg", "arm_mm", "force_N", "gauge_MPa")] == [None] * 4
        assert work["to_deg"] == pytest.approx(90.0)
    accepted = plan_to_data(made(CHANNEL, finish))["bench_work"][0]
    assert accepted["force_N"] > 0.0


@pytest.mark.parametrize(("angle", "whole"), [(90, "outside-cracks"), (150, "bend-jams")])
def test_a_bend_that_cracks_is_refused_wherever_it_is_finished(angle: int, whole: str) -> None:
    rail = RAIL.replace("up 90", f"up {angle}")
    assert refusals(made(rail)) == {whole}
    part_way = made(rail, "[[part.finish]]\nbend = 1\nat = 15")
    assert refusals(part_way) == {"outside-cracks"}
    # At the angle that the press makes it would do.
    assert "outside-cracks" not in refusals(made(RAIL.replace("up 90", "up 15")))
    # The milder warning of that angle does not stand beside it.
    codes = [one.code for one in part_way.findings]
    assert "radius-too-small" not in codes
    assert codes.count("outside-cracks") == 1


def test_the_remedy_is_planned_and_its_button_writes_it() -> None:
    text = CHANNEL.format(finish="")
    job = read_job(text)
    before = plan(job)
    found = find_remedies(job, before, keep_going=lambda: True)
    assert found is not None
    ways = [one for one in found.found if one.changes[0].what == "part of the way"]
    assert ways
    remedy = ways[0]
    assert "and finish it in the vise" in offered_text(before, remedy)
    after = read_job(taken(text, job, remedy))
    (finish,) = after.part.finishes
    assert finish.by == "vise"
    assert finish.at == pytest.approx(remedy.changes[0].new)
    assert refusals(plan(after)) == set()


def test_bars_on_each_other_are_not_finished_at_the_bench() -> None:
    stacked = CHANNEL.replace('measured = "inside"', 'measured = "inside"\nstacked = 2')
    with pytest.raises(InputError, match="a bend of bars on each other cannot be finished"):
        read_job(stacked.format(finish="[[part.finish]]\nbend = 1\nat = 50"))
    # Nor is it offered.
    assert part_way(read_job(stacked.format(finish="")), 0) is None
    assert part_way(read_job(CHANNEL.format(finish="")), 0) is not None


def test_what_is_written_reads_back() -> None:
    job = read_job(CHANNEL.format(finish='[[part.finish]]\nbend = 2\nat = 35.5\nby = "squeeze"'))
    assert read_job(write_job(job)).part == job.part


@pytest.mark.parametrize(
    ("finish", "sentence"),
    [
        ("bend = 3\nat = 40", "there is no such bend"),
        ("bend = 1\nat = 90", "at the whole angle of bend 1 or past it"),
        ("bend = 1", "at"),
        ('bend = 1\nat = 20\nby = "squeeze"', "too flat there to be squeezed"),
        ('bend = 1\nat = 40\nby = "hammer"', "hammer"),
        ("bend = 1\nat = 40\n[[part.finish]]\nbend = 1\nat = 50", "two entries"),
        (
            'bend = 1\nat = 40\n[part.close]\nkind = "gap"\nsize = "1"\nabsorb = 1',
            "a bend of a closed shape cannot be finished",
        ),
    ],
)
def test_an_entry_that_cannot_be_meant_is_refused(finish: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        made(CHANNEL, f"[[part.finish]]\n{finish}")
