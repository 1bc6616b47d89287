"""Slots and notches: where they stand, their outline, what they weigh, when they are made."""

from __future__ import annotations

import math

import pytest
import shapely
from test_blank_dxf import on, read

from strapwright.blank.cut_shapes import cut_area, cut_points
from strapwright.errors import InputError
from strapwright.pages.form import form_text, open_form
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.sheets.setup_sheet import setup_sheet
from strapwright.sheets.template_sheet import template_pdf
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job

BASE = """\
format = 1
units = "metric"
[part]
name = "cleat base"
bar = "flat 5 x 50"
material = "S235"
assumed_radius = "10"
shape = ["120", "up 90", "80"]
[[part.hole]]
leg = 1
from_end = "{at}"
diameter = "10"
{more}
"""
SLOT = 'length = "30"'
NOTCH = 'open = "far edge"\nacross = "15"'


def made(at: float, more: str) -> Plan:
    return plan(read_job(BASE.format(at=at, more=more)))


def begins() -> float:
    blank = made(30.0, SLOT).blank
    assert blank is not None
    return blank.zone(1)[0]


@pytest.mark.parametrize(
    # Half of what it takes along the bar, and the thicknesses of its rule.
    ("more", "reach", "near", "kind"),
    [("", 5.0, 2.0, "hole"), (SLOT, 15.0, 4.0, "slot"), (NOTCH, 5.0, 3.0, "notch"),
     (f"{SLOT}\n{NOTCH}", 15.0, 3.0, "notch")],
)  # fmt: skip
def test_each_kind_has_its_own_least_distance_from_a_bend(
    more: str, reach: float, near: float, kind: str
) -> None:
    limit = begins() - near * 5.0 - reach
    flat, after = made(limit - 0.1, more), made(limit + 0.1, more)
    assert flat.bench_work == ()
    assert len(after.bench_work) == 1
    (said,) = plan_to_data(after)["bench_work"]
    assert said["cut"] == kind
    times = {2.0: "twice", 3.0: "three times", 4.0: "four times"}[near]
    source = "common practice, no source" if kind == "hole" else "sheet-metal design guides"
    assert f"nearer than {times} the thickness ({source}" in said["text"]
    flat_text = plan_to_text(flat)
    assert f"{kind} 1:" in flat_text
    # Made flat on purpose it is warned of.
    kept = made(limit + 0.1, f'{more}\ndrilled = "flat"')
    (note,) = [one for one in kept.findings if one.code == "hole-near-bend"]
    assert note.severity == "note"


def test_its_outline_takes_what_a_hand_sum_says() -> None:
    # A slot 10 wide and 30 long: pi 25 + 20 x 10 = 278.54 mm2.  A notch 10 wide with its round
    # middle 10 from the edge: half a round, 39.27, and 10 x 10.  Its sides 30 apart: 39.27 and
    # 20 x 5 for the ground, 30 x 10 to the edge.
    sums = {SLOT: 278.54, NOTCH: 139.27, f"{SLOT}\n{NOTCH}": 439.27}
    for more, area in sums.items():
        found = made(30.0, more)
        assert cut_area(found.job.part.holes[0], 50.0) == pytest.approx(area, abs=0.01)
        assert found.blank is not None
        outline = shapely.Polygon(cut_points(found.blank.holes[0], 50.0))
        assert outline.is_valid
        assert outline.area == pytest.approx(area, rel=5e-3)
        low_x, _, high_x, high_y = outline.bounds
        along = 30.0 if "length" in more else 10.0
        assert (low_x, high_x) == pytest.approx((30.0 - along / 2, 30.0 + along / 2))
        assert high_y == pytest.approx(25.0 if "open" in more else 5.0)
    near = made(30.0, NOTCH.replace("far", "near").replace('"15"', '"-15"'))
    assert near.blank is not None
    assert shapely.Polygon(cut_points(near.blank.holes[0], 50.0)).bounds[1] == -25.0


def test_weight_dxf_paper_and_file_have_it() -> None:
    plain, slotted = made(30.0, ""), made(30.0, SLOT)
    assert plain.weights is not None
    assert slotted.weights is not None
    # 278.54 less the 78.54 of a hole, 5 thick, 7850 kg/m3.
    lighter = (278.54 - 78.54) * 5.0 * 7850e-9
    assert (plain.weights.part or 0.0) - (slotted.weights.part or 0.0) == pytest.approx(
        lighter, rel=1e-3
    )
    (line,) = on(read(slotted), "HOLES")
    assert line.dxftype() == "LWPOLYLINE"
    assert read_job(write_job(slotted.job)).part == slotted.job.part
    notched = made(30.0, NOTCH)
    assert read_job(write_job(notched.job)).part == notched.job.part
    assert template_pdf(notched)[:4] == b"%PDF"
    assert setup_sheet(slotted)[:4] == b"%PDF"
    assert math.isclose(plan_to_data(slotted)["blank"]["holes"][0]["length_mm"], 30.0)


@pytest.mark.parametrize(
    ("at", "more", "sentence"),
    [
        (30.0, 'length = "8"', "shorter along the bar than it is wide"),
        (10.0, SLOT, "runs off the end of the bar"),
        (30.0, 'open = "far edge"\nacross = "-21"', "the notch runs off the bar"),
        (30.0, 'open = "far edge"\nacross = "26"', "the notch runs off the bar"),
        (30.0, 'across = "21"\nlength = "30"', "the slot runs off the bar"),
        (30.0, 'open = "left"', "left"),
    ],
)
def test_what_leaves_no_bar_is_refused(at: float, more: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        made(at, more)


def test_the_page_keeps_a_plain_hole_and_takes_a_slot() -> None:
    text = BASE.format(at=30, more="")
    form = open_form(text, "part")
    assert form_text(text, form) == text
    typed = {"part.hole[1].length": "30", "part.hole[1].open": "near edge"}
    fresh = form_text(text, open_form(text, "part", typed))
    assert 'length = "30"' in fresh
    assert 'open = "near edge"' in fresh
    assert "drilled" not in fresh
    assert form_text(fresh, open_form(fresh, "part")) == fresh
    emptied = {"part.hole[1].length": "", "part.hole[1].open": "no"}
    assert form_text(fresh, open_form(fresh, "part", emptied)) == text
