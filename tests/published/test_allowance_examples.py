"""Worked bend allowances and blank lengths of textbooks.

Source: ``data/22_bend_allowance_textbook_examples.csv``: Groover, Fundamentals of Modern
Manufacturing (example and problem on bend allowance), and exercises of a fitters' school with
developed lengths on the centre line.  Each result is held to half its last printed digit.
"""

from __future__ import annotations

import csv
from math import pi, radians, tan
from pathlib import Path

import pytest

from strapwright.blank.allowance_methods import textbook_factor
from strapwright.blank.blank_values import Blank
from strapwright.blank.flat_layout import lay_out
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import BlankSettings
from strapwright.shop.part import Bend, Part

DATA = Path(__file__).parent / "data" / "22_bend_allowance_textbook_examples.csv"
LINES = [line for line in DATA.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
PRINTED = {(row["case"], row["quantity"]): float(row["value"]) for row in csv.DictReader(LINES)}


def blank(
    straights: tuple[float, ...],
    turns: tuple[float, ...],
    radius: float,
    thickness: float,
    k: float,
) -> Blank:
    """Blank of a part whose straights are known: legs run on to where the mid-lines meet."""
    on = [(radius + thickness / 2) * (tan(turn / 2) if turn <= pi / 2 else 1) for turn in turns]
    ends = [0.0, *on, 0.0]
    part = Part(
        name="example",
        quantity=1,
        bar=Bar(section="flat", thickness=thickness, width=40.0),
        material="A36 hot rolled",
        lot=Lot(),
        measured="centre",
        legs=tuple(each + ends[i] + ends[i + 1] for i, each in enumerate(straights)),
        bends=tuple(Bend(angle=turn, side=1) for turn in turns),
    )
    return lay_out(
        part,
        None,
        BlankSettings(method="factor", factor=k),
        inside_radii=[radius] * len(turns),
        sight_offset=0.0,
    )


def test_groover_60_degrees() -> None:
    k = textbook_factor(4.75, 3.2)
    assert k == 0.33  # as the example takes it from R/t
    made = blank((38.0, 25.0), (radians(60),), 4.75, 3.2, k)
    assert made.allowances[0] == pytest.approx(PRINTED["GROOVER-EX", "bend allowance"], abs=0.005)
    assert made.length == pytest.approx(PRINTED["GROOVER-EX", "blank length"], abs=0.005)


def test_groover_40_degrees() -> None:
    k = textbook_factor(8.5, 5.0)
    assert k == 0.33  # as the problem takes it from R/t
    made = blank((58.0, 46.5), (radians(40),), 8.5, 5.0, k)
    assert made.allowances[0] == pytest.approx(PRINTED["GROOVER-19.7", "bend allowance"], abs=0.005)
    assert made.length == pytest.approx(PRINTED["GROOVER-19.7", "blank length"], abs=0.05)


def test_fitter_eye_of_270_degrees() -> None:
    # 12 mm bar, 162 mm over the outside, so 69 mm inside; straights 120 and 32 mm.
    made = blank((120.0, 32.0), (1.5 * pi,), 162 / 2 - 12, 12.0, 0.5)
    assert made.length == pytest.approx(PRINTED["FITTER-1", "developed length"], abs=0.005)


def test_fitter_handle() -> None:
    # 5 mm bar at r = 20; each half has straights 35, 12 and 25 mm with a quarter arc between.
    made = blank((35.0, 12.0, 50.0, 12.0, 35.0), (pi / 2,) * 4, 20.0, 5.0, 0.5)
    assert made.length == pytest.approx(PRINTED["FITTER-2", "developed length"], abs=0.005)
