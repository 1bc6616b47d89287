"""A job is spoken of in its own units: inches in an inch job, millimetres in a metric one."""

from __future__ import annotations

import math
import re
from typing import get_args

import pytest
from attrs import evolve
from plan_fixture import fender_hanger, make_plan
from printed import open_pdf

from strapwright.blank.leg_straights import straights
from strapwright.errors import InputError
from strapwright.pages.figure_reasons import why_travel
from strapwright.planning.plan import plan
from strapwright.proposing.miss_values import (
    Lack,
    NoOpening,
    NoPlate,
    NoseOffRadius,
    NoseTooSharp,
    PressTooWeak,
)
from strapwright.proposing.proposal_values import Choice, Shoulder
from strapwright.quantities import Units
from strapwright.sheets.template_sheet import angles_pdf
from strapwright.shop.rack import Stock
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.proposal_words import lack_clause

METRIC, INCH = r"\d (mm|kN|MPa|bar)\b", r"\d (in|lbf|ksi|psi)\b"
OTHER: dict[Units, str] = {"inch": METRIC, "metric": INCH}
JOB = """format = 1
units = "{units}"
[part]
name = "cleat"
bar = "{bar}"
material = "A36 hot rolled"
{legs}
"""
TOOLING = """[tooling]
nose = {{ radius = "{nose}" }}
shoulders = {{ radius = "{radius}", opening = "{opening}" }}
"""


def stock(name: str) -> Stock:
    return Stock(
        name=name,
        kind="shaft",
        thickness=25.4,
        width=25.4,
        length=300.0,
        count=1,
        material="1045",
        price=0.0,
        origin="rack",
    )


