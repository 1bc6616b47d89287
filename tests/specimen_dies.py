"""Dies of every way of holding, stated in full, and every line that their checks can print."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from math import radians
from pathlib import Path
from types import FrameType
from typing import Any

from attrs import evolve

from strapwright.shop.members import (
    Bolt,
    Carriers,
    Circuit,
    Coupling,
    DieBody,
    Frame,
    Guides,
    Members,
    NoseMember,
    PistonRod,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.check_values import Bench, Check
from strapwright.strength.load_cases import push_loads, retract_load
from strapwright.strength.member_checks import check_members

STATED = Members(
    off_centre=4.0,
    bends_a_year=1000,
    nose=NoseMember(material="1045 ground shaft", between=90.0),
    carriers=Carriers(thickness=20.0, width=60.0, height=70.0, pin=16.0, cheek=10.0),
    push_plate=PushPlate(material="A36", thickness=25.0, width=100.0, pad=20.0),
    shoulders=ShoulderMember(backed=False, between=80.0, material="1045 ground shaft"),
    body=DieBody(cheek=30.0, floor=30.0, length=100.0, height=50.0),
    weld=(Weld(holds="cheeks", size=8.0, length=200.0, thinner=30.0, spacing=60.0, height=50.0),),
    bolt=(
        Bolt(holds="push plate", size="M12", count=4, length=50.0, grip=25.0, spacing=70.0),
        Bolt(
            holds="carriers", size="1/2-13", grade="5", count=2, length=50.0, grip=25.0,
            spacing=30.0,
        ),
        Bolt(holds="base", size="M12", count=4, length=50.0, grip=25.0, spacing=150.0),
    ),
    guides=Guides(diameter=25.0, length=200.0, spacing=200.0, bush=40.0, clearance=0.1),
    coupling=Coupling(kind="floating", play=1.0, length=30.0, pin=25.0),
    rod=PistonRod(free_length=250.0),
    frame=Frame(rating=1e5),
    circuit=Circuit(
        hose=25.0, fitting=25.0, valve=25.0, cylinder=25.0, rod_side=25.0, gauge=25.0,
        holds_load=True,
    ),
)  # fmt: skip
PRESS = Press(bore=80.0, rod=40.0, relief=14.0)
NOSE = Nose(radius=12.5, reach=90.0)
TIED = DieBody(
    cheek=30.0, length=120.0, height=80.0, side_plate=16.0, between=140.0, tall=80.0
)  # fmt: skip
SIDE = Bolt(
    holds="side plates", size="M12", grade="8.8", count=2, length=35.0, grip=16.0, spacing=44.0,
    height=40.0,
)  # fmt: skip
# Every way of holding, with the welds and bolts that go with it.
BENCHES: Mapping[str, tuple[Members, Nose]] = {
    "usual": (STATED, NOSE),
    "contact": (
        evolve(
            STATED,
            shoulders=ShoulderMember(material="1045 ground shaft"),
            weld=(Weld(holds="carriers", size=6.0, length=120.0, thinner=20.0),),
            guides=None,
            coupling=Coupling(),
        ),
        NOSE,
    ),
    "seated": (
        evolve(STATED, shoulders=ShoulderMember(material="A36", kind="block")),
        NOSE,
    ),
    "block": (
        evolve(
            STATED,
            shoulders=ShoulderMember(material="A36", kind="block"),
            body=DieBody(material="A36", floor=30.0, length=60.0),
            weld=(
                Weld(holds="shoulders", size=8.0, length=120.0, thinner=30.0, spacing=35.0,
                     height=60.0),
            ),
        ),
        NOSE,
    ),
    "one end": (
        evolve(
            STATED,
            nose=NoseMember(material="4140", between=60.0),
            weld=(Weld(holds="carriers", size=8.0, length=120.0, thinner=20.0, spacing=20.0),),
            bolt=tuple(evolve(one, spacing=40.0) for one in STATED.bolt),
        ),
        evolve(NOSE, held="one end"),
    ),
    "web": (
        evolve(
            STATED,
            nose=NoseMember(material="4140", web_material="A36"),
            carriers=None,
            weld=(
                Weld(holds="web", size=6.0, length=90.0, thinner=12.0, spacing=15.0),
                Weld(holds="nose", size=6.0, length=90.0, thinner=12.0, spacing=12.0),
            ),
        ),
        evolve(NOSE, held="web", web_thickness=12.0, web_height=60.0),
    ),
    "tied": (
        evolve(
            STATED,
            body=TIED,
            weld=(),
            guides=None,
            coupling=Coupling(),
            bolt=(
                SIDE,
                Bolt(holds="push plate", size="M12", count=4, length=50.0, grip=25.0, circle=80.0),
                Bolt(holds="base", size="M10", count=4, length=50.0, grip=25.0, spacing=120.0),
                Bolt(
                    holds="cheeks", size="M12", grade="10.9", count=4, length=70.0, grip=30.0,
                    spacing=60.0, height=50.0,
                ),
            ),
        ),
        NOSE,
    ),
}  # fmt: skip


def die(members: Members, nose: Nose, *, peak: float = 30e3, outward: float = 12e3) -> Bench:
    """What is checked of a die: bars of 40 mm under a plan's push and at relief."""
    tooling = Tooling(
        nose=nose,
        shoulders=Shoulders(radius=10.0, opening=90.0, height=90.0, outer_edge=70.0),
        members=members,
    )
    return Bench(
        tooling=tooling, press=PRESS, thickness=6.0, width=40.0, widest=40.0,
        pushes=push_loads(
            peak=peak, outward=outward, steepest=0.9 if outward else 0.0, press=PRESS,
            friction=0.1, off_centre=members.off_centre,
        ),
        retract=retract_load(PRESS), steepness=radians(5.0),
    )  # fmt: skip


