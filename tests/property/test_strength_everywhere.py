"""Thicker is never weaker and longer never stronger, for every check of every way of holding."""

from __future__ import annotations

from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from specimen_dies import BENCHES, PRESS
from strapwright.shop.press import Press
from strapwright.shop.tooling import Shoulders, Tooling
from strapwright.strength.check_values import Bench
from strapwright.strength.load_cases import push_loads, retract_load
from strapwright.strength.member_checks import check_members


def bench(name: str, grown: str = "", factor: float = 1.0) -> Bench:
    members, nose = BENCHES[name]
    press: Press = PRESS
    radius, outer = 10.0, 70.0
    table, _, key = grown.partition(".")
    number = int(table[-2]) if table.endswith("]") else None
    base = table.partition("[")[0]
    if base == "tooling":
        if key == "shoulder_radius":
            radius *= factor
        elif key == "outer_edge":
            outer *= factor
        else:
            nose = evolve(nose, **{key: factor * getattr(nose, key)})
    elif base == "press":
        press = evolve(press, **{key: factor * getattr(press, key)})
    elif number is not None:
        several = list(getattr(members, base))
        value = getattr(several[number], key)
        # Bolts come whole, and in even numbers where they stand in rows.
        value = 2 * round(value * factor / 2) if key == "count" else value * factor
        several[number] = evolve(several[number], **{key: value})
        changes: dict[str, Any] = {base: tuple(several)}
        members = evolve(members, **changes)
    elif base:
        one: Any = getattr(members, base)
        changes = {base: evolve(one, **{key: factor * getattr(one, key)})}
        members = evolve(members, **changes)
    tooling = Tooling(
        nose=nose,
        shoulders=Shoulders(radius=radius, opening=90.0, height=90.0, outer_edge=outer),
        members=members,
    )
    pushes = push_loads(
        peak=30e3, outward=12e3, steepest=0.9, press=PRESS, friction=0.1,
        off_centre=members.off_centre,
    )  # fmt: skip
    return Bench(
        tooling=tooling, press=press, thickness=6.0, width=40.0, widest=40.0, pushes=pushes,
        retract=retract_load(PRESS),
    )  # fmt: skip


Ratios = dict[tuple[str, str, str], float]


def ratios(one: Bench) -> Ratios:
    checks, unchecked = check_members(one)
    # A life that is too short is not proven, and no check.
    assert [each for each in unchecked if not each.what.startswith("life")] == []
    return {
        (check.member, check.what, check.load_case): check.ratio
        for check in checks
        if not check.what.startswith("life")
    }


# Way of holding, what grows, and what of it may not become weaker: members, or one check of one.
STRONGER = [
    ("usual", "tooling.radius", ("nose: bending", "nose: shear", "nose: sag")),
    ("usual", "carriers.thickness", ("carriers",)),
    ("usual", "carriers.width", ("carriers",)),
    ("usual", "carriers.pin", ("carrier pins",)),
    ("usual", "push_plate.thickness", ("push plate",)),
    # The bolts of a wider plate may lie farther out, which bends it across.
    ("usual", "push_plate.width", ("push plate: bending", "push plate: shear")),
    ("usual", "tooling.shoulder_radius", ("shoulders",)),
    # A thicker cheek has its round farther beside its middle, which bends floor and plates more.
    ("usual", "body.cheek", ("die body: push and bending", "die body: shear")),
    ("usual", "body.floor", ("die body",)),
    ("usual", "weld[0].size", ("weld of the cheeks",)),
    ("usual", "weld[0].length", ("weld of the cheeks",)),
    ("usual", "weld[0].spacing", ("weld of the cheeks",)),
    ("usual", "bolt[0].count", ("bolts of the push plate",)),
    ("usual", "bolt[0].length", ("bolts of the push plate",)),
    ("usual", "bolt[1].count", ("bolts of the carriers",)),
    ("usual", "bolt[1].length", ("bolts of the carriers",)),
    ("usual", "bolt[2].count", ("bolts of the base",)),
    ("usual", "bolt[2].length", ("bolts of the base",)),
    ("usual", "guides.diameter", ("guide rods: bending",)),
    ("usual", "guides.bush", ("guide rods",)),
    ("usual", "guides.spacing", ("guide rods: binding",)),
    ("usual", "coupling.pin", ("coupling pin",)),
    ("usual", "coupling.play", ("coupling",)),
    ("usual", "press.rod", ("piston rod",)),
    ("usual", "frame.rating", ("frame",)),
    *(
        ("usual", f"circuit.{one}", (one.replace("_", " "),))
        for one in ("hose", "fitting", "valve", "cylinder", "rod_side", "gauge")
    ),
    ("contact", "tooling.shoulder_radius", ("shoulders",)),
    ("contact", "weld[0].length", ("weld of the carriers",)),
    ("contact", "weld[0].size", ("weld of the carriers",)),
    ("contact", "bolt[0].spacing", ("bolts of the push plate",)),
    ("seated", "tooling.shoulder_radius", ("shoulders",)),
    (
        "block",
        "tooling.shoulder_radius",
        ("shoulders: corner of the edge", "shoulders: flat that the bar presses on the edge"),
    ),
    (
        "block",
        "tooling.outer_edge",
        (
            "shoulders: push and bending at the root",
            "shoulders: shear at the root",
            "die body: bearing of a block on the base",
        ),
    ),
    ("block", "body.length", ("shoulders", "die body")),
    ("block", "body.floor", ("die body",)),
    ("block", "weld[0].size", ("weld of the shoulders",)),
    ("block", "weld[0].length", ("weld of the shoulders",)),
    ("one end", "tooling.radius", ("nose: bending", "nose: shear", "nose: sag")),
    ("one end", "carriers.thickness", ("carriers: buckling", "carriers: tension beside the hole")),
    ("one end", "carriers.width", ("carriers",)),
    ("one end", "push_plate.thickness", ("push plate",)),
    ("one end", "weld[0].size", ("weld of the carriers",)),
    ("one end", "weld[0].spacing", ("weld of the carriers",)),
    ("web", "tooling.web_thickness", ("nose",)),
    ("web", "push_plate.thickness", ("push plate",)),
    ("web", "weld[0].size", ("weld of the web",)),
    ("web", "weld[0].length", ("weld of the web",)),
    ("web", "weld[0].spacing", ("weld of the web",)),
    ("web", "weld[1].length", ("weld of the nose",)),
    ("web", "weld[1].size", ("weld of the nose",)),
    ("tied", "body.cheek", ("die body: bending", "die body: shear")),
    ("tied", "body.side_plate", ("die body",)),
    ("tied", "bolt[0].count", ("bolts of the side plates", "die body: bearing")),
    ("tied", "bolt[0].spacing", ("bolts of the side plates",)),
    ("tied", "bolt[1].circle", ("bolts of the push plate",)),
    ("tied", "bolt[2].count", ("bolts of the base",)),
    ("tied", "bolt[2].length", ("bolts of the base",)),
    ("tied", "bolt[3].spacing", ("bolts of the cheeks",)),
    ("tied", "bolt[3].length", ("bolts of the cheeks",)),
    # Supports farther apart share a push off centre more evenly.
    ("usual", "shoulders.between", ("shoulders: shear",)),
    ("usual", "nose.between", ("nose: shear", "push plate: shear")),
    (
        "tied", "body.between",
        ("die body: shear", "die body: tension and bending of the side plates",
         "die body: bearing", "bolts of the side plates"),
    ),
]  # fmt: skip
# Way of holding, what grows, and what may not become stronger.
WEAKER = [
    # Carriers farther apart share a push off centre more evenly, which shears the plate less.
    ("usual", "nose.between", ("nose: bending", "nose: sag", "push plate: bending")),
    ("usual", "shoulders.between", ("shoulders: bending",)),
    ("block", "weld[0].height", ("shoulders", "die body", "weld of the shoulders")),
    ("usual", "carriers.height", ("carriers",)),
    ("usual", "carriers.cheek", ("carrier pins",)),
    ("usual", "body.height", ("die body",)),
    ("usual", "weld[0].height", ("weld of the cheeks",)),
    ("usual", "guides.length", ("guide rods",)),
    ("usual", "rod.free_length", ("piston rod",)),
    ("usual", "coupling.length", ("coupling",)),
    ("one end", "nose.between", ("nose", "carriers", "push plate", "weld of the carriers")),
    ("web", "tooling.web_height", ("nose",)),
    ("tied", "body.between", ("die body: bending",)),
    ("tied", "body.height", ("die body: tension and bending of the side plates",)),
    ("tied", "bolt[0].height", ("bolts of the side plates", "die body: bearing")),
    ("tied", "bolt[3].height", ("bolts of the cheeks",)),
]


