"""What would make a refused part: planned from the changed file it is made, a step back it is not.

No figure of a remedy stands here as an expectation: the limit is held from both sides by planning
the changed job anew, from the text of its file.
"""

from __future__ import annotations

import math
from typing import Any

import jsonschema
import pytest
from attrs import evolve
from test_plan_json import SCHEMA

from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.pages.taking_remedies import taken
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Change, Remedies, Remedy, Tried
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.search_figures import find_remedies
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.figures import figures_for
from strapwright.wording.remedy_words import remedy_words, rest_words

PRESS = """
[press]
bore = "3-3/4"
rod = "2"
relief = "2200 psi"
stroke = "10"
pump = "1 gpm"
daylight = "8"
bed_width = "16"
"""
NARROW = """
[tooling]
plate = { width = "4", thick = "3/4" }
[tooling.nose]
shaft = "3/4"
span = "2-1/2"
web = { thick = "1/2", height = "4" }
[tooling.shoulders]
radius = "3/8"
opening = "2-1/4"
depth = "2-1/2"
height = "4"
outer_edge = "1-1/2"
"""
# A leg that ends on the shoulder.
BRACKET = (
    """\
format = 1
units = "inch"
[part]
name = "deck bracket"
quantity = 12
bar = "flat 3/16 x 1-1/2"
material = "1018 HR"
shape = ["8", "up 90", "6", "up 90", "1 1/4"]
"""
    + PRESS
    + NARROW
)
# Bends both ways: the made ones hang down to the bed.
HOOK = (
    """\
format = 1
units = "inch"
[part]
name = "wall hook"
quantity = 12
bar = "flat 1/4 x 1-1/2"
material = "a36"
shape = ["5", "down 90", "4", "up 45", "3-1/2", "up 45", "3", "up 60", "2 1/2", "down 30", "2"]
"""
    + PRESS
    + NARROW
)
# Both short legs lie between bends that turn either way.
KEEPER = (
    """\
format = 1
units = "inch"
[part]
name = "hatch keeper"
quantity = 12
bar = "flat 3/16 x 1-1/4"
material = "1018 hot rolled"
measured = "inside"
shape = ["1 1/2", "up 90", "1-3/8", "down 90", "2.25", "down 90", "1 3/8", "up 90", "1 1/2"]
"""
    + PRESS
    + NARROW
)
# A narrow channel: its first leg swings over the nose and meets the web.
CLIP = """\
format = 1
units = "metric"
[part]
name = "railing clip"
quantity = 40
bar = "flat 5 x 40"
material = "304"
measured = "inside"
shape = ["60", "up 90", "42.5", "up 90", "60"]
[press]
bore = "100"
rod = "50"
relief = "170 bar"
stroke = "250"
pump = "4 l/min"
daylight = "200"
bed_width = "400"
[tooling]
plate = { width = "110", thick = "20" }
[tooling.nose]
shaft = "20"
span = "64"
web = { thick = "12", height = "120" }
[tooling.shoulders]
radius = "10"
opening = "55"
depth = "80"
height = "110"
outer_edge = "37.5"
"""
# Stout rounds close together: the bar is gripped before the bend is made.
GRIPPED = """\
format = 1
units = "metric"
[part]
name = "gripped strap"
quantity = 4
bar = "flat 6 x 40"
material = "S235JR"
shape = ["120", "up 60", "140", "up 119", "120"]
[press]
bore = "100"
rod = "50"
relief = "170 bar"
stroke = "250"
pump = "1 l/min"
daylight = "200"
bed_width = "400"
[tooling]
plate = { width = "60", thick = "20" }
[tooling.nose]
radius = "16"
reach = "220"
span = "70"
[tooling.shoulders]
radius = "14"
opening = "63"
depth = "100"
height = "140"
outer_edge = "50"
"""
JOBS = {
    "leg": BRACKET,
    "bed": HOOK,
    "keeper": KEEPER,
    "web": CLIP,
    "jam": GRIPPED,
}


def always() -> bool:
    return True


def looked(text: str) -> tuple[Job, Plan, Remedies]:
    job = read_job(text)
    made = plan(job)
    found = find_remedies(job, made, keep_going=always)
    assert found is not None
    return job, made, found


SLOW = {"bed", "keeper", "jam"}
NAMES = [pytest.param(name, marks=[pytest.mark.long] * (name in SLOW)) for name in JOBS]


class Found(dict[str, tuple[Job, Plan, Remedies]]):
    """What was found by the name of the job, each looked for once it is asked for."""

    def __missing__(self, name: str) -> tuple[Job, Plan, Remedies]:
        self[name] = looked(JOBS[name])
        return self[name]


@pytest.fixture(scope="module")
def found() -> Found:
    return Found()


def refused(made: Plan) -> bool:
    return any(one.severity == Severity.REFUSAL for one in made.findings)