def _more() -> tuple[tuple[Members, Nose], ...]:
    """What no die above has: other joints, shapes and rods, each printing a line of its own."""
    usual, (out, alone), (web, thin) = STATED, BENCHES["one end"], BENCHES["web"]
    carrier, plate = usual.carriers, usual.push_plate
    assert carrier is not None
    assert plate is not None
    bolt = usual.bolt[0]
    return (
        (evolve(web, weld=web.weld[:1]), thin),  # a web whose edge alone carries the push
        (evolve(out, bolt=(evolve(bolt, holds="carriers", spacing=40.0),)), alone),
        # Lighter loads, whose life is proven.
        (evolve(usual, bends_a_year=1), NOSE),
        (evolve(out, bends_a_year=1), alone),
        (evolve(usual, guides=evolve(usual.guides, held="both ends")), NOSE),
        (evolve(usual, nose=evolve(usual.nose, sag=0.2)), NOSE),
        (evolve(usual, weld=(Weld(holds="base", size=6.0, length=200.0, thinner=20.0,
                                  spacing=90.0),)), NOSE),
        # Bolted cheeks, which lift off at their far end, and thin plates beside the pins.
        (
            evolve(
                usual, weld=(), carriers=evolve(carrier, cheek=5.0),
                bolt=(*usual.bolt, Bolt(holds="cheeks", size="M12", grade="8.8", count=4,
                                        length=70.0, grip=30.0, spacing=15.0, height=50.0)),
            ),
            NOSE,
        ),
        (evolve(usual, push_plate=evolve(plate, pad=100.0), rod=PistonRod(free_length=250.0,
                                                                         guided=True)), NOSE),
    )  # fmt: skip


# Member, check and formula of the demand.
Line = tuple[str, str, str]


def kind_of(member: str) -> str:
    """A member as its sums are alike: welds and bolts whatever they hold."""
    for kind in ("weld", "bolts"):
        if member.startswith(f"{kind} of"):
            return kind
    return member


def line_of(check: Check) -> Line:
    """The line that a check prints, without its figures."""
    return kind_of(check.member), check.what, check.formula


def every_check() -> tuple[Check, ...]:
    """One check for each line that any die prints, in the order of their names."""
    found: dict[Line, Check] = {}
    for members, nose in (*BENCHES.values(), *_more()):
        for peak, outward in ((30e3, 12e3), (500.0, 100.0), (500.0, 0.0)):
            for each in (members, evolve(members, off_centre=150.0)):
                one = die(each, nose, peak=peak, outward=outward)
                checks, _ = check_members(one)
                found |= {line_of(check): check for check in checks}
        # A nose off the middle is pushed across too.
        one = die(members, nose)
        leaning = tuple(evolve(load, across=0.2 * load.force) for load in one.pushes)
        checks, _ = check_members(evolve(one, pushes=leaning))
        found |= {line_of(check): check for check in checks}
    return tuple(found[line] for line in sorted(found))


def lines_run(folder: Path) -> tuple[tuple[Check, ...], dict[str, set[int]]]:
    """Every check, and which lines of the modules of a folder ran for them."""
    ran: dict[str, set[int]] = {}

    def step(frame: FrameType, event: str, _: Any) -> Any:
        name = frame.f_code.co_filename
        if not name.startswith(str(folder)):
            return None
        if event == "line":
            ran.setdefault(name, set()).add(frame.f_lineno)
        return step

    before = sys.gettrace()
    sys.settrace(step)
    try:
        return every_check(), ran
    finally:
        sys.settrace(before)
