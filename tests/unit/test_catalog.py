"""The table of metals is complete, physical, and finds what people write."""

from __future__ import annotations

import math
import re
import tomllib
from importlib import resources

import pytest
from scipy.optimize import brentq

from strapwright.catalog import Material, find_material, materials, smallest_radius
from strapwright.catalog.sources import in_words
from strapwright.errors import InputError

NUMBERS = (
    "modulus",
    "poisson",
    "density",
    "yield_typical",
    "yield_spread",
    "tensile_typical",
    "tensile_spread",
    "exponent",
    "exponent_spread",
    "elongation",
    "unloading_ratio",
    "unloading_spread",
    "min_radius_rule",
)
# Moduli and densities of the pure base metals and their common alloys, loosely: a slip of a
# factor or a wrong row falls outside.
BOUNDS = {
    "steel": ((195e3, 215e3), (7700, 7950)),
    "stainless": ((185e3, 205e3), (7700, 8100)),
    "aluminium": ((65e3, 75e3), (2600, 2850)),
    "copper": ((105e3, 135e3), (8800, 9000)),
    "brass": ((95e3, 120e3), (8300, 8800)),
}

each = pytest.mark.parametrize("metal", materials(), ids=lambda one: one.name)


@each
def test_physical_bounds(metal: Material) -> None:
    (E_low, E_high), (rho_low, rho_high) = BOUNDS[metal.family]
    assert E_low <= metal.modulus <= E_high
    assert rho_low <= metal.density <= rho_high
    assert 0.25 <= metal.poisson <= 0.36
    assert metal.exponent - metal.exponent_spread > 0.02
    assert metal.exponent + metal.exponent_spread < 0.6
    assert metal.tensile_typical > metal.yield_typical > 0
    assert metal.yield_typical >= (metal.yield_minimum or 0)
    assert metal.tensile_typical >= (metal.tensile_minimum or 0)
    assert 0 < metal.tensile_spread <= metal.yield_spread < 0.5
    assert 0 < metal.elongation <= 60
    assert metal.unloading_ratio - metal.unloading_spread >= 0.7
    assert metal.unloading_ratio + metal.unloading_spread <= 1.0


def test_hot_rolled_steel_has_a_yield_plateau_and_drawn_bar_has_none() -> None:
    """Common low-carbon bar yields to a strain of 1 to 2 % before it hardens (from memory)."""
    for name in ("A36 hot rolled", "1018 hot rolled", "S235", "S275", "S355"):
        metal = find_material(name, "material")
        assert 0.01 <= metal.plateau <= 0.02
        assert metal.plateau_spread > 0.0
    without = [one for one in materials() if one.drawn or one.family != "steel"]
    assert without
    assert {one.plateau for one in without} == {0.0}


@each
def test_a_flow_curve_through_yield_and_tensile_strength_exists(metal: Material) -> None:
    # Swift, K (e0 + p)^n, neck at e0 + p = n (Considere):
    # ln(UTS/Y) = n ln(n/e0) - n + e0 must have a root 0 < e0 < n that is no numerical dust.
    n = metal.exponent
    ratio = math.log(metal.tensile_typical / metal.yield_typical)
    offset = brentq(lambda e0: n * math.log(n / e0) - n + e0 - ratio, 1e-12, n)
    assert 1e-4 < offset < n


@each
def test_every_number_says_how_it_is_known(metal: Material) -> None:
    wanted = set(NUMBERS)
    wanted |= {key for key in ("yield_minimum", "tensile_minimum") if getattr(metal, key)}
    wanted |= {"anneal"} if metal.anneal else set()
    wanted |= {"plateau", "plateau_spread"} if metal.plateau else set()
    assert set(metal.sources) == wanted
    for known in metal.sources.values():
        assert known.source
        assert known.grade in {
            "standard",
            "handbook",
            "data sheet",
            "common practice",
            "from memory",
        }
    # A minimum and what bar commonly is are known from different places.
    if metal.yield_minimum is not None:
        assert metal.sources["yield_minimum"] != metal.sources["yield_typical"]


