"""Where the ram stops: plain geometry and arithmetic, done again by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from telling import told_of

from strapwright.bending.bend_values import Solved, StrokeCurve
from strapwright.findings import BendAt, Severity
from strapwright.planning.ram_stop import (
    ease_off,
    relief_setting,
    setting,
    speed,
    too_weak,
    weakest_pressure,
)
from strapwright.shop.tooling import Nose, RamSide, Shoulders, Tooling

BEND = (BendAt(1),)


def tooling(
    reach: float | None = 80.0, height: float | None = 60.0, ram_side: RamSide = "nose"
) -> Tooling:
    return Tooling(
        nose=Nose(radius=12.0, reach=reach),
        shoulders=Shoulders(radius=10.0, opening=60.0, height=height),
        ram_side=ram_side,
    )


def curve(degrees_per_mm: float) -> StrokeCurve:
    travel = np.linspace(0.0, 40.0, 41)
    angle = np.radians(degrees_per_mm) * travel
    zero = np.zeros_like(travel)
    return StrokeCurve(
        travel=travel,
        force=zero,
        loaded_angle=angle,
        free_angle=angle,
        nose_curvature=zero,
        wrap_length=zero,
        jam_angle=3.0,
        jammed=False,
        solved=Solved(converged=True, iterations=1, residual=0.0),
    )


def codes(findings: tuple[object, ...]) -> list[str]:
    return [finding.code for finding in findings]  # type: ignore[attr-defined]


def test_faces_and_block_close_by_what_the_bar_sees() -> None:
    # At touch the plate is 80 + 6 above the tops; of 30 mm of ram travel the frame takes 2.
    found, findings = setting(
        travel=30.0, give_travel=2.0, tooling=tooling(), thickness=6.0, about=BEND
    )
    assert found.faces == pytest.approx(58.0)
    assert found.block == pytest.approx(118.0)
    assert found.travel == 30.0
    assert findings == ()


@pytest.mark.parametrize("ram_side", ["nose", "shoulders"])
def test_the_block_stands_on_the_half_that_does_not_move(ram_side: RamSide) -> None:
    found, _ = setting(
        travel=30.0,
        give_travel=0.0,
        tooling=tooling(ram_side=ram_side),
        thickness=6.0,
        about=BEND,
    )
    fixed, moving = found.block_between
    assert ("push plate" in moving, "push plate" in fixed) == (True, False)
    assert "shoulder tops" in found.faces_between
    assert found.block == pytest.approx(116.0)


@pytest.mark.parametrize(
    ("reach", "height", "code"),
    [(None, 60.0, "nose-reach-unknown"), (80.0, None, "shoulder-height-unknown")],
)
def test_a_missing_dimension_is_a_finding(
    reach: float | None, height: float | None, code: str
) -> None:
    found, findings = setting(
        travel=30.0, give_travel=0.0, tooling=tooling(reach, height), thickness=6.0, about=BEND
    )
    assert codes(findings) == [code]
    assert found.block is None
    assert (found.faces is None) == (reach is None)


def test_a_short_nose_cannot_reach_its_stop() -> None:
    found, findings = setting(
        travel=30.0, give_travel=0.0, tooling=tooling(reach=20.0), thickness=6.0, about=BEND
    )
    assert codes(findings) == ["stop-unreachable"]
    assert "4 mm too short" in told_of(findings)[0].text
    assert found.faces is None


def test_a_fast_ram_passes_two_hundred_degrees_in_a_second() -> None:
    # The figure that started this check: 1.4 in/s at 5.8 deg/mm is 206 deg in a second.
    bore = 50.0
    flow = 1.4 * 25.4 * math.pi * bore**2 / 4
    found, findings = speed(curve=curve(5.8), travel=20.0, flow=flow, bore=bore, about=BEND)
    assert found.ram == pytest.approx(35.56)
    assert found.angle is not None
    assert math.degrees(found.angle) == pytest.approx(206.2, abs=0.1)
    assert math.degrees(found.sensitivity) == pytest.approx(5.8)
    assert codes(findings) == ["too-fast-to-stop"]


@pytest.mark.parametrize(("ram", "fast"), [(1.99, False), (2.01, True)])
def test_the_limit_is_two_degrees_in_a_quarter_of_a_second(ram: float, fast: bool) -> None:
    # 4 deg/mm at 2 mm/s for 0.25 s is exactly 2 deg.
    bore = 50.0
    _, findings = speed(
        curve=curve(4.0), travel=20.0, flow=ram * math.pi * bore**2 / 4, bore=bore, about=BEND
    )
    assert bool(findings) == fast


def test_without_a_pump_there_is_no_speed_but_the_sensitivity() -> None:
    found, findings = speed(curve=curve(4.0), travel=20.0, flow=None, bore=50.0, about=BEND)
    assert (found.ram, found.angle, findings) == (None, None, ())
    assert math.degrees(found.sensitivity) == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("weakest", "relief", "expected", "found"),
    [
        (None, None, 11.5, []),
        (20.0, 11.0, 11.0, []),
        (10.5, 20.0, 10.5, []),
        (9.0, 20.0, 9.0, ["ease-off-below-band"]),
        (20.0, 9.5, 9.5, ["ease-off-below-band"]),
        (9.0, 9.0, 9.0, ["ease-off-below-band"]),
        (20.0, 8.9, 8.9, ["press-too-weak"]),
        (8.9, 20.0, 8.9, ["tooling-too-weak"]),
        (8.9, 8.8, 8.8, ["tooling-too-weak", "press-too-weak"]),
    ],
)
def test_ease_off_is_the_least_of_three(
    weakest: float | None, relief: float | None, expected: float, found: list[str]
) -> None:
    limit, findings = ease_off(upper=10.0, peak=9.0, weakest=weakest, relief=relief, about=BEND)
    assert limit == pytest.approx(expected)
    assert codes(findings) == found
    # What is expected is refused; only what a bar may be over is warned of.
    for one in findings:
        refused = one.code != "ease-off-below-band"
        assert one.severity is (Severity.REFUSAL if refused else Severity.WARNING)
        assert refused or "never" in told_of([one])[0].sentence.split()


@pytest.mark.parametrize(
    ("rating", "found"),
    [
        (None, []),
        (10e3, []),
        (9.5e3, ["ease-off-below-band"]),
        (9e3, ["ease-off-below-band"]),
        (8.9e3, ["tooling-too-weak"]),
    ],
)
def test_without_a_gauge_force_and_band_are_held_to_the_rating(
    rating: float | None, found: list[str]
) -> None:
    findings = too_weak(9e3, 10e3, rating, BEND)
    assert codes(findings) == found
    for one in findings:
        warned = one.code == "ease-off-below-band"
        assert one.severity is (Severity.WARNING if warned else Severity.REFUSAL)
        assert not warned or "may need up to 10 kN" in told_of([one])[0].sentence


@pytest.mark.parametrize(
    ("upper", "weakest", "relief", "kind", "pressure", "by"),
    [
        (10.0, None, None, "set", 12.5, "band"),
        (10.0, 11.0, 30.0, "set", 11.0, "member"),
        (10.0, 30.0, 10.5, "set", 10.5, "relief"),
        (10.0, 10.0, 30.0, "never above", 10.0, "member"),
        (10.0, 6.0, 30.0, "never above", 6.0, "member"),
        (10.0, 30.0, 9.0, "never above", 9.0, "relief"),
        (None, None, 9.0, "never above", 9.0, "relief"),
    ],
)
def test_relief_is_above_the_band_or_never_above_member_or_valve(
    upper: float | None,
    weakest: float | None,
    relief: float | None,
    kind: str,
    pressure: float,
    by: str,
) -> None:
    found = relief_setting(upper=upper, weakest=weakest, relief=relief)
    assert found is not None
    assert (found.kind, found.by) == (kind, by)
    assert found.pressure == pytest.approx(pressure)


def test_without_any_limit_no_relief_is_given() -> None:
    assert relief_setting(upper=None, weakest=None, relief=None) is None


def test_the_weakest_member_is_met_at_full_efficiency() -> None:
    assert weakest_pressure(math.pi * 2500.0 * 10.0, 100.0) == pytest.approx(10.0)
