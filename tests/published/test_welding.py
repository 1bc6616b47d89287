"""Carbon equivalent and preheat against printed lists.

Sources, also at the head of each table ``data/shop_06_weld_...``:

* ``carbon_equivalent``: formula of the International Institute of Welding with a printed
  worked value (4140); the other rows are compositions from memory with the formula's value;
* ``preheat``: by carbon two charts that agree, by carbon equivalent three lists that do not
  agree.  Warning at its head: guidance as a band, never a procedure.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strapwright.catalog.steels import find_steel, steels
from strapwright.catalog.welding import carbon_equivalent, preheat_by, weldability

DATA = Path(__file__).parent / "data"
# Case of the list -> steel of the catalog.
OURS = {
    "check B (4140 mid)": "4140 annealed",
    "1018 mid": "1018 cold drawn",
    "1045 mid": "1045 ground shaft",
    "1566 mid": "hardened shaft",
    "52100 mid": "52100 hardened shaft",
}


def rows(name: str) -> list[dict[str, str]]:
    lines = (DATA / f"shop_06_weld_{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", rows("carbon_equivalent"), ids=lambda row: row["case"])
def test_carbon_equivalent(row: dict[str, str]) -> None:
    percent = {key: float(row[key]) for key in ("C", "Mn", "Cr", "Mo", "V", "Ni", "Cu")}
    found = carbon_equivalent(percent)
    if row["CE_published"]:
        assert found == pytest.approx(float(row["CE_published"]), abs=5e-4)
    assert found == pytest.approx(float(row["CE_calc"]), abs=5e-5)
    if row["case"] in OURS:
        assert weldability(find_steel(OURS[row["case"]], "w")).equivalent == pytest.approx(found)


def test_every_guide_shaft_is_in_the_hardest_band_of_the_lists() -> None:
    # Head of the list: linear guide shafting sits above 0.7, the hardest to weld.
    for steel in steels():
        equal = weldability(steel).equivalent
        if steel.hardened:
            assert equal is not None
            assert equal > 0.7


@pytest.mark.parametrize(
    "row",
    [one for one in rows("preheat") if one["steel"] == "plain carbon"],
    ids=lambda row: row["carbon_pct"],
)
def test_preheat_by_carbon(row: dict[str, str]) -> None:
    said = row["carbon_pct"].removeprefix("below ")
    middle = 0.1 if "-" not in said else sum(map(float, said.split("-"))) / 2
    low = float(row["preheat_F_low"]) if row["preheat_F_low"] else None
    assert preheat_by("carbon", middle) == (low, float(row["preheat_F_high"]))


@pytest.mark.parametrize(
    ("said", "percent"), [("CE 0.40-0.45", 0.43), ("CE 0.45-0.60", 0.5), ("CE > 0.60", 0.7)]
)
def test_preheat_by_equivalent(said: str, percent: float) -> None:
    row = next(one for one in rows("preheat") if one["carbon_pct"] == said)
    high = float(row["preheat_F_high"]) if row["preheat_F_high"] else None
    assert preheat_by("CE", percent) == (float(row["preheat_F_low"]), high)


def test_little_equivalent_asks_for_none_and_the_disputed_edge_is_on_the_safe_side() -> None:
    # "CE < 0.35-0.40: little or no preheat on thin sections; sources do not agree on the edge".
    assert preheat_by("CE", 0.34) == (None, None)
    assert preheat_by("CE", 0.36) == (None, 212.0)


def test_a_named_steel_lies_in_the_span_of_the_lists() -> None:
    row = next(one for one in rows("preheat") if one["steel"] == "4140")
    known = weldability(find_steel("4140", "w"))
    assert known.low is not None
    assert known.low <= float(row["preheat_F_low"])
    # The list by equivalent has no upper limit there, and so has none the span.
    assert known.high is None


def test_an_unknown_composition_goes_by_its_carbon() -> None:
    known = weldability(find_steel("unknown steel", "w"))
    assert known.equivalent is None
    assert (known.low, known.high) == preheat_by("carbon", 0.60) == (500.0, 800.0)


@given(
    percent=st.fixed_dictionaries(
        {one: st.floats(0, 2) for one in ("C", "Mn", "Cr", "Mo", "V", "Ni", "Cu")}
    ),
    more=st.floats(0, 1),
    element=st.sampled_from(["C", "Mn", "Cr", "Mo", "V", "Ni", "Cu"]),
)
def test_more_of_anything_never_welds_better(
    percent: dict[str, float], more: float, element: str
) -> None:
    richer = {**percent, element: percent[element] + more}
    before, after = carbon_equivalent(percent), carbon_equivalent(richer)
    assert after >= before >= percent["C"]
    low, low_after = preheat_by("CE", before)[0] or 0.0, preheat_by("CE", after)[0] or 0.0
    assert low_after >= low
