"""Cheeks tied by side plates, and a nose out of one carrier, against hand calculations.

Closed forms: a beam with a load spread over its middle (AISC manual by superposition), torsion of a
square bar T/(0.208 a^3) (Roark, torsion of solid sections), a tie off its middle F/A + F e/W.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest

from strapwright.shop.members import Bolt, Carriers, DieBody, Members, NoseMember, PushPlate, Weld
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Bench, Check, Load, Result
from strapwright.strength.die_body import body_checks
from strapwright.strength.joint_forces import held_loads
from strapwright.strength.push_plate import push_plate_checks

H = 20e3  # N, outwards on each shoulder


def bench(members: Members, nose: Nose | None = None) -> Bench:
    return Bench(
        tooling=Tooling(
            nose=nose or Nose(radius=10.0),
            shoulders=Shoulders(radius=10.0, opening=70.0),
            members=members,
        ),
        press=Press(bore=80.0, rod=40.0, relief=10.0),
        thickness=6.0,
        width=40.0,
        widest=40.0,
        pushes=(Load(case="plan", force=30e3, outward=H),),
        retract=None,
    )


def demands(checks: Iterable[Result]) -> dict[str, float]:
    return {one.what: one.demand for one in checks if isinstance(one, Check)}


def tied(**bolt: float) -> Members:
    changes: dict[str, Any] = {"height": 15.0, "spacing": 20.0, **bolt}
    return Members(
        body=DieBody(
            material="A36", cheek=30.0, length=100.0, tall=40.0, height=35.0, side_plate=15.0,
            between=115.0,
        ),
        bolt=(
            Bolt(holds="side plates", size="M10", grade="8.8", count=2, length=35.0, grip=15.0,
                 **changes),
        ),
    )  # fmt: skip


def test_a_cheek_is_a_beam_between_the_side_plates_and_is_twisted() -> None:
    found = demands(body_checks(bench(tied())))
    # Of 40 mm the seat of a 10 mm round leaves 30: a square of 30, W = 30^3/6 = 4500.
    assert found["bending"] == pytest.approx(H * (2 * 115 - 40) / 8 / 4500)
    # The bar that drags it inwards turns its end more than the wedge, 20 000 x 15: half of
    # 15 000 (15 + 0.2 x 15) + 25 000 x 10 sin(atan 0.2) = 319 029 N mm.
    twist = 319_029 / 2
    assert found["shear"] == pytest.approx(1.5 * H / 2 / 900 + twist / (0.208 * 30**3), rel=1e-5)


def test_a_side_plate_is_a_tie_past_its_holes() -> None:
    found = demands(body_checks(bench(tied())))
    hole = 1.15 * 10.0
    area = (40 - 2 * hole) * 15
    inertia = 15 * (40**3 / 12 - 2 * (hole * 10**2 + hole**3 / 12))
    expected = H / 2 / area + 319_029 / 2 / (inertia / 20)
    assert found["tension and bending of the side plates"] == pytest.approx(expected, rel=1e-5)
    # The upper of two bolts takes the half and the couple: H/4 + 159 514/20.
    assert found["bearing"] == pytest.approx((H / 4 + 159_514 / 20) / (10 * 15), rel=1e-5)


def test_bolts_of_a_side_plate_take_the_push_beside_the_middle_of_a_cheek() -> None:
    """The wedge at their middle turns nothing; 15 kN down over the inner face of 30 does.

    15 000 x 15 = 225 000, and 25 000 x 10 sin(atan 0.2) = 49 029: half of 274 029 N mm at an end,
    on two rows 20 apart 6851 N each, beside half of the wedge: 10 000 + 2 x 6851 for both.
    """
    one = bench(tied(height=0.0))
    assert one.tooling.members is not None
    (held,) = held_loads(one, one.tooling.members.bolt[0])
    assert held.across == pytest.approx(23_701, abs=2)
    assert all(isinstance(check, Check) and check.ratio > 0 for check in bolt_checks(one))


def one_end() -> Bench:
    members = Members(
        nose=NoseMember(material="4140", between=50.0),
        carriers=Carriers(material="A36", thickness=30.0, width=60.0, height=80.0),
        push_plate=PushPlate(material="A36", thickness=40.0, width=90.0),
        weld=(Weld(holds="carriers", size=8.0, length=120.0, thinner=30.0, spacing=30.0),),
    )
    return bench(members, Nose(radius=10.0, held="one end"))


def test_one_carrier_alone_is_bent_by_what_hangs_out_of_it() -> None:
    """From the middle of a bar of 40 to the middle of a carrier of 30: 50 - 20 + 15 = 45 mm."""
    moment = 30e3 * 45.0
    carrier = demands(carrier_checks(one_end()))
    assert carrier["push and bending"] == pytest.approx(
        30e3 / (30 * 60) + moment / (60 * 30**2 / 6)
    )
    # In its hole: pressed over 20 x 30, and clamped by the couple over the 30.
    assert carrier["bearing"] == pytest.approx(30e3 / (20 * 30) * (1 + 6 * 45 / 30))
    plate = demands(push_plate_checks(one_end()))
    assert plate["bending"] == pytest.approx(moment / (90 * 40**2 / 6))
    members = one_end().tooling.members
    assert members is not None
    held = next(iter(held_loads(one_end(), members.weld[0])))
    assert held.tilt == pytest.approx(moment)
