"""End legs left longer for bending and sawn off after: blank, marks, order, part, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.pages.form import form_text, open_form
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_text import plan_to_text
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

INCH = 25.4
TOOLING = """
[tooling]
nose = { shaft = "3/4", web = { thick = "1/2", height = "4" } }
shoulders = { radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }
"""
# The last leg ends on the shoulder.
BRACKET = """\
format = 1
units = "inch"
[part]
name = "deck bracket"
bar = "flat 3/16 x 1-1/2"
material = "1018 HR"
shape = ["8", "up 90", "6", "up 90", "1 1/4"]
{trim}
[[part.hole]]
leg = 3
from_end = "3/8"
diameter = "1/4"
[[part.hole]]
leg = 1
from_end = "1"
diameter = "1/4"
"""
# Both lips are short.
TRAY = """\
format = 1
units = "metric"
[part]
name = "winch cover lip"
bar = "flat 4 x 30"
material = "S235"
shape = ["24", "up 90", "150", "down 60", "22"]
trim = { end_1 = "12", end_2 = "15" }
[tooling]
nose = { shaft = "16", web = { thick = "10", height = "90" } }
shoulders = { radius = "8", opening = "48", depth = "70", height = "90", outer_edge = "34" }
"""


def bracket(trim: str = "", tooling: str = TOOLING) -> Plan:
    return plan(read_job(BRACKET.format(trim=trim) + tooling))


def refused(made: Plan) -> bool:
    return any(one.severity is Severity.REFUSAL for one in made.findings)


def test_what_is_left_on_goes_onto_the_blank_and_the_part_stays() -> None:
    short, long = bracket(), bracket('trim = { end_1 = "1/2", end_2 = "1/4" }')
    assert short.blank is not None
    assert long.blank is not None
    assert refused(short)
    assert not refused(long)
    assert long.blank.length - short.blank.length == pytest.approx(0.75 * INCH)
    # All is counted from end 1, where half an inch was left on.
    for before, after in zip(short.blank.marks, long.blank.marks, strict=True):
        assert after.nose - before.nose == pytest.approx(0.5 * INCH)
    for hole, drilled in zip(short.blank.holes, long.blank.holes, strict=True):
        assert drilled.position - hole.position == pytest.approx(0.5 * INCH)
    first, last = long.blank.saws
    assert (first.end, first.position) == (1, pytest.approx(0.5 * INCH))
    assert last.end == 2
    assert last.position == pytest.approx(long.blank.length - 0.25 * INCH)
    # The finished part is the one that was stated, and drawn so.
    assert long.job.part.legs == short.job.part.legs
    assert np.allclose(long.finished[[0, -1]], short.finished[[0, -1]], atol=1e-6)
    assert np.allclose(long.dimension_points, short.dimension_points, atol=1e-6)
    # What is sawn off is carried to the press and not delivered.
    assert long.weights is not None
    assert short.weights is not None
    assert long.weights.part == pytest.approx(short.weights.part)
    assert long.weights.blank == pytest.approx(
        (short.weights.blank or 0.0) + 0.75 * INCH * long.weights.per_length
    )


def test_the_work_says_what_comes_off_and_what_the_leg_then_measures() -> None:
    made = bracket('trim = { end_2 = "1/4" }')
    text = " ".join(plan_to_text(made).split())
    assert "Saw end 2 to length: Saw off 1/4 in" in text
    assert "Leg 3 then measures 1-1/4 in outside." in text
    assert made.blank is not None
    (work,) = made.bench_work
    assert work.position == made.blank.saws[0].position


def test_two_short_lips_are_bent_long_and_both_sawn_off() -> None:
    job = read_job(TRAY)
    made = plan(job)
    assert not refused(made)
    assert [(one.end, one.length) for one in made.bench_work] == [(1, 12.0), (2, 15.0)]
    assert refused(plan(read_job(TRAY.replace('trim = { end_1 = "12", end_2 = "15" }', ""))))
    again = read_job(write_job(job))
    assert again.part == job.part


def test_without_tooling_the_blank_is_long_too() -> None:
    radius = 'assumed_radius = "3/8"\n'
    short = bracket(radius, "")
    long = bracket(radius + 'trim = { end_2 = "1/4" }', "")
    assert short.blank is not None
    assert long.blank is not None
    assert long.blank.length - short.blank.length == pytest.approx(0.25 * INCH)
    assert np.allclose(long.finished[-1], short.finished[-1], atol=1e-6)


def test_the_page_of_the_part_keeps_what_it_does_not_show_open() -> None:
    text = BRACKET.format(trim='trim = { end_2 = "1/4" }\ndue = "2026-12-04"') + TOOLING
    form = open_form(text, "part")
    assert form.values["part.trim.end_2"] == "1/4"
    assert form_text(text, form) == text


# Shallow and short: the shape, what is sawn off, and a hole from the bend.
STAY = """\
format = 1
units = "metric"
[part]
name = "rail stay"
bar = "flat 5 x 40"
material = "S235"
measured = "outside"
assumed_radius = "20"
shape = ["60", "up 60", "{leg}"]
trim = {{ end_2 = "40" }}
{hole}
"""
HOLE = '[[part.hole]]\nleg = 2\nfrom_bend = 1\ndistance = "{at}"\ndiameter = "10"'


def test_a_saw_line_in_the_bend_is_refused() -> None:
    # The leg takes up (20 + 5) tan 30 = 14.43 mm of its bend.
    with pytest.raises(InputError, match="the saw line would lie in bend 1") as refused:
        plan(read_job(STAY.format(leg="14.4", hole="")))
    assert "make leg 2 at least 14.44 mm" in str(refused.value)
    made = plan(read_job(STAY.format(leg="14.44", hole="")))
    assert made.blank is not None
    assert made.blank.saws[0].position == pytest.approx(made.blank.zone(1)[1], abs=0.01)
    # So it is at end 1.
    turned = STAY.replace("end_2", "end_1").replace('"60", "up 60", "{leg}"', '"14", "up 60", "60"')
    with pytest.raises(InputError, match=r"leg 1 is 14\.00 mm once it is sawn off"):
        plan(read_job(turned.format(hole="")))


def test_a_hole_on_what_is_sawn_off_is_refused() -> None:
    # Sawn off at 30 mm: an edge at 29.9 stays on the part, at 30 and past it does not.
    assert plan(read_job(STAY.format(leg="30", hole=HOLE.format(at="24.9")))).blank is not None
    for at in ("25", "28"):
        with pytest.raises(InputError, match="comes to the saw line at end 2 or past it"):
            plan(read_job(STAY.format(leg="30", hole=HOLE.format(at=at))))


@pytest.mark.parametrize(
    ("trim", "sentence"),
    [
        ('trim = { leg_2 = "1/4" }', "leg_2"),
        ('trim = { end_1 = "0" }', "end_1"),
        (
            'trim = { end_1 = "1/4" }\n[part.close]\nkind = "gap"\nsize = "1/16"\nabsorb = 1',
            "the ends of a closed shape have no room for it",
        ),
    ],
)
def test_what_cannot_be_trimmed_is_refused(trim: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        bracket(trim)
