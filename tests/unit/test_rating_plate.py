"""The plate never says more than what holds, and says so where nothing does."""

from __future__ import annotations

import re

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, bench
from strapwright.planning.member_loads import assess
from strapwright.shop.members import Circuit, Frame, Members, Weld
from strapwright.strength.check_values import Assessment, Bench, Check, Load
from strapwright.strength.rating import proof_steps, rating_of, rating_plate, relief_to_set

AREA = 11.0447  # in2 of a 3-3/4 in bore, pi 3.75^2/4


def checked(*ratios: tuple[str, float, float]) -> tuple[Bench, Assessment]:
    """A die whose checks stand at case, ratio and power of the force; nothing else is missing."""
    one = bench(Members(off_centre=3.0))
    plan = Load(case="plan", force=4_000 * LBF)
    one = evolve(one, pushes=(plan, *one.pushes))
    checks = tuple(
        Check(
            member="nose", what="bending", case=case, demand=ratio, capacity=1.0, unit="MPa",
            formula="F", allowed="Re", source="AISC 360", grade="standard", where="tooling",
            grows=grows,
        )
        for case, ratio, grows in ratios
    )  # fmt: skip
    made = Assessment(
        checks=checks,
        unchecked=(),
        findings=(),
        rating=rating_of(one, checks, ()),
        relief_to_set=relief_to_set(one, checks),
    )
    return one, made


def figures(lines: tuple[str, ...]) -> tuple[float, float]:
    """Most force [lbf] and relief [psi] of a plate."""
    force, relief = (re.search(r"(\d+) (?:lbf|psi)", line) for line in lines[:2])
    assert force is not None
    assert relief is not None
    return float(force[1]), float(relief[1])


def test_a_plate_of_a_die_that_holds_says_the_relief() -> None:
    one, made = checked(("plan", 0.3, 1.0), ("relief", 0.9, 1.0))
    force, relief = figures(rating_plate(one, made, "inch"))
    assert (force, relief) == (pytest.approx(24_298, abs=1), 2200)
    assert any("2200 psi" in step for step in proof_steps(one, made, "inch"))


def test_a_plate_says_the_lowest_of_all_that_limits_the_relief() -> None:
    one, made = checked(("relief", 0.9, 1.0))
    made = evolve(made, rating=11_044.7 * LBF, relief_to_set=1500 * PSI)
    # 11 044.7 lbf on 11.0447 in2.
    assert figures(rating_plate(one, made, "inch"))[1] == pytest.approx(1000, abs=10)


def test_what_carries_nothing_at_all_is_not_to_be_used() -> None:
    one, made = checked(("plan", 0.3, 1.0), ("relief", float("inf"), 1.0))
    assert rating_plate(one, made, "inch")[0] == "NOT RATED, DO NOT USE"


@pytest.mark.parametrize("ratio", [1.07, 1.3, 2.9])
def test_a_plate_says_no_relief_that_pushes_harder_than_its_own_most_force(ratio: float) -> None:
    one, made = checked(("plan", 0.3, 1.0), ("relief", ratio, 1.0))
    force, relief = figures(rating_plate(one, made, "inch"))
    assert relief <= 2200 / ratio
    assert relief > 2200 / ratio - 10
    assert relief * AREA <= force + 1
    assert force <= 24_298 / ratio + 1


def test_a_plate_says_no_more_than_the_circuit_holds() -> None:
    one = bench(Members(circuit=Circuit(hose=1500 * PSI), frame=Frame(rating=1e6)))
    found = evolve(assess(one, "inch"), rating=24_298 * LBF)
    force, relief = figures(rating_plate(one, found, "inch"))
    assert relief == 1500
    # 1500 psi on 11.0447 in2.
    assert force == pytest.approx(16_567, abs=1)


def test_a_die_that_the_plan_overloads_is_not_to_be_used() -> None:
    one, made = checked(("plan", 1.05, 1.0), ("relief", 4.0, 1.0))
    lines = rating_plate(one, made, "inch")
    assert lines[0] == "NOT RATED, DO NOT USE"
    assert "nose, bending, plan" in lines[1]
    assert not any("psi" in line for line in lines)
    assert proof_steps(one, made, "inch") == ()


def test_a_fault_that_no_relief_mends_is_not_to_be_used() -> None:
    # A weld below the least size of AISC 360 table J2.4 stays below it.
    weld = Weld(holds="carriers", size=3.0, length=6 * INCH, thinner=INCH, spacing=INCH)
    one = bench(Members(weld=(weld,)))
    found = assess(one, "inch")
    lines = rating_plate(one, found, "inch")
    assert lines[0] == "NOT RATED, DO NOT USE"
    assert "least size" in lines[1]