PLATE = stock("plate")
CHOICE = Choice(
    nose=stock("1 round"),
    shoulders=stock("1 round"),
    carriers=PLATE,
    push_plate=PLATE,
    body=PLATE,
    opening=82.55,
)
# Sizes are whole fractions of an inch: 25.4 mm to the inch, 4.4482216 N to the pound.
LACKS: list[tuple[Lack, str, str]] = [
    (
        NoseTooSharp(nose="pin", part="cleat", radius=6.35, least=9.525, source="handbook"),
        "pin: radius 1/4 in, but cleat needs 3/8 in at least (handbook)",
        "pin: radius 6.35 mm, but cleat needs 9.53 mm at least (handbook)",
    ),
    (
        NoseOffRadius(nose="pin", part="cleat", radius=12.7, wanted=19.05),
        "pin: gives 1/2 in inside, but cleat needs 3/4 in",
        "pin: gives 12.7 mm inside, but cleat needs 19.05 mm",
    ),
    (
        NoOpening(nose="pin", shoulders=Shoulder(name="rod", radius=10.0), least=76.2, most=63.5),
        ("pin on rod: to pass without a jam the opening must be 3.00 in or more, and the shortest "
        "leg allows 2.50 in"),
        ("pin on rod: to pass without a jam the opening must be 76.2 mm or more, and the shortest "
        "leg allows 63.5 mm"),
    ),
    (
        PressTooWeak(
            nose="pin",
            shoulders=Shoulder(name="rod", radius=10.0),
            opening=82.55,
            force=44482.216,
            most=22241.108,
        ),
        "pin on rod, opening 3.25 in: needs 10000 lbf, but the press gives 5000 lbf at relief",
        "pin on rod, opening 82.5 mm: needs 44.5 kN, but the press gives 22.2 kN at relief",
    ),
    (
        NoPlate(choice=CHOICE),
        "nose 1 round, shoulders 1 round, opening 3-1/4 in: no plate is large enough for a member",
        "nose 1 round, shoulders 1 round, opening 82.55 mm: no plate is large enough for a member",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("lack", "inch", "metric"), LACKS)
def test_what_a_candidate_lacks_is_said_in_the_units_of_the_job(
    lack: Lack, inch: str, metric: str
) -> None:
    assert lack_clause(lack, "inch") == inch
    assert lack_clause(lack, "metric") == metric


@pytest.mark.parametrize("units", get_args(Units))
def test_the_travel_is_explained_in_the_units_of_the_job(units: Units) -> None:
    made = make_plan(units)
    told = " ".join(value for _, value in why_travel(made, made.steps[0]).inputs)
    assert f"° per {'0.010 in' if units == 'inch' else '0.1 mm'}" in told
    assert not re.search(OTHER[units], told)
    # The same turn per mm either way: 0.254 mm are 0.010 in.
    per_mm = math.degrees(made.steps[0].speed.sensitivity)
    assert f"{per_mm * (0.254 if units == 'inch' else 0.1):.1f}°" in told


@pytest.mark.parametrize(("paper", "clears"), [("letter", "1/2 in"), ("a4", "12 mm")])
def test_paper_gauges_say_what_they_clear_in_the_units_of_the_paper(
    paper: str, clears: str
) -> None:
    pdf = angles_pdf([45.0], paper=paper)  # type: ignore[arg-type]
    text = " ".join(" ".join(page.extract_text().split()) for page in open_pdf(pdf))
    assert f"clear inside radii up to {clears} unless" in text


BAD = {
    "leg too short": (
        'inside_radius = "1/2"\nshape = ["1/4", "up 90", "4"]',
        'inside_radius = "12"\nshape = ["6", "up 90", "100"]',
    ),
    "hole past its leg": (
        'shape = ["3", "up 90", "4"]\n[[part.hole]]\nleg = 1\nfrom_end = "5"\ndiameter = "1/2"',
        'shape = ["75", "up 90", "100"]\n[[part.hole]]\nleg = 1\nfrom_end = "90"\ndiameter = "9"',
    ),
    "nose does not pass": ('shape = ["3", "up 90", "4"]', 'shape = ["75", "up 90", "100"]'),
    "certificate": (
        'shape = ["3", "up 90", "4"]\n[lot]\nyield = "60 ksi"\ntensile = "50 ksi"',
        'shape = ["75", "up 90", "100"]\n[lot]\nyield = "400 MPa"\ntensile = "350 MPa"',
    ),
}


@pytest.mark.parametrize("units", get_args(Units))
@pytest.mark.parametrize("what", BAD)
def test_bad_input_is_refused_in_the_units_of_the_job(what: str, units: Units) -> None:
    inch = units == "inch"
    text = JOB.format(
        units=units, bar="flat 1/4 x 2" if inch else "flat 6 x 50", legs=BAD[what][not inch]
    )
    if what == "nose does not pass":
        sizes = ("1", "1/2", "2-1/2") if inch else ("25", "12", "60")
        nose, radius, opening = sizes
        text += TOOLING.format(nose=nose, radius=radius, opening=opening)
    with pytest.raises(InputError, match=INCH if inch else METRIC) as refused:
        plan(read_job(text))
    assert not re.search(OTHER[units], str(refused.value)), str(refused.value)
    assert not re.search(OTHER[units], refused.value.told(str, str))


def test_a_question_ends_before_what_to_do() -> None:
    text = JOB.format(units="inch", bar="flat 3 x 50", legs='shape = ["3", "up 90", "4"]')
    text += TOOLING.format(nose="1/2", radius="1/2", opening="2-1/2")
    with pytest.raises(InputError, match=r"was a bar of 3 mm meant\? Write the unit") as refused:
        plan(read_job(text))
    assert "?;" not in refused.value.told(str, str)


def test_who_knows_no_units_is_told_both() -> None:
    part = evolve(fender_hanger(), legs=(6.35, 90.0, 100.0, 60.0))
    with pytest.raises(InputError, match=r"leg 1 is 6\.35 mm \(0\.250 in\) measured"):
        straights(part, None, inside_radii=[12.7, 12.7, 12.7])
