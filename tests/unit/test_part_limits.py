"""Limits of a part as a person states and reads them: file, command, sheet, page."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest
from attrs import evolve

from page_texts import page_texts
from strapwright.planning.limits_and_weights.limit_chances import limits_of
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.sheets.inspection_sheet import inspection_sheet
from strapwright.shop.job import Job
from strapwright.shop.part_limits import bend_limit, leg_limit, taking_leg
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.wording.figures import figures_for
from strapwright.wording.limits_and_weights.limit_words import limit_words, odds

RAIL = (Path(__file__).parents[2] / "docs/examples/gangway-rail-bracket.toml").read_text("utf-8")


def job_with(said: str) -> Job:
    return read_job(RAIL.replace("[press]", f"{said}\n[press]"))


@cache
def held() -> Plan:
    said = '[part.tolerance]\nclass = "c"\ntakes = 1\n[[part.limit]]\nbend = 2\nangle = 2'
    return plan(job_with(said), search=False)


def test_the_nearest_statement_goes_first() -> None:
    part = job_with("").part
    # Legs of 110 and 160 by class c, said to be assumed; angles 1 degree.
    assert leg_limit(part, 1) == (0.8, "assumed")
    assert bend_limit(part, 1) == (math.radians(1), "assumed")
    assert taking_leg(part) == 3
    part = job_with('angle_tolerance = 0.75\n[part.tolerance]\nclass = "v"').part
    assert leg_limit(part, 2) == (2.5, "class")
    assert bend_limit(part, 1) == (math.radians(0.75), "job")
    said = '[part.tolerance]\nclass = "c"\nlength = "0.6"\n[[part.limit]]\nleg = 2\nlength = 0.25'
    part = job_with(said).part
    assert leg_limit(part, 1) == (0.6, "job")
    assert leg_limit(part, 2) == (0.25, "own")
    # The shorter leg beside bend 2 is 120 mm: class c, 30 minutes.
    assert bend_limit(part, 2) == (pytest.approx(math.radians(0.5)), "class")
    assert read_job(write_job(job_with(said))) == job_with(said)


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (None, "not checked"),
        (1.0, "99 in 100"),
        (0.9899, "95 in 100"),
        (0.9499, "9 in 10"),
        (0.8999, "8 in 10"),
        (0.0999, "under 1 in 10"),
    ],
)
def test_odds_are_rounded_down(chance: float | None, said: str) -> None:
    assert odds(chance) == said


def test_limits_are_rounded_inwards() -> None:
    made = held()
    inch = evolve(made, job=evolve(made.job, units="inch"))
    rows = {
        one.name: (one.low, one.high)
        for one in limit_words(limits_of(inch), made.job.part, figures_for(inch.job))
    }
    # 109.2 mm is 4.29921 in, 110.8 mm is 4.36220 in; 15 minutes of 90 degrees.
    assert rows["Leg 1"] == ("4.300", "4.362 in")
    assert rows["Bend 1"] == ("89.50", "90.50°")
    assert rows["Bend 2"] == ("43.00", "47.00°")


def test_a_leg_takes_the_error_and_its_marks_run_from_end_2() -> None:
    made = held()
    found = limits_of(made)
    assert made.blank is not None
    assert [label for label, _ in found.from_end_2] == ["1", "2"]
    for label, place in found.from_end_2:
        mark = made.blank.marks_of(int(label))[0]
        assert place + mark.nose == pytest.approx(made.blank.length)
    text = plan_to_text(made)
    assert "Leg 1 takes what the other legs leave." in text
    assert "Measure from end 2 to the middle of the nose: bend 1 at " in text
    # What is assumed is not told unasked.
    bare = plan(job_with(""), search=False)
    assert "Limits" not in plan_to_text(bare)
    assert "ISO 2768-c, assumed" in plan_to_text(bare, details=True)


def test_the_plan_as_data_has_the_chances_and_none_of_a_refused_part() -> None:
    limits = plan_to_data(held())["limits"]
    assert limits["takes_leg"] == 1
    assert [one["by"] for one in limits["bends"]] == ["class", "own"]
    assert all(0 < one["chance_first"] <= one["chance_later"] <= 1 for one in limits["legs"])
    short = job_with("")
    short = evolve(short, part=evolve(short.part, legs=(24.0, *short.part.legs[1:])))
    refused = plan_to_data(plan(short, search=False))["limits"]
    assert [one["chance_first"] for one in refused["bends"]] == [None, None]


def test_nothing_is_proven_of_a_bend_that_is_stopped_by_eye() -> None:
    made = held()
    eye = evolve(made, steps=tuple(evolve(one, stop="by eye") for one in made.steps))
    found = limits_of(eye)
    assert [one.chance for one in found.bends] == [None, None]
    assert None not in [one.chance for one in found.legs]


def test_the_sheet_has_a_row_for_every_leg_and_angle_with_its_paper_gauge() -> None:
    pdf = inspection_sheet(held())
    assert inspection_sheet(held()) == pdf
    text = " ".join("".join(page_texts(pdf)).split())
    for said in ("109.20 to 110.80 mm", "89.50 to 90.50°", "45° gauge", "Leg 3", "First part"):
        assert said in text, text
