"""Legs that follow from the size of the finished part over all, and what no length can settle."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from telling import told
from test_web import PORT, Browser, begun, shaped

from strapwright.errors import InputError
from strapwright.pages.fields.part_fields import part_fields
from strapwright.pages.form import form_text, notes_of, open_form
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.scene.bar_outline import bar_outline
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.store import open_store
from strapwright.web import create_app

STRAP = """\
format = 1
units = "metric"
[part]
name = "fender strap"
bar = "flat 6 x 40"
material = "S235"
measured = "{measured}"
assumed_radius = "{radius}"
shape = [{shape}]
overall = {{ {overall} }}
"""
BOTH = 'width = "150", height = "100"'
U = '"? arm", "up 90", "?", "up 90", "? arm"'
HAT = '"? foot", "up 90", "? side", "down 90", "60", "down 90", "? side", "up 90", "? foot"'
Z45 = '"80", "up 45", "?", "down 45", "80"'


def job(shape: str, overall: str = BOTH, measured: str = "outside", radius: str = "8") -> str:
    return STRAP.format(shape=shape, overall=overall, measured=measured, radius=radius)


@pytest.mark.parametrize(
    ("shape", "overall", "measured", "legs"),
    [
        # An angle: its legs outside are its sizes; inside they are 6 mm less each.
        ('"?", "up 90", "?"', BOTH, "outside", (150.0, 100.0)),
        ('"?", "up 90", "?"', BOTH, "inside", (144.0, 94.0)),
        ('"?", "up 90", "?"', BOTH, "centre", (147.0, 97.0)),
        # A clip: leg 1 lies along the width, so the arms are 150 and what joins them 100.
        (U, BOTH, "outside", (150.0, 100.0, 150.0)),
        # One arm stated longer than the other: the longer one alone is the width.
        ('"90", "up 90", "60", "up 90", "?"', 'width = "150"', "outside", (90.0, 60.0, 150.0)),
        # A hat: two feet and the top, 60 outside, whose sides stand within the top;
        # a foot runs from its end to the outer face of the corner, at the inside of the side.
        # 2 foot + 60 - 2 x 6 = 150, so a foot is 51, and a side is the whole height.
        (HAT, BOTH, "outside", (51.0, 100.0, 60.0, 100.0, 51.0)),
        # An offset by 45 degrees: mid-lines 94 apart, 94 / sin 45 = 132.936 along the slope,
        # and 6 tan(22.5) = 2.4853 more from outer corner to outer corner.
        (Z45, 'height = "100"', "outside", (80.0, 135.421, 80.0)),
    ],
)
def test_legs_follow_from_the_sizes_over_all(
    shape: str, overall: str, measured: str, legs: tuple[float, ...]
) -> None:
    found = read_job(job(shape, overall, measured)).part
    assert found.legs == pytest.approx(legs, abs=1e-3)


@pytest.mark.parametrize("radius", ["3", "12"])
@pytest.mark.parametrize("shape", [U, HAT, '"20", "down 45", "?", "up 45", "?", "up 90", "40"'])
def test_the_planned_part_is_as_large_as_asked_for(shape: str, radius: str) -> None:
    made = plan(read_job(job(shape, radius=radius)))
    outline = np.array(bar_outline(made.finished, 6.0))
    assert np.ptp(outline, axis=0) == pytest.approx((150.0, 100.0), abs=0.02)


def test_the_plan_says_how_long_the_legs_came_out() -> None:
    made = plan(read_job(job('"?", "up 90", "?"')))
    (text,) = [one.text for one in told(made) if one.code == "legs-from-size"]
    assert text == (
        "Leg 1 is 150.00 mm and leg 2 is 100.00 mm (outside). The finished part is then 150 mm "
        "wide and 100 mm high over all."
    )


@pytest.mark.parametrize(
    ("shape", "overall", "sentence"),
    [
        ('"200", "up 90", "?"', 'width = "150"', "no length of leg 2 makes the part 150"),
        # The short arm of a clip does not show in its width, whatever it is.
        ('"150", "up 90", "60", "up 90", "?"', 'width = "150"', "more than one length of leg 3"),
        # Feet of two lengths: only their sum is known.
        (HAT.replace("foot", "", 1).replace("? side", "100"), BOTH, "more than one length"),
        # A vee's tip is rounded.
        ('"100", "down 45", "?", "up 90", "100"', 'height = "90"', "rounding of bend 2"),
        ('"?", "up 90", "?"', 'width = "150"', "2 legs are left open and 1 size over all is"),
        ('"?", "up 90", "80"', BOTH, "one leg is left open and 2 sizes over all are"),
        ('"150", "up 90", "80"', BOTH, "no leg is left open for it"),
        ('"?", "up 120", "80"', 'width = "150"', "bends up to 90 degrees"),
        ('"?", "up 90", "80"', "", "one leg is left open and no sizes over all are"),
        ('"?", "up 90", "80"', 'width = "0"', "width is 0"),
        ('"?", "up 90", "80"', 'wide = "150"', "did you mean"),
    ],
)
def test_what_no_length_settles_is_refused(shape: str, overall: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        read_job(job(shape, overall))


def test_an_open_leg_without_sizes_is_refused() -> None:
    with pytest.raises(InputError, match="no sizes over all are given"):
        read_job(job(U).rpartition("overall")[0])


def test_what_is_written_reads_back() -> None:
    before = read_job(job(HAT)).part
    text = write_job(read_job(job(HAT)))
    assert '"? foot"' in text
    assert read_job(text).part == before


def test_the_page_keeps_open_legs_and_asks_for_the_sizes() -> None:
    text = job('"?", "up 90", "?"')
    form = open_form(text, "part")
    assert form.values["part.overall.width"] == "150"
    assert notes_of(form)["part.shape[1]"] == ("", "")
    assert form_text(text, form) == text
    assert {"part.overall.width", "part.overall.height"} <= {field.name for field in part_fields()}


def test_the_page_has_an_entry_for_each_size(tmp_path: Path) -> None:
    with open_store(tmp_path / "store") as store:
        client = Browser(create_app(Workshop(store), PORT))
        root = begun(client)
        shaped(client, root, **{"part.shape[1]": "?", "part.overall.width": "7"})
        page = client.get(f"{root}/part").text
    typed = dict(re.findall(r'<input id="[^"]*" name="([^"]*)" value="([^"]*)"', page))
    assert typed["part.shape[1]"] == "?"
    assert typed["part.overall.width"] == "7"
    assert typed["part.overall.height"] == ""
