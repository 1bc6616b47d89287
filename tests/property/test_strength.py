"""Whatever the tooling: thicker is never weaker, longer never stronger, more load never less."""

from __future__ import annotations

from math import radians
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from specimen_dies import PRESS, STATED
from strapwright.shop.members import (
    Members,
)
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.check_values import Bench, Check
from strapwright.strength.load_cases import outward_force, push_loads, retract_load
from strapwright.strength.member_checks import check_members
from strapwright.strength.rating import rating_of, relief_to_set


def bench(stated: Members = STATED, press: Press = PRESS, peak: float = 30e3) -> Bench:
    tooling = Tooling(
        nose=Nose(radius=12.5),
        shoulders=Shoulders(radius=10.0, opening=70.0, height=90.0),
        members=stated,
    )
    return Bench(
        tooling=tooling,
        press=press,
        thickness=6.0,
        width=40.0,
        widest=40.0,
        pushes=push_loads(
            peak=peak,
            outward=0.4 * peak,
            steepest=0.9,
            press=press,
            friction=0.1,
            off_centre=stated.off_centre,
        ),
        retract=retract_load(press),
    )


def ratios(one: Bench) -> dict[tuple[str, str, str], float]:
    found = {
        (check.member, check.what, check.load_case): check.ratio
        for check in check_members(one)[0]
        if not check.what.startswith("life")  # not proven where it is too short
    }
    assert found
    return found


def test_nothing_of_a_tooling_stated_in_full_is_unchecked() -> None:
    checks, unchecked = check_members(bench())
    # All but a life: pins of 16 mm are bent by 17 kN x (10/2 + 20/2)/2 to some 310 MPa, and where
    # they fret no curve begins above 56/1.35 x (2e6/1e4)^(1/3) = 243 MPa.
    assert [(one.member, one.what) for one in unchecked] == [("carrier pins", "life in bending")]
    assert {check.member for check in checks} >= {
        "nose", "carriers", "carrier pins", "push plate", "shoulders", "die body",
        "weld of the cheeks", "bolts of the push plate", "bolts of the carriers", "guide rods",
        "coupling", "coupling pin", "piston rod", "frame", "hose", "fitting", "valve", "cylinder",
        "rod side", "gauge",
    }  # fmt: skip
    assert [check.ratio for check in checks] == sorted((c.ratio for c in checks), reverse=True)


# What makes a member stronger when it grows, and whose ratios may not rise then.
THICKER = [
    ("carriers", "thickness", {"carriers"}),
    ("carriers", "width", {"carriers"}),
    ("carriers", "pin", {"carrier pins"}),
    ("push_plate", "thickness", {"push plate"}),
    # The bolts of a wider plate may lie farther out, which bends it across.
    ("push_plate", "width", {"push plate: bending", "push plate: shear"}),
    ("body", "cheek", {"die body: push and bending", "die body: shear"}),
    ("body", "floor", {"die body"}),
    ("body", "length", {"die body"}),
    ("guides", "diameter", {"guide rods: bending"}),
    ("guides", "bush", {"guide rods"}),
    ("coupling", "pin", {"coupling pin"}),
    ("coupling", "play", {"coupling"}),
]
# What makes it weaker when it grows.
LONGER = [
    ("nose", "between", {"nose: bending", "nose: sag"}),
    ("nose", "between", {"push plate: bending"}),
    # Supports farther apart share a push off centre more evenly, which shears the round less.
    ("shoulders", "between", {"shoulders: bending"}),
    ("carriers", "height", {"carriers"}),
    ("carriers", "cheek", {"carrier pins"}),
    ("body", "height", {"die body"}),
    ("guides", "length", {"guide rods"}),
    ("rod", "free_length", {"piston rod"}),
]
growth = st.floats(1.0, 3.0)


def grown(key: str, name: str, factor: float) -> Members:
    one: Any = getattr(STATED, key)
    return evolve(STATED, **{key: evolve(one, **{name: factor * getattr(one, name)})})


def of(members: set[str], found: dict[tuple[str, str, str], float]) -> dict[Any, float]:
    return {
        key: ratio
        for key, ratio in found.items()
        if key[0] in members or f"{key[0]}: {key[1]}" in members
    }


