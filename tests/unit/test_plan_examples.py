"""The examples of the documents: for each, one dimension that flips the answer.

What must happen follows from plain geometry, said in the first lines of each example.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from telling import told

from strapwright.findings import Severity
from strapwright.planning.plan import plan
from strapwright.shop_files.reading_job import read_job

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
FLIPS = [
    (
        "piling-saddle-strap",
        {'reach = "200"': 'reach = "140"', 'height = "182"': 'height = "122"'},
        "hits the push plate",
    ),
    ("bilge-pump-cradle", {'"90", "up': '"95", "up', '"90"]': '"95"]'}, "does not come off"),
    ("winch-drum-ring", {"drawable = true\n": ""}, "hits the nose while the nose side comes down"),
    ("hatch-hold-down", {'"200", "down': '"60", "down'}, "shoulder as it is placed"),
    ("ladder-stand-off", {'"90", "down': '"40", "down'}, "mm of straight"),
    ("gangway-rail-bracket", {'apart = "700"': 'apart = "500"'}, "column"),
]


@pytest.mark.parametrize(("name", "changes", "sentence"), FLIPS, ids=[one[0] for one in FLIPS])
def test_one_dimension_flips_the_answer(name: str, changes: dict[str, str], sentence: str) -> None:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for before, after in changes.items():
        assert text.count(before) == 1
        text = text.replace(before, after)
    refusals = [one for one in told(plan(read_job(text))) if one.severity is Severity.REFUSAL]
    assert [one.code for one in refusals] == ["no-order"]
    assert sentence in refusals[0].text


def test_the_ring_is_locked_on_its_nose_and_the_nose_is_drawn() -> None:
    ring = plan(read_job((EXAMPLES / "winch-drum-ring.toml").read_text(encoding="utf-8")))
    last = ring.steps[-1].coming_off
    assert last is not None
    assert last.verdict == "locked on"
    assert "nose" in last.held_by
    assert last.motion == ()


def test_refusals_of_an_inch_job_are_in_inches() -> None:
    text = (EXAMPLES / "winch-drum-ring.toml").read_text(encoding="utf-8")
    open_ring = text[: text.index("# Leg 1")] + text[text.index("[press]") :]
    short = open_ring.replace('"4", "up 90", "5"', '"1-1/2", "up 90", "5"')
    (refusal,) = (one for one in told(plan(read_job(short))) if one.severity is Severity.REFUSAL)
    assert " in of straight bar towards" in refusal.text
    assert " mm" not in refusal.text


@pytest.mark.parametrize("file", sorted((EXAMPLES / "bars").glob("*.toml")), ids=lambda f: f.stem)
def test_five_typical_bars_are_bent_without_a_warning(file: Path) -> None:
    """Openings of 5-1/2 to 13 thicknesses, noses of 1-1/2 thicknesses and more, as advised."""
    bar = plan(read_job(file.read_text(encoding="utf-8")))
    assert {one.severity for one in told(bar)} <= {Severity.NOTE}
    (step,) = bar.steps
    assert step.gauge is not None
    assert step.gauge.low < step.gauge.value < step.gauge.high < step.gauge.ease_off
    weak = " ".join(one.text for one in told(bar) if one.code == "model-weak-spot")
    reasons = {
        "thick-half": "under 6 thicknesses",
        "aluminium-flat": "hardens little",
        "square-half": "hardly wider than it is thick",
        "rod-three-eighths": "round rod dents",
        "flat-quarter": "",
    }
    assert reasons[file.stem] in weak
    assert bool(weak) is bool(reasons[file.stem])
