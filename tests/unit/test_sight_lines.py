"""A sight line that falls beyond the end of the bar is said, with what to look at instead."""

from __future__ import annotations

import re

import pytest
from attrs import evolve
from plan_fixture import blank, fender_hanger
from telling import told_of

from strapwright.blank.blank_values import Blank
from strapwright.findings import Severity
from strapwright.planning.sight_lines import sight_findings


def with_sight(place: float) -> Blank:
    whole = blank(fender_hanger())
    first, *others = whole.marks
    return evolve(whole, marks=(evolve(first, sight=place), *others))


def test_sight_lines_on_the_bar_are_no_finding() -> None:
    whole = blank(fender_hanger())
    assert sight_findings(with_sight(0.0)) == []
    assert sight_findings(with_sight(whole.length)) == []


@pytest.mark.parametrize("off", [2.54, 25.4])
@pytest.mark.parametrize("end", [1, 2])
def test_the_end_of_the_bar_is_set_that_far_inside_the_edge(end: int, off: float) -> None:
    length = blank(fender_hanger()).length
    (found,) = told_of(sight_findings(with_sight(-off if end == 1 else length + off)))
    assert found.code == "sight-off-blank"
    assert found.severity == Severity.NOTE
    assert found.where == "bend 1"
    assert f"end {end} of the bar" in found.text
    said = re.search(r"Set end (\d) ([\d.]+) mm inside that edge", found.remedy)
    assert said is not None
    assert int(said[1]) == end
    assert float(said[2]) == pytest.approx(off, abs=0.05)