def warned(made: Plan) -> set[str]:
    return {one.code for one in made.findings if one.severity == Severity.WARNING}


def made_by(text: str, remedy: Remedy) -> Plan:
    """Plan the file that the button writes."""
    return plan(read_job(taken(text, read_job(text), remedy)))


def a_step_back(change: Change) -> Change:
    back = change.step if change.new < (change.old or math.inf) else -change.step
    return evolve(change, new=round(change.new + back, 9))


def with_figure(text: str, remedy: Remedy, change: Change) -> str:
    """Write a job file with another figure in the place of one of a remedy's, by its key."""
    job = read_job(taken(text, read_job(text), remedy))
    tooling = job.tooling
    assert tooling is not None
    value: dict[str, Any] = {}
    match change.what:
        case "opening" | "shoulder radius" | "shoulder height":
            key = {"shoulder radius": "radius", "shoulder height": "height"}.get(
                change.what, "opening"
            )
            value[key] = change.new
            edge = tooling.shoulders.outer_edge
            if key == "opening" and edge is not None:
                value["outer_edge"] = edge + (change.new - tooling.shoulders.opening) / 2
            changed = evolve(tooling, shoulders=evolve(tooling.shoulders, **value))
            return taken(text, read_job(text), evolve(remedy, job=evolve(job, tooling=changed)))
        case "leg":
            return taken(text, read_job(text), evolve(remedy, changes=(change,)))
    raise AssertionError(change.what)


KEYED = ("opening", "shoulder radius", "shoulder height", "leg")


@pytest.mark.parametrize("name", NAMES)
def test_what_is_offered_makes_the_part_from_its_file(name: str, found: Found) -> None:
    _, before, remedies = found[name]
    assert refused(before)
    assert remedies.found
    for remedy in remedies.found:
        after = made_by(JOBS[name], remedy)
        assert not refused(after), remedy.changes
        # Nothing that hurts comes with it: only what a faster or steeper end of the stroke brings.
        assert warned(after) - warned(before) <= {
            "too-fast-to-stop",
            "past-proven-angle",
            "finish-not-proven",
        }
        assert tuple(step.bend for step in after.steps) == remedy.order


@pytest.mark.parametrize("name", NAMES)
def test_a_plan_that_names_no_reasons_says_yes_and_no_to_the_same_parts(
    name: str, found: Found
) -> None:
    """The search asks this way; what stands in the way is looked for once it is shown."""
    job, before, remedies = found[name]
    short = plan(job, explain=False)
    assert [one.code for one in short.findings] == [one.code for one in before.findings]
    for remedy in remedies.found:
        assert plan_to_data(plan(remedy.job, explain=False)) == plan_to_data(plan(remedy.job))


@pytest.mark.parametrize("name", NAMES)
def test_a_step_back_from_the_figure_the_part_is_refused(name: str, found: Found) -> None:
    _, before, remedies = found[name]
    held = 0
    for remedy in remedies.found:
        if any(one.what not in KEYED for one in remedy.changes):
            continue
        for change in remedy.changes:
            back = a_step_back(change)
            others = evolve(
                remedy,
                changes=tuple(back if one is change else one for one in remedy.changes),
            )
            try:
                after = plan(read_job(with_figure(JOBS[name], others, back)))
            except InputError:
                held += 1
                continue
            worse = warned(after) - warned(before) - {"too-fast-to-stop", "past-proven-angle"}
            assert refused(after) or worse, change
            held += 1
    assert held


@pytest.mark.parametrize("name", NAMES)
def test_the_figures_are_in_the_steps_of_the_shop(name: str, found: Found) -> None:
    job, _, remedies = found[name]
    for remedy in remedies.found:
        for change in remedy.changes:
            if change.what == "part of the way":
                steps = math.degrees(change.new)
            else:
                steps = change.new / (25.4 / 32 if job.units == "inch" else 0.5)
            assert steps == pytest.approx(round(steps), abs=1e-6)


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        # A leg short of its shoulder: leave it longer and saw it off, or bring the shoulder in.
        ("leg", [("trim",), ("opening",)]),
        # Wings that hang to the bed.
        pytest.param("bed", [("shoulder height",)], marks=pytest.mark.long),
        # Gripped between the rounds, (W/2) = (nose + shoulder + T) sin(jam/2): they go further
        # apart.
        pytest.param("jam", [("opening",)], marks=pytest.mark.long),
    ],
)
def test_what_stands_against_a_part_says_what_is_tried(
    name: str, wanted: list[tuple[str]], found: Found
) -> None:
    whats = [tuple(change.what for change in one.changes) for one in found[name][2].found]
    assert set(wanted) <= set(whats)
    if name == "leg":
        assert whats[0] == ("trim",)


def test_no_single_size_helps_where_the_web_crosses_the_swing_of_the_leg(found: Found) -> None:
    whats = [tuple(change.what for change in one.changes) for one in found["web"][2].found]
    assert any("no web" in one for one in whats)
    assert any("part of the way" in one for one in whats)


