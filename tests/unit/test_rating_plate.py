"""The plate never says more than what holds, and says so where nothing does."""

from __future__ import annotations

import re

import pytest
from attrs import evolve

from hand_bench import INCH, LBF, PSI, bench
from strapwright.planning.member_loads import assess
from strapwright.shop.members import Circuit, Frame, Members, Weld
from strapwright.strength.check_values import Assessment, Bench, Check, Load, Unchecked
from strapwright.strength.lasting.proof_load import proof_block, proof_steps
from strapwright.strength.rating import plate_relief, rating_of, rating_plate, relief_to_set

AREA = 11.0447  # in2 of a 3-3/4 in bore, pi 3.75^2/4


RATED = ("hose", "fitting", "valve", "cylinder", "rod side", "gauge", "frame")


def check(member: str, case: str, ratio: float, grows: float = 1.0) -> Check:
    return Check(
        member=member, what="bending", case=case, demand=ratio, capacity=1.0, unit="MPa",
        formula="F", allowed="Re", source="AISC 360", grade="standard", where="tooling",
        grows=grows,
    )  # fmt: skip


def checked(
    *ratios: tuple[str, float, float], rated: float | None = 0.5
) -> tuple[Bench, Assessment]:
    """A die whose checks stand at case, ratio and power of the force; nothing else is missing.

    Circuit and frame are rated so far above relief, or not at all.
    """
    one = bench(Members(off_centre=3.0))
    plan = Load(case="plan", force=4_000 * LBF)
    one = evolve(one, pushes=(plan, *one.pushes))
    checks = tuple(check("nose", *each) for each in ratios)
    if rated is not None:
        checks += tuple(check(member, "relief", rated) for member in RATED)
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


def test_a_plate_says_no_more_than_the_circuit_holds_at_the_proof() -> None:
    one = bench(Members(circuit=Circuit(hose=1500 * PSI), frame=Frame(rating=1e6)))
    found = evolve(assess(one, "inch"), rating=24_298 * LBF)
    force, relief = figures(rating_plate(one, found, "inch"))
    # 0.8 of 1500 psi on 11.0447 in2.
    assert relief == 1200
    assert force == pytest.approx(13_254, abs=1)


@pytest.mark.parametrize(("rated", "relief"), [(0.5, 2200), (0.8, 2200), (0.9, 1950), (1.0, 1760)])
def test_a_plate_says_four_fifths_of_what_hose_and_frame_let_it_be_proved_at(
    rated: float, relief: float
) -> None:
    # Rated to 2444 psi a hose lets it be proved at that: 1955, to tens of psi 1950.
    one, made = checked(("relief", 0.6, 1.0), rated=rated)
    assert figures(rating_plate(one, made, "inch"))[1] == relief
    said = plate_relief(one, made, "inch")
    assert said is not None
    assert any(f"{1.25 * said / PSI:.0f} psi (100 %)" in step
               for step in proof_steps(one, made, "inch"))  # fmt: skip


@pytest.mark.parametrize("lacks", RATED)
def test_without_a_rating_it_is_proved_at_the_relief_as_it_is_set(lacks: str) -> None:
    one, made = checked(("relief", 0.6, 1.0))
    some = evolve(made, checks=tuple(each for each in made.checks if each.member != lacks))
    assert figures(rating_plate(one, some, "inch"))[1] == 1760
    steps = proof_steps(one, some, "inch")
    # In quarters, each held for a minute and the last for five.
    stages = [step.split(", release")[0] for step in steps if step.startswith("Push to")]
    assert stages == [
        "Push to 550 psi (25 %), hold for one minute",
        "Push to 1100 psi (50 %), hold for one minute",
        "Push to 1650 psi (75 %), hold for one minute",
        "Push to 2200 psi (100 %), hold for five minutes",
    ]
    assert any("back to 1760 psi" in step for step in steps)


def test_the_block_of_the_proof_is_a_beam_between_the_shoulders() -> None:
    # 2750 psi on 11.0447 in2, 30 373 lbf in the middle of 4 in: 30 373 lbf in on a block of
    # 2-1/2 in: sqrt(6 x 30 373/(2.5 x 21 712)) = 1.832, in quarters 2 in; 18 224 psi.
    block = proof_block(30_373 * LBF, 4 * INCH, 0.25 * INCH, 2.5 * INCH, INCH / 4)
    assert block.thickness / INCH == pytest.approx(2.0)
    assert block.length / INCH == pytest.approx(8.5)
    assert block.stress / PSI == pytest.approx(18_224, abs=5)
    assert block.allowed / PSI == pytest.approx(36_259 / 1.67, abs=20)
    # Short and narrow it is sheared: 1.5 x 15 186.5/(0.5 x 0.6 x 21 712) = 3.497 in, bent 2.590.
    short = proof_block(30_373 * LBF, 0.8 * INCH, 0.25 * INCH, 0.5 * INCH, INCH / 4)
    assert short.thickness / INCH == pytest.approx(3.5)
    one, made = checked(("relief", 0.6, 1.0))
    (step,) = (each for each in proof_steps(one, made, "inch") if "Put a block" in each)
    assert "2.00 in thick, 2.50 in wide along the nose, 8.50 in long" in step
    assert "18.2 ksi of the 21.7 ksi allowed" in step


def test_a_block_that_does_not_go_under_the_nose_proves_nothing() -> None:
    one, made = checked(("relief", 0.6, 1.0))
    press = one.press
    assert press is not None
    # 1/4 in of bar and 1-3/4 in of daylight are just the 2 in of the block.
    fits = evolve(one, press=evolve(press, daylight=1.76 * INCH))
    low = evolve(one, press=evolve(press, daylight=1.7 * INCH))
    assert len(proof_steps(fits, made, "inch")) > 10
    steps = proof_steps(low, made, "inch")
    assert "fix no plate" in steps[0]
    assert len(steps) == 2


def test_a_plan_that_asks_for_more_than_the_plate_is_told() -> None:
    one, made = checked(("plan", 0.3, 1.0), ("relief", 6.5, 1.0))
    assert "The plan asks for up to 4000 lbf" in proof_steps(one, made, "inch")[0]
    one, made = checked(("plan", 0.3, 1.0), ("relief", 2.0, 1.0))
    assert proof_steps(one, made, "inch")[0].startswith("First change what does not hold")


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


def test_a_plate_names_what_a_push_breaks_and_says_where_the_life_is_not_proven() -> None:
    one, made = checked(("relief", 0.6, 1.0))
    first = check("die body", "any", 0.99, grows=0.0)
    named = evolve(made, checks=(first, *made.checks))
    assert "WEAKEST MEMBER: NOSE" in rating_plate(one, named, "inch")
    life = Unchecked(member="nose", what="life in bending", state="", where="", carries=False)
    assert not any("CRACKS" in line for line in rating_plate(one, made, "inch"))
    assert any("LOOK FOR CRACKS" in line
               for line in rating_plate(one, evolve(made, unchecked=(life,)), "inch"))  # fmt: skip