def test_no_source_of_the_table_is_idle() -> None:
    table = tomllib.loads(
        resources.files("strapwright.catalog").joinpath("data/materials.toml").read_text("utf-8")
    )
    used = {known.source for metal in materials() for known in metal.sources.values()}
    assert {in_words(source) for source, _ in table["sources"].values()} == used


def test_names_are_unique_and_metals_hash() -> None:
    names = [name.lower() for one in materials() for name in (one.name, *one.aliases)]
    assert len(names) == len(set(names))
    assert len(set(materials())) == len(materials())


def test_bar_that_can_snap_says_so() -> None:
    brittle = {one.name for one in materials() if one.brittle}
    assert brittle == {
        "brass",
        "unknown scrap",
        "reinforcing bar",
        "rebar grade 40",
        "rebar grade 80",
        "1045 cold drawn",
        "1045 quenched and tempered",
        "4140 normalized",
        "4140 prehardened",
        "5160 hardened and tempered",
        "1095 hardened and tempered",
        "leaf spring, state unknown",
        "brass 360 free-machining",
    }
    for one in materials():
        if one.brittle:
            assert any(note.kind == "cracking" and "can snap" in note.text for note in one.notes)


def test_what_nobody_vouches_for_is_widest() -> None:
    scrap, mild = find_material("unknown scrap", "w"), find_material("unknown mild steel", "w")
    steels = [one for one in materials() if one.family == "steel" and one not in {scrap, mild}]
    known = max(one.yield_spread for one in steels)
    assert scrap.yield_spread > mild.yield_spread > known
    assert scrap.yield_minimum is mild.yield_minimum is None
    # Two spreads of scrap reach from below mild steel to beyond 4140 annealed.
    low = scrap.yield_typical * math.exp(-2 * scrap.yield_spread)
    high = scrap.yield_typical * math.exp(2 * scrap.yield_spread)
    assert low < min(one.yield_typical for one in steels)
    assert high > 2 * find_material("4140 annealed", "w").yield_typical


def test_a_hard_state_names_one_that_bends_on_a_smaller_nose() -> None:
    hard = [one for one in materials() if one.softer]
    assert {one.name for one in hard if one.cracks} == {
        "5160 hardened and tempered",
        "1095 hardened and tempered",
        "leaf spring, state unknown",
    }
    for one in hard:
        softer = find_material(one.softer, "w")
        assert not softer.cracks
        assert not softer.softer
        for thickness in (3.175, 6.35, 12.7):
            assert smallest_radius(softer, thickness)[0] <= smallest_radius(one, thickness)[0]
        assert one.family == softer.family
    assert {one.name for one in hard if one.anneal is None} == {"brass 360 free-machining"}
    # The names people write for a leaf mean the hard state, and every row says what to order by.
    for name in ("leaf spring", "spring steel", "5160", "1095"):
        assert find_material(name, "w").cracks
    assert all(one.designation for one in materials())


def test_finding_by_name_and_alias() -> None:
    for metal in materials():
        for name in (metal.name, *metal.aliases):
            assert find_material(f"  {name.upper()} ".replace(" ", "  "), "w") is metal


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("1018", "no such material; write '1018 hot rolled' or '1018 cold drawn'"),
        ("A63", "write 'A36 hot rolled'"),
        ("S 235", "write 'S235'"),
        ("6061-T66", "write '6061-T6'"),
        ("zzz", "write for example 'A36 hot rolled', 'unknown mild steel' or 'unknown scrap'"),
        ("", "write for example 'A36 hot rolled'"),
        ("q" * 100_000, "write for example 'A36 hot rolled'"),
        (1018, "the material is not a name; write it in quotes"),
        (None, "the material is not a name; write it in quotes"),
    ],
)
def test_unknown_names_are_refused_with_the_nearest(name: str, words: str) -> None:
    with pytest.raises(InputError, match=re.escape(words)) as caught:
        find_material(name, "bar.material")
    assert str(caught.value).startswith("bar.material ")
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize("thickness", [0.0, -1.0, math.nan, math.inf])
def test_no_radius_for_no_thickness(thickness: float) -> None:
    with pytest.raises(InputError, match="the thickness is not above 0"):
        smallest_radius(find_material("A36", "w"), thickness)
