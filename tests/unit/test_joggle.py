"""A joggle as one entry of the shape: two bends, the leg between them, and what cannot be meant."""

from __future__ import annotations

import math

import pytest

from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.pages.fields.part_fields import shape_rows
from strapwright.pages.form import form_text, open_form
from strapwright.planning.plan import plan
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

STRAP = """\
format = 1
units = "metric"
[part]
name = "fender strap"
bar = "flat 5 x 40"
material = "S235"
measured = "{measured}"
assumed_radius = "8"
shape = ["100", "{joggle}", "120"]
"""
TOOLING = """
[tooling]
nose = { shaft = "20" }
shoulders = { radius = "8", opening = "50", height = "150", outer_edge = "35" }
"""


def job(joggle: str = "joggle up 12 over 50", measured: str = "outside") -> str:
    return STRAP.format(joggle=joggle, measured=measured)


@pytest.mark.parametrize(
    ("measured", "leg"),
    # atan(12/50) = 13.496 degrees, and from corner to corner sqrt(12^2 + 50^2) = 51.420 mm; a face
    # ends 5/2 tan(6.748) = 0.2958 mm off the mid-line at each of the two corners.
    [("centre", 51.420), ("outside", 51.420 + 0.5916), ("inside", 51.420 - 0.5916)],
)
def test_offset_and_length_make_two_bends_and_the_leg_between(measured: str, leg: float) -> None:
    part = read_job(job(measured=measured)).part
    assert [round(math.degrees(bend.angle), 3) for bend in part.bends] == [13.496, 13.496]
    assert [bend.side for bend in part.bends] == [1, -1]
    assert part.legs[1] == pytest.approx(leg, abs=1e-3)
    made = plan(read_job(job(measured=measured)))
    # The last leg runs on beside the first one, as far off as it was asked for.
    (x, y), (before, last) = made.finished[0], made.finished[-1]
    assert last - y == pytest.approx(12.0, abs=0.01)
    corner = 5.0 / 2 * math.tan(math.radians(6.748))
    shift = {"centre": 0.0, "outside": corner, "inside": -corner}[measured]
    assert before - x == pytest.approx(220.0 + 50.0 - 2 * shift, abs=0.01)


def test_down_turns_the_other_way_first() -> None:
    part = read_job(job("joggle down 12 over 50")).part
    assert [bend.side for bend in part.bends] == [-1, 1]


def test_a_joggle_is_planned_to_the_press() -> None:
    made = plan(read_job(job("joggle up 40 over 60") + TOOLING))
    assert not [one for one in made.findings if one.severity is Severity.REFUSAL]
    assert {step.bend for step in made.steps} == {1, 2}
    assert {step.hold.face for step in made.steps} == {"top", "bottom"}


def test_one_too_small_for_its_bends_or_the_opening_is_refused() -> None:
    with pytest.raises(InputError, match="leg 2 is"):
        plan(read_job(job("joggle up 12 over 1")))
    made = plan(read_job(job("joggle up 12 over 20") + TOOLING))
    assert [one.code for one in made.findings if one.severity is Severity.REFUSAL] == ["no-order"]


def test_the_page_shows_it_as_one_entry_and_keeps_it() -> None:
    rows = shape_rows(["100", "joggle up 12 over 50", "120", "up 90", "60"])
    assert [(row.kind, row.number) for row in rows] == [
        ("leg", 1),
        ("joggle", 1),
        ("leg", 3),
        ("bend", 3),
        ("leg", 4),
    ]
    form = open_form(job(), "part")
    assert form.values["part.shape[2]"] == "up 12 over 50"
    assert form_text(job(), form) == job()


def test_what_is_written_reads_back() -> None:
    before = read_job(job()).part
    after = read_job(write_job(read_job(job()))).part
    assert after.bends == before.bends
    assert after.legs == pytest.approx(before.legs)


@pytest.mark.parametrize(
    ("joggle", "sentence"),
    [
        ("joggle up 12", "does not say how the joggle is made"),
        ("joggle 12 over 50", "does not say how the joggle is made"),
        ("joggle up 0 over 50", "offset"),
        ("joggle up 12 over none", "no number"),
        ("jogle up 12 over 50", "joggle"),
    ],
)
def test_what_cannot_be_meant_is_refused(joggle: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        read_job(job(joggle))


def test_legs_and_joggles_take_turns() -> None:
    text = job().replace('"120"]', '"up 90", "120"]').replace('"100", ', '"100", ')
    with pytest.raises(InputError, match="behind a joggle"):
        read_job(text)
