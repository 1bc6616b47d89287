"""Worked parts of textbooks and standards as whole jobs: text in, printed blank out.

Sources, each beside its part: DIN 6935 compensation value as worked in
``data/09_din6935_worked_values.csv``; Groover, Fundamentals of Modern Manufacturing, sheet bending
examples in ``data/22_bend_allowance_textbook_examples.csv``; Machinery's Handbook, formulas (32)
to (34) in ``data/07_bend_allowance_machinerys_handbook.csv``.  No tooling is stated, so the blank
stands on the method named in the job.
"""

from __future__ import annotations

import csv
import math
import re
from pathlib import Path

import pytest

from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.shop_files.reading_job import read_job

DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def planned(*, bar: str, shape: list[str], radius: str, measured: str, blank: str) -> Plan:
    return plan(
        read_job(
            'format = 1\nunits = "metric"\n[part]\n'
            f'bar = "{bar}"\nmaterial = "S235JR"\nmeasured = "{measured}"\n'
            f'shape = {shape}\ninside_radius = "{radius}"\n[blank]\n{blank}\n'.replace("'", '"')
        )
    )


def length(found: Plan) -> float:
    assert found.blank is not None
    assert found.length_band is not None
    assert found.length_band.low <= found.blank.length <= found.length_band.high
    assert found.steps == ()
    return found.blank.length


def number(text: str, after: str) -> float:
    found = re.search(re.escape(after) + r"\s*=?\s*(\d+(?:\.\d+)?)", text)
    assert found is not None, (text, after)
    return float(found[1])


def test_din_6935_square_bend() -> None:
    """Opening 90 deg, r = 6, s = 5: v = 9.9, and the flat length is a + b - v."""
    (row,) = [r for r in rows("09_din6935_worked_values.csv") if "opening 90 deg" in r["case"]]
    found = planned(
        bar="flat 5 x 30",
        shape=["80", "up 90", "60"],
        radius="6",
        measured="outside",
        blank='method = "din 6935"',
    )
    assert length(found) == pytest.approx(80.0 + 60.0 - float(row["value"]), abs=0.05)


def test_din_6935_takes_nothing_off_a_bend_of_ten_degrees() -> None:
    """Opening angles over 165 deg: v is taken as 0."""
    found = planned(
        bar="flat 5 x 30",
        shape=["80", "up 10", "60"],
        radius="6",
        measured="outside",
        blank='method = "din 6935"',
    )
    assert length(found) == pytest.approx(140.0, abs=1e-9)


def test_groover_bracket_of_60_degrees() -> None:
    """R = 4.75 mm, t = 3.2 mm, K = 0.33, straights 38 and 25 mm: blank 69.08 mm."""
    bend, whole = [
        r for r in rows("22_bend_allowance_textbook_examples.csv") if r["case"] == "GROOVER-EX"
    ]
    radius, thickness = number(bend["inputs"], "R"), number(bend["inputs"], "t")
    # The book gives straights; on the mid-line a leg runs on by its radius times tan(30 deg).
    reach = (radius + thickness / 2.0) * math.tan(math.radians(30.0))
    found = planned(
        bar=f"flat {thickness} x 44.5",
        shape=[f"{38.0 + reach:.6f}", "up 60", f"{25.0 + reach:.6f}"],
        radius=f"{radius}",
        measured="centre",
        blank='method = "factor"\nfactor = 0.33',
    )
    assert found.blank is not None
    assert found.blank.allowances[0] == pytest.approx(float(bend["value"]), abs=5e-3)
    assert length(found) == pytest.approx(float(whole["value"]), abs=5e-3)


def test_groover_problem_of_40_degrees() -> None:
    """R = 8.5 mm, t = 5 mm, K = 0.33, straights 58 and 46.5 mm: blank 111.6 mm."""
    bend, whole = [
        r for r in rows("22_bend_allowance_textbook_examples.csv") if r["case"] == "GROOVER-19.7"
    ]
    corner = (8.5 + 5.0) * math.tan(math.radians(20.0))
    found = planned(
        bar="flat 5 x 35",
        shape=[f"{58.0 + corner:.6f}", "up 40", f"{46.5 + corner:.6f}"],
        radius="8.5",
        measured="outside",
        blank='method = "factor"\nfactor = 0.33',
    )
    assert found.blank is not None
    assert found.blank.allowances[0] == pytest.approx(float(bend["value"]), abs=5e-3)
    assert length(found) == pytest.approx(float(whole["value"]), abs=0.05)


def test_apprentices_handle_of_round_bar() -> None:
    """Bar 5 mm, r = 20: 2 x (25 + 2 quarter arcs on d = 45 + 12 + 35) = 285.37 mm, mid-line.

    One half as a part: 25, arc, 12, arc, 35 on the neutral line in the middle, K = 0.5.
    """
    (row,) = [r for r in rows("22_bend_allowance_textbook_examples.csv") if r["case"] == "FITTER-2"]
    shape = [f"{25 + 20}", "up 90", f"{12 + 20 + 20}", "down 90", f"{35 + 20}"]
    found = planned(
        bar="round 5",
        shape=shape,
        radius="20",
        measured="inside",
        blank='method = "factor"\nfactor = 0.5',
    )
    assert 2.0 * length(found) == pytest.approx(float(row["value"]), abs=0.01)


@pytest.mark.parametrize(
    ("label", "method"),
    [("soft", "book soft"), ("half-hard/soft steel", "book medium"), ("hard", "book hard")],
)
def test_handbook_line_as_a_job_in_inches(label: str, method: str) -> None:
    """Every printed line with T = 1/8 in: straights of 2 and 3 in and the printed allowance."""
    lines = [
        r
        for r in rows("07_bend_allowance_machinerys_handbook.csv")
        if r["item"] == "grid"
        and r["material_class"] == label
        and "T=0.1250" in r["inputs_or_formula"]
    ]
    assert lines
    for row in lines:
        radius = number(row["inputs_or_formula"], "R")
        corner = radius + 0.125  # at a square bend
        found = plan(
            read_job(
                'format = 1\nunits = "inch"\n[part]\nbar = "flat 1/8 x 1"\n'
                'material = "A36 hot rolled"\n'
                f'shape = ["{2 + corner}", "up 90", "{3 + corner}"]\ninside_radius = "{radius}"\n'
                f'[blank]\nmethod = "{method}"\n'
            )
        )
        assert length(found) / 25.4 == pytest.approx(5.0 + float(row["value"]), abs=6e-5)