growth = st.floats(1.0, 1.9)


def of(members: tuple[str, ...], found: Ratios) -> Ratios:
    return {
        key: ratio
        for key, ratio in found.items()
        if key[0] in members or f"{key[0]}: {key[1]}" in members
    }


@pytest.mark.parametrize(("name", "grown", "members"), STRONGER)
@settings(max_examples=8, deadline=None)
@given(factor=growth)
def test_thicker_is_never_weaker(
    name: str, grown: str, members: tuple[str, ...], factor: float
) -> None:
    before = of(members, ratios(bench(name)))
    after = of(members, ratios(bench(name, grown, factor)))
    assert before
    assert all(after[case] <= ratio * (1 + 1e-12) for case, ratio in before.items())


@pytest.mark.parametrize(("name", "grown", "members"), WEAKER)
@settings(max_examples=8, deadline=None)
@given(factor=growth)
def test_longer_is_never_stronger(
    name: str, grown: str, members: tuple[str, ...], factor: float
) -> None:
    before = of(members, ratios(bench(name)))
    after = of(members, ratios(bench(name, grown, factor)))
    assert before
    assert all(after[case] >= ratio * (1 - 1e-12) for case, ratio in before.items())


def test_every_check_is_held_to_some_size_of_its_member() -> None:
    """Each check of each way of holding answers to something of the lists above."""
    for name in BENCHES:
        whole = ratios(bench(name))
        answered: set[tuple[str, str]] = set()
        for way, grown, members in (*STRONGER, *WEAKER):
            if way not in {name, "usual"}:
                continue
            try:
                after = ratios(bench(name, grown, 1.9))
            except (AttributeError, IndexError, TypeError):
                continue  # what this way of holding does not have
            answered |= {
                (member, what)
                for member, what, case in of(members, whole)
                if after[member, what, case] != whole[member, what, case]
            }
        assert {(member, what) for member, what, _ in whole} - answered == set()


@settings(max_examples=20, deadline=None)
@given(factor=st.floats(1.0, 3.0), name=st.sampled_from(list(BENCHES)))
def test_more_load_is_never_a_smaller_ratio(factor: float, name: str) -> None:
    one = bench(name)
    more = tuple(
        evolve(load, force=factor * load.force, outward=factor * load.outward)
        for load in one.pushes
    )
    assert one.retract is not None
    pull = evolve(one.retract, force=factor * one.retract.force)
    before, after = ratios(one), ratios(evolve(one, pushes=more, retract=pull))
    assert before.keys() == after.keys()
    assert all(after[case] >= ratio * (1 - 1e-12) for case, ratio in before.items())
