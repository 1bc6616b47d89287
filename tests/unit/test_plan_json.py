"""The JSON of a plan follows its published schema, and the schema names what the documents name."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path
from typing import Any

import attrs
import jsonschema
import numpy as np
import pytest

from strapwright.bending.bend_values import Band, Solved, StrokeCurve
from strapwright.blank.blank_values import Alternative, Blank, FlatHole, Mark
from strapwright.findings import BendAt, Finding, Length, Severity
from strapwright.midline.pose_values import DrawnPose, StepPoses
from strapwright.planning.plan_values import (
    CrossCheck,
    Gauge,
    Hold,
    Plan,
    Radii,
    ReliefSetting,
    Setting,
    Speed,
    StagedPush,
    Step,
    StepBands,
)
from strapwright.report.plan_json import plan_to_data, to_text
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import Job
from strapwright.shop.part import Bend, Part

DOCS = Path(__file__).parents[2] / "docs"
SCHEMA = json.loads((DOCS / "plan.schema.json").read_text(encoding="utf-8"))


def step() -> Step:
    travel = np.array([0.0, 10.0, 20.0])
    flat = DrawnPose(x=travel, y=travel * 0.0, nose_y=12.0)
    return Step(
        order=1,
        bend=1,
        hold=Hold(face="top", end_left=2),
        wanted=math.pi / 2,
        setting=Setting(
            travel=20.0,
            faces=60.0,
            faces_between=("plate", "tops"),
            block=None,
            block_between=("bed", "plate"),
        ),
        loaded_angle=math.radians(93.0),
        free_angle=math.pi / 2,
        force=20_000.0,
        peak_force=21_000.0,
        gauge=Gauge(value=5.0, peak=5.5, low=4.0, high=6.0, ease_off=6.9),
        no_gauge=None,
        relief=ReliefSetting(kind="set", pressure=7.5, by="band"),
        radii=Radii(wrap=12.0, gauge=12.5, tightest=11.0),
        bottoming_travel=None,
        jam_angle=math.radians(140.0),
        straight_left=8.0,
        speed=Speed(ram=2.0, angle=math.radians(10.0), sensitivity=math.radians(4.0)),
        staged=StagedPush(
            first_travel=17.0,
            first_loaded=math.radians(80.0),
            first_free=math.radians(77.0),
            readings=(math.radians(75.0),),
            extra=(3.5,),
        ),
        bands=StepBands(
            travel=Band(low=19.0, high=21.0),
            loaded_angle=Band(low=math.radians(92.0), high=math.radians(97.0)),
            free_angle=Band(low=math.radians(88.0), high=math.radians(93.0)),
            staged_angle=Band(low=math.radians(89.0), high=math.radians(91.0)),
            force=Band(low=18_000.0, high=22_000.0),
            gauge=Band(low=4.0, high=6.0),
        ),
        curve=StrokeCurve(
            travel=travel,
            force=travel * 1000.0,
            loaded_angle=travel * 0.08,
            free_angle=travel * 0.078,
            nose_curvature=travel * 0.0,
            wrap_length=travel * 0.0,
            jam_angle=2.4,
            jammed=False,
            solved=Solved(converged=True, iterations=4, residual=0.0),
        ),
        curve_low=travel * 900.0,
        curve_high=travel * 1100.0,
        poses=StepPoses(rest=flat, stroke=flat, released=flat),
        cross_checks=(
            CrossCheck(name="n", value=1.0, ours=1.1, unit="N", source="a book", text="why"),
        ),
    )


def plan() -> Plan:
    job = Job(
        units="inch",
        part=Part(
            name="cleat strap",
            quantity=3,
            bar=Bar(section="flat", thickness=6.35, width=50.8),
            material="A36 hot rolled",
            lot=Lot(),
            measured="outside",
            legs=(100.0, 100.0),
            bends=(Bend(angle=math.pi / 2, side=1),),
        ),
    )
    blank = Blank(
        length=190.0,
        method="strain",
        allowances=(24.0,),
        deductions=(12.0,),
        alternatives=(Alternative(method="book soft", length=189.5),),
        marks=(Mark(bend=1, nose=95.0, sight=60.0, tangents=(83.0, 107.0)),),
        holes=(
            FlatHole(hole=1, position=20.0, across=0.0, diameter=14.3, bend=1, edge_to_zone=55.0),
        ),
    )
    finding = Finding(
        code="stop-unreachable",
        severity=Severity.WARNING,
        about=(BendAt(1),),
        facts={"short": Length(4.0)},
    )
    return Plan(
        job=job,
        blank=blank,
        length_band=Band(low=189.0, high=191.0),
        finished=np.zeros((2, 2)),
        steps=(step(),),
        findings=(finding,),
        cautions=("Keep hands out of the pinch.",),
    )


def check(data: object) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)


def test_a_full_plan_follows_the_schema_after_the_text() -> None:
    data = json.loads(to_text(plan_to_data(plan())))
    check(data)
    one = data["steps"][0]
    assert one["loaded_angle_deg"] == pytest.approx(93.0)
    assert one["gauge_MPa"]["ease_off"] == 6.9
    assert data["findings"][0]["severity"] == "warning"


def test_bands_are_written_in_the_units_their_names_say() -> None:
    bands = plan_to_data(plan())["steps"][0]["bands"]
    ends = {name: [band["low"], band["high"]] for name, band in bands.items()}
    assert ends["travel_mm"] == [19.0, 21.0]
    assert ends["loaded_angle_deg"] == pytest.approx([92.0, 97.0])
    assert ends["free_angle_deg"] == pytest.approx([88.0, 93.0])
    assert ends["staged_angle_deg"] == pytest.approx([89.0, 91.0])
    assert ends["force_N"] == [18_000.0, 22_000.0]
    assert ends["gauge_MPa"] == [4.0, 6.0]
    unread = attrs.evolve(step(), bands=attrs.evolve(step().bands, gauge=None))
    assert (
        "gauge_MPa" not in plan_to_data(attrs.evolve(plan(), steps=(unread,)))["steps"][0]["bands"]
    )


def test_what_cannot_be_said_is_null() -> None:
    bare = attrs.evolve(
        step(),
        gauge=None,
        no_gauge="no press",
        relief=None,
        staged=None,
        speed=Speed(ram=None, angle=None, sensitivity=0.1),
    )
    data = plan_to_data(attrs.evolve(plan(), blank=None, length_band=None, steps=(bare,)))
    check(data)
    assert data["blank"] is None
    assert data["steps"][0]["gauge_MPa"] is None


@pytest.mark.parametrize("key", ["travel_mm", "setting", "gauge_MPa", "bands"])
def test_the_schema_misses_a_key_that_is_gone(key: str) -> None:
    data = plan_to_data(plan())
    del data["steps"][0][key]
    with pytest.raises(jsonschema.ValidationError, match=key):
        check(data)


def test_a_number_that_is_none_is_never_written() -> None:
    data = plan_to_data(attrs.evolve(plan(), steps=(attrs.evolve(step(), force=math.nan),)))
    with pytest.raises(ValueError, match="not JSON compliant"):
        to_text(data)


def test_every_key_is_in_schema_and_document() -> None:
    written = (DOCS / "plan-json.md").read_text(encoding="utf-8")
    documented = set(re.findall(r"[a-zA-Z]\w+", written))
    data = plan_to_data(plan())
    for keys, schema in (
        (data, SCHEMA),
        (data["blank"], SCHEMA["$defs"]["blank"]),
        (data["steps"][0], SCHEMA["$defs"]["step"]),
    ):
        known: dict[str, Any] = schema["properties"]
        assert set(keys) == set(known)
        assert set(keys) <= documented