@pytest.mark.parametrize(("key", "name", "members"), THICKER)
@given(factor=growth)
def test_thicker_is_never_weaker(key: str, name: str, members: set[str], factor: float) -> None:
    before, after = (
        of(members, ratios(bench())),
        of(members, ratios(bench(grown(key, name, factor)))),
    )
    assert before
    assert all(after[case] <= ratio * (1 + 1e-12) for case, ratio in before.items())
    if factor > 1.5:
        assert any(after[case] < ratio for case, ratio in before.items())


@pytest.mark.parametrize(("key", "name", "members"), LONGER)
@given(factor=growth)
def test_longer_is_never_stronger(key: str, name: str, members: set[str], factor: float) -> None:
    before, after = (
        of(members, ratios(bench())),
        of(members, ratios(bench(grown(key, name, factor)))),
    )
    assert before
    assert all(after[case] >= ratio * (1 - 1e-12) for case, ratio in before.items())
    if factor > 1.5:
        assert any(after[case] > ratio for case, ratio in before.items())


@given(factor=growth)
def test_more_load_is_never_a_smaller_ratio(factor: float) -> None:
    before = ratios(bench())
    stronger = evolve(PRESS, relief=factor * 14.0)
    after = ratios(bench(press=stronger, peak=factor * 30e3))
    assert before.keys() == after.keys()
    assert all(after[case] >= ratio * (1 - 1e-12) for case, ratio in before.items())


@given(radius=st.floats(8, 14), factor=st.floats(1, 2))
def test_a_thicker_nose_is_never_weaker(radius: float, factor: float) -> None:
    def of_nose(size: float) -> dict[tuple[str, str, str], float]:
        one = bench()
        nose = evolve(one.tooling.nose, radius=size)
        return of({"nose"}, ratios(evolve(one, tooling=evolve(one.tooling, nose=nose))))

    before, after = of_nose(radius), of_nose(factor * radius)
    assert all(after[case] <= ratio * (1 + 1e-12) for case, ratio in before.items())


@given(slope=st.floats(0, 1.4), more=st.floats(0, 0.1), mu=st.floats(0, 0.4))
def test_the_wedge_grows_with_the_slope_and_shrinks_with_friction(
    slope: float, more: float, mu: float
) -> None:
    one = outward_force(1000, slope, mu)
    assert outward_force(1000, slope + more, mu) >= one >= outward_force(1000, slope, mu + more)
    assert outward_force(2000, slope, mu) == pytest.approx(2 * one)


def test_the_wedge_at_square_and_past_it() -> None:
    # Worked from the balance of half a bar: 0.41 F at 90 deg, 0.70 F at 120 deg with mu 0.1.
    assert outward_force(1, radians(45), 0.1) == pytest.approx(0.41, abs=0.005)
    assert outward_force(1, radians(60), 0.1) == pytest.approx(0.70, abs=0.005)


@given(relief=st.floats(2, 60))
def test_at_the_relief_to_set_every_member_holds(relief: float) -> None:
    one = bench(press=evolve(PRESS, relief=relief), peak=1000.0)
    checks, unchecked = check_members(one)
    lower = relief_to_set(one, checks)
    assert unchecked == ()
    rating = rating_of(one, checks, unchecked)
    assert rating is not None
    if all(check.holds for check in checks):
        assert lower is None
        assert rating == pytest.approx(next(p.force for p in one.pushes if p.name == "relief"))
        return
    assert lower is not None
    assert lower < relief
    eased, _ = check_members(bench(press=evolve(PRESS, relief=lower * (1 - 1e-9)), peak=1000.0))
    assert max(check.ratio for check in eased) <= 1 + 1e-6
    assert rating <= next(p.force for p in one.pushes if p.name == "relief")


@given(st.sampled_from(["inch", "metric"]), st.integers(0, 200))
def test_a_check_prints_what_stands_in_its_formula(units: Any, index: int) -> None:
    checks, _ = check_members(bench())
    check: Check = checks[index % len(checks)]
    line = check.line(units)
    for word in (check.member, check.what, check.load_case, check.formula, check.source):
        assert word in line
    assert all(f"{name} = " in line for name, _, _ in check.inputs)
    assert ("does not hold" in line) is (check.ratio > 1)
