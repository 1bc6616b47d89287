"""An arc on a member of the tooling: refused, warned of, told in passing, or nothing said."""

from __future__ import annotations

import pytest
from telling import told_of

from strapwright.findings import Severity
from strapwright.shop.members import DieBody, Members, ShoulderMember, Weld
from strapwright.strength.weldability import weld_findings


def said(material: str) -> list[tuple[str, Severity, str, str]]:
    members = Members(
        body=DieBody(material=material), weld=(Weld(holds="cheeks", size=6.0, length=100.0),)
    )
    return [(f.code, f.severity, f.text, f.remedy) for f in told_of(weld_findings(members))]


@pytest.mark.parametrize("material", ["A36", "S235", "1018 cold drawn"])
def test_mild_steel_welds_cold_and_nothing_is_said(material: str) -> None:
    assert said(material) == []


@pytest.mark.parametrize("material", ["1045", "4140", "unknown steel", "S355"])
def test_what_cracks_beside_a_cold_weld_is_warned_of_and_preheat_is_guidance(material: str) -> None:
    ((code, severity, text, remedy),) = said(material)
    assert (code, severity) == ("weld-needs-preheat", Severity.WARNING)
    assert "guidance, not a welding procedure" in text
    assert "qualified procedure" in remedy
    assert "bolt" in remedy


def test_the_span_of_the_lists_is_told_in_both_units() -> None:
    # 1045: carbon to 0.50 gives 500 to 800 F, its equivalent of 0.585 gives 200 to 400 F.
    assert "200 to 800 °F (100 to 430 °C)" in said("1045")[0][2]


def test_a_shoulder_welded_to_a_hard_base_is_warned_of() -> None:
    members = Members(
        shoulders=ShoulderMember(material="A36"), body=DieBody(material="4140"),
        weld=(Weld(holds="shoulders", size=6.0, length=100.0),),
    )  # fmt: skip
    (one,) = told_of(weld_findings(members))
    assert one.code == "weld-needs-preheat"
    assert "is on 4140" in one.text


def test_at_the_edge_of_the_lists_it_is_a_note() -> None:
    ((code, severity, text, _),) = said("S275")
    assert (code, severity) == ("weld-may-need-preheat", Severity.NOTE)
    # Carbon to 0.22: 200 to 300 F in both lists by carbon, up to 212 F by its equivalent of 0.40.
    assert "200 to 300 °F (100 to 150 °C); that is guidance" in text


@pytest.mark.parametrize("material", ["hardened shaft", "52100"])
def test_hardened_shafting_is_refused_with_another_way(material: str) -> None:
    ((code, severity, _, remedy),) = said(material)
    assert (code, severity) == ("weld-on-hardened-shaft", Severity.REFUSAL)
    assert "clamp" in remedy
    assert "bolted" in remedy
