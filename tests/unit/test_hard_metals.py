"""Metals that crack cold, and what a softer state of them would take."""

from __future__ import annotations

from functools import cache

import pytest

from strapwright.findings import Severity
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.remedies.search_figures import find_remedies
from strapwright.report.plan_text import plan_to_text
from strapwright.service.metal_list import metals_to_data, metals_to_text
from strapwright.shop_files.reading_job import read_job

JOB = """\
format = 1
units = "{units}"
[part]
name = "hatch clip"
bar = "flat {bar}"
material = "{material}"
shape = ["{leg}", "up 90", "{leg}"]
[press]
bore = "{bore}"
relief = "{relief}"
[tooling]
nose = {{ radius = "{nose}", web = {{ thick = "{nose}", height = "{leg}" }} }}
shoulders = {{ radius = "{shoulder}", opening = "{opening}" }}
"""
INCH = {"units": "inch", "bar": "1/4 x 1-1/2", "leg": "5", "bore": "4", "relief": "2500 psi",
        "shoulder": "3/8", "opening": "3", "nose": "1/4"}  # fmt: skip
METRIC = {"units": "metric", "bar": "6 x 40", "leg": "120", "bore": "100", "relief": "170 bar",
          "shoulder": "10", "opening": "80", "nose": "9"}  # fmt: skip


@cache
def made(material: str, units: str = "inch") -> Plan:
    values = INCH if units == "inch" else METRIC
    return plan(read_job(JOB.format(material=material, **values)), search=False)


def codes(one: Plan) -> set[str]:
    return {finding.code for finding in one.findings}


@pytest.mark.parametrize("name", ["5160", "1095 hardened", "leaf spring"])
def test_hard_spring_steel_is_refused_without_a_figure_to_stop_at(name: str) -> None:
    refused = made(name)
    found = next(one for one in refused.findings if one.code == "cracks-cold")
    assert found.severity is Severity.REFUSAL
    assert all(has_no_stop(refused, step) for step in refused.steps)
    assert find_remedies(refused.job, refused, keep_going=lambda: True) is None
    text = " ".join(plan_to_text(refused).split())
    assert "Travel" not in text
    assert "heat it to about" in text
    assert "Harden and temper it after bending" in text
    assert ("counts as hardened" in text) is (name == "leaf spring")


def test_the_same_steel_annealed_is_bent() -> None:
    for name in ("5160 annealed", "1095 annealed"):
        assert "cracks-cold" not in codes(made(name, "metric"))
        assert made(name, "metric").steps


def test_a_softer_temper_is_offered_only_where_the_nose_suits_it() -> None:
    # 6061-T6 of 1/4 in asks 3-1/2 thicknesses, 6061-O one: a nose of 1/4 in just does.
    hard = made("6061-T6")
    assert {"softer-state-bends"} <= codes(hard)
    text = " ".join(plan_to_text(hard).split())
    assert "6061-O bends on this nose: it needs a radius of 0.25 in" in text
    assert "heat it to about 780 °F, then let it cool in air" in text
    assert "softer-state-bends" not in codes(made("6061-O"))
    # 1045 annealed asks four thicknesses, so annealing helps nothing on this nose.
    assert "softer-state-bends" not in codes(made("1045 quenched and tempered"))
    # In mm by the same: 415 deg C.
    text = " ".join(plan_to_text(made("6061-T6", "metric")).split())
    assert "heat it to about 415 °C" in text


def test_the_list_says_what_to_order_by_and_what_cracks() -> None:
    rows = {one["name"]: one for one in metals_to_data()["materials"]}
    assert rows["5160 hardened and tempered"]["cracks"] is True
    assert rows["4140 prehardened"]["softer"] == "4140 annealed"
    assert rows["rebar B500B"]["designation"] == "ISO 6935-2 B500B-R"
    text = metals_to_text()
    assert "too hard to bend cold; 5160 annealed bends" in text
    assert "UNS G51600, ASTM A29" in text
