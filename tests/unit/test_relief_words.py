"""What the relief valve may stand at reads the same on page, command and paper."""

from __future__ import annotations

import pytest
from attrs import evolve
from telling import told

from strapwright.findings import Severity
from strapwright.pages.plan_page import step_numbers
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, ReliefSetting
from strapwright.report.plan_text import plan_to_text
from strapwright.service.plan_files import is_refused
from strapwright.sheets.bend_data import bend_data
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.figures import figures_for
from strapwright.wording.relief_words import relief_words

# A 3/8 x 3 bar over a 3 in opening, on tooling rated for 6 short tons through a 3-3/4 in bore.
JOB = """
format = 1
units = "inch"
[part]
name = "angle bracket"
bar = "flat 3/8 x 3"
material = "a36"
shape = ["4", "up 90", "6"]
[press]
bore = "3-3/4"
relief = "2200 psi"
gauge_step = "100 psi"
[tooling]
ram_side = "nose"
rating = "6 tons (US)"
nose = { shaft = "1", web = { thick = "5/8", height = "4" } }
shoulders = { radius = "1/2", opening = "3", depth = "3", height = "4" }
"""
PRESS = JOB[JOB.index("[press]") : JOB.index("[tooling]")]


def planned(text: str) -> Plan:
    return plan(read_job(text), search=False)


@pytest.fixture(scope="module")
def weak() -> Plan:
    return planned(JOB)


def test_a_bend_expected_above_the_rating_is_refused_and_never_may(weak: Plan) -> None:
    (one,) = [one for one in told(weak) if one.code == "tooling-too-weak"]
    assert one.severity is Severity.REFUSAL
    assert is_refused(weak)
    assert "may" not in one.sentence.split()
    # 12,000 lbf over pi/4 (3.75 in)^2 = 11.045 in2 are 1086 psi, told rounded down to a division.
    assert "can carry only 1080 psi" in one.text
    assert "ease-off-below-band" not in {one.code for one in weak.findings}


def test_a_rating_counts_without_a_gauge() -> None:
    for text in (JOB.replace(PRESS, ""), JOB.replace('bore = "3-3/4"\n', "")):
        made = planned(text)
        (one,) = [one for one in told(made) if one.code == "tooling-too-weak"]
        assert one.severity is Severity.REFUSAL
        assert "can carry only 12000 lbf" in one.text


@pytest.mark.parametrize(
    "relief",
    [
        ReliefSetting(kind="set", pressure=7.5, by="band"),
        ReliefSetting(kind="set", pressure=7.5, by="member"),
        ReliefSetting(kind="set", pressure=7.5, by="relief"),
        ReliefSetting(kind="never above", pressure=7.5, by="member"),
        ReliefSetting(kind="never above", pressure=7.5, by="relief"),
    ],
)
@pytest.mark.parametrize("gauge", [True, False])
def test_page_command_and_paper_say_it_alike(
    weak: Plan, relief: ReliefSetting, *, gauge: bool
) -> None:
    step = evolve(weak.steps[0], relief=relief)
    if not gauge:
        step = evolve(step, gauge=None, no_gauge="no bore")
    made = evolve(weak, steps=(step,))
    words = relief_words(relief, figures_for(weak.job))
    assert words is not None
    assert words.pressure == "1080 psi"
    assert words.sentence in " ".join(plan_to_text(made).split())
    page = {one.name: (one.value, one.beneath) for one in step_numbers(made, step)}
    assert page[words.head] == (words.pressure, words.reason)
    paper = bend_data(made, 0)["relief"]
    assert paper == {"head": words.head, "figure": words.pressure, "reason": words.reason}


def test_the_limit_of_the_valve_stands_without_a_bore() -> None:
    (step,) = planned(JOB.replace('bore = "3-3/4"\n', "")).steps
    assert step.relief == ReliefSetting(
        kind="never above", pressure=pytest.approx(2200 * 0.00689476, rel=1e-5), by="relief"
    )