def test_an_end_leg_is_left_longer_and_sawn_off(found: Found) -> None:
    job, _, remedies = found["leg"]
    [leg] = [one for one in remedies.found if one.changes[0].what == "trim"]
    [change] = leg.changes
    assert (change.numbers, change.old) == ((3,), None)
    # Half of 2-1/4 in and 1/8 in to spare, less the 1-1/16 in of straight that the leg has.
    assert 0.1 * 25.4 < change.new < 0.35 * 25.4
    said = remedy_words(leg, figures_for(job)).order
    assert said.startswith("Leave leg 3 ")
    assert said.endswith("and saw it to length after bending.")
    assert leg.job.part.legs == job.part.legs


def test_a_bend_made_part_of_the_way_keeps_the_marks_of_the_whole(
    found: Found,
) -> None:
    _, _, remedies = found["web"]
    [remedy] = [one for one in remedies.found if one.changes[-1].what == "part of the way"]
    [bend] = remedy.changes[-1].numbers
    after = plan(remedy.job)
    assert not refused(after)
    made = remedy.job.part.pressed_angle(bend)
    assert made == pytest.approx(remedy.changes[-1].new)
    assert made < math.radians(90.0)
    # With the same tooling the whole part is marked in the same places.
    whole = plan(evolve(read_job(CLIP), tooling=remedy.job.tooling), search=False)
    assert whole.blank is not None
    assert after.blank is not None
    marks = [mark.nose for mark in whole.blank.marks]
    assert [mark.nose for mark in after.blank.marks] == pytest.approx(marks, abs=1e-6)
    assert after.blank.length == pytest.approx(whole.blank.length, abs=1e-6)
    again = read_job(taken(CLIP, read_job(CLIP), remedy))
    assert again.part.pressed_angle(bend) == pytest.approx(made)


# Finished, leg 4 lies across leg 1: no tooling and no order makes it.
CROSSED = CLIP.replace(
    '"60", "up 90", "42.5", "up 90", "60"', '"90", "up 90", "60", "up 90", "60", "up 90", "90"'
)


def test_a_part_that_nothing_helps_says_so() -> None:
    job, made, remedies = looked(CROSSED)
    assert refused(made)
    assert remedies.found == ()
    text = " ".join(rest_words(remedies, figures_for(job)))
    assert "No size of part or tooling is known that would help." in text
    told = plan_to_text(with_remedies(made, remedies))
    assert "How to make it possible" in told
    assert "Try " not in told.partition("Warnings")[0]


def test_what_was_tried_in_vain_is_said_with_how_far() -> None:
    tried = (
        Tried(what="opening", old=55.0, end=41.0),
        Tried(what="leg", numbers=(2, 4), old=42.5, end=150.0),
    )
    remedies = Remedies(found=(), in_vain=tried, untried=(), pairs="tried")
    [said] = rest_words(remedies, figures_for(read_job(CLIP)))
    assert said == (
        "No change that was tried alone or two at once is enough: the opening down to 41 mm and "
        "legs 2 and 4 longer up to 150 mm."
    )


def test_what_there_was_no_time_for_is_named() -> None:
    job = read_job(BRACKET)
    made = plan(job)
    asked = [0]

    def twice() -> bool:
        asked[0] += 1
        return asked[0] < 3

    remedies = find_remedies(job, made, keep_going=twice)
    assert remedies is not None
    assert remedies.found == ()
    assert [one.what for one in remedies.untried] == ["trim", "opening"]
    said = " ".join(rest_words(remedies, figures_for(job)))
    assert "because the time ran out: leg 3 left longer and sawn to length and the opening." in said
    assert "No change that was tried" not in said


def test_a_part_that_is_made_is_not_looked_at() -> None:
    job = read_job(BRACKET.replace('"1 1/4"', '"4"'))
    made = plan(job)
    assert not refused(made)
    assert find_remedies(job, made, keep_going=always) is None
    assert with_remedies(made, None) is made


@pytest.mark.parametrize("name", NAMES)
def test_text_and_json_say_every_remedy_and_no_untried_advice(name: str, found: Found) -> None:
    job, made, remedies = found[name]
    whole = with_remedies(made, remedies)
    text = " ".join(plan_to_text(whole).split())
    data = plan_to_data(whole)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert len(data["remedies"]["found"]) == len(remedies.found)
    for one, said in zip(remedies.found, data["remedies"]["found"], strict=True):
        words = remedy_words(one, figures_for(job))
        assert f"{words.order} {words.checked}" in text
        assert said["text"] == words.order
        assert len(said["changes"]) == len(one.changes)
    # What may help by kind alone is no longer told beside what was tried.
    advice = [one["remedy"] for one in data["findings"] if one["severity"] == "refusal"]
    assert advice == [""] * len(advice)
    assert any(one["remedy"] for one in plan_to_data(made)["findings"])
