"""The coupling of ram and push plate: how far it tilts, and what pulls back."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.errors import key_of
from strapwright.shop.members import UNKNOWN_STEEL, Coupling, Guides
from strapwright.strength.carriers import pin_checks
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked

_KEY = "tooling.members.coupling"


def tilt(play: float, length: float) -> float:
    """Angle [rad] that a play across a length takes up [mm, mm]."""
    return math.atan(play / length)


def coupling_checks(bench: Bench) -> Iterator[Result]:
    """Check the coupling; a rigid one bends the piston rod, which is checked there."""
    members = bench.tooling.members
    stated = None if members is None else members.coupling
    if members is None or stated is None:
        yield _missing("tilt and pulling back", f"enter {key_of('tooling.members.coupling')}", "")
        return
    if stated.kind == "rigid":
        if "push plate" not in members.held:
            yield _missing(
                "pulling back", "enter the bolt or weld that holds the push plate to the ram", ""
            )
        return
    if stated.pin is None:
        yield _missing("pulling back", "enter pin, the diameter of what pulls back", ".pin")
    elif bench.retract is not None:
        # With nothing said of lugs they are as thick as half the pin, which leaves the shear.
        load = bench.retract
        half = stated.pin / 2
        yield from pin_checks(
            "coupling pin",
            "coupling",
            stated.pin_material,
            UNKNOWN_STEEL,
            load=load,
            share=load.force,
            diameter=stated.pin,
            cheek=half,
            centre=stated.pin,
        )
    if stated.kind == "floating":
        yield from _tilts(bench, stated, members.guides)


def _tilts(bench: Bench, stated: Coupling, guides: Guides | None) -> Iterator[Result]:
    if stated.play is None or stated.length is None:
        yield _missing("tilt", "enter its play and the length it is across", ".play")
    elif guides is None or guides.clearance is None or guides.bush is None:
        yield _missing(
            "tilt", "enter clearance and bush of the guides, which let the plate tilt", ""
        )
    else:
        for load in bench.pushes:
            if load.offset > 0.0:
                yield _tilted(
                    load,
                    tilt(guides.clearance, guides.bush),
                    tilt(stated.play, stated.length),
                    (("c", guides.clearance, "mm"), ("L", guides.bush, "mm")),
                )


def _tilted(load: Load, demand: float, capacity: float, inputs: tuple[Input, ...]) -> Check:
    return Check(
        member="coupling",
        what="tilt before it binds",
        case=load.case,
        off_centre=load.offset != 0.0,
        demand=demand,
        capacity=capacity,
        unit="rad",
        formula="atan(c/L)",
        allowed="atan(play/length)",
        source="geometry of play",
        grade="common practice",
        inputs=inputs,
        where=_KEY,
        grows=0.0,
    )


def _missing(what: str, state: str, key: str) -> Unchecked:
    return Unchecked(member="coupling", what=what, state=state, where=f"{_KEY}{key}")
