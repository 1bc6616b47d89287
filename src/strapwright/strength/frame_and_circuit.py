"""Frame and circuit: stated ratings against relief, the blocked rod side, the gauge."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Literal

from strapwright.bending.hydraulics import annulus_area, piston_area
from strapwright.errors import key_of
from strapwright.findings import (
    Finding,
    KeyAt,
    Severity,
)
from strapwright.shop.member_names import MemberName
from strapwright.shop.members import Circuit, Members
from strapwright.shop.press import Press
from strapwright.strength.check_values import Bench, Check, Input, Result, Unchecked

GAUGE_SHARE = 0.75  # of its range, which a steady pressure should not pass; common practice
_KEY = "tooling.members.circuit"
_Key = Literal["hose", "fitting", "valve", "cylinder", "rod_side", "gauge", "holds_load"]
_MEMBERS: Mapping[_Key, MemberName] = MappingProxyType(
    {
        "hose": "hose",
        "fitting": "fitting",
        "valve": "valve",
        "cylinder": "cylinder",
        "rod_side": "rod side",
        "gauge": "gauge",
        "holds_load": "circuit",
    }
)
_RATED: tuple[_Key, ...] = ("hose", "fitting", "valve", "cylinder")


def blocked_pressure(relief: float, bore: float, rod: float) -> float:
    """Pressure on a rod side that cannot drain [MPa]: relief times the ratio of areas.

    Parameters
    ----------
    relief
        On the piston side [MPa].
    bore, rod
        [mm]
    """
    return relief * piston_area(bore) / annulus_area(bore, rod)


def frame_checks(bench: Bench) -> Iterator[Result]:
    """Hold the frame to its stated rating."""
    members = bench.tooling.members
    frame = None if members is None else members.frame
    if frame is None or frame.rating is None:
        yield Unchecked(
            member="frame",
            what="rating",
            state=f"enter {key_of('tooling.members.frame')} with the rating of the press frame",
            where="tooling.members.frame",
        )
        return
    for load in bench.centred:
        yield Check(
            member="frame",
            what="rating",
            case=load.case,
            off_centre=load.offset != 0.0,
            demand=load.force,
            capacity=frame.rating,
            unit="N",
            formula="F",
            allowed="rating",
            source="as entered",
            grade="data sheet",
            where="tooling.members.frame.rating",
        )


def circuit_checks(bench: Bench) -> Iterator[Result]:
    """Check each rated part against relief, the rod side blocked, and the gauge's range."""
    members, press = bench.tooling.members, bench.press
    circuit = Circuit() if members is None or members.circuit is None else members.circuit
    if press is None or press.relief is None:
        yield Unchecked(
            member="circuit",
            what="ratings against relief",
            state=f"enter {key_of('press.relief')}",
            where="press.relief",
        )
        return
    for name in _RATED:
        rating: float | None = getattr(circuit, name)
        if rating is None:
            yield _missing(name, "rating against relief", f"enter the rated pressure of the {name}")
        else:
            yield _rated(name, "rating", press.relief, rating, "p", "rating")
    yield from _rod_side(circuit, press, press.relief)
    if circuit.gauge is None:
        yield _missing("gauge", "range", "enter the range of the gauge")
    else:
        yield _rated(
            "gauge", "range", press.relief, GAUGE_SHARE * circuit.gauge, "p", "0.75 of its range"
        )
    if circuit.holds_load is None:
        yield _missing(
            "holds_load", "load held when the pump stops", "enter whether the circuit holds it"
        )


def _rod_side(circuit: Circuit, press: Press, relief: float) -> Iterator[Result]:
    if press.bore is None or press.rod is None:
        yield Unchecked(
            member="rod side",
            what="pressure when blocked",
            state=f"enter {key_of('press.bore')} and {key_of('press.rod')}",
            where="press.rod",
        )
    elif circuit.rod_side is None:
        yield _missing(
            "rod_side", "pressure when blocked", "enter the lowest rating on the rod side"
        )
    else:
        pressure = blocked_pressure(relief, press.bore, press.rod)
        yield _rated(
            "rod_side", "pressure when blocked", pressure, circuit.rod_side, "p A/(A - A_r)",
            "rating", ("p", relief, "MPa"), ("D", press.bore, "mm"), ("d", press.rod, "mm"),
        )  # fmt: skip


def circuit_findings(members: Members) -> list[Finding]:
    """What follows where the load is not held."""
    circuit = members.circuit
    if circuit is None or circuit.holds_load is not False:
        return []
    return [
        Finding(
            code="load-not-held",
            severity=Severity.WARNING,
            about=(KeyAt(f"{_KEY}.holds_load"),),
        )
    ]


def _rated(
    key: _Key,
    what: str,
    demand: float,
    capacity: float,
    formula: str,
    allowed: str,
    *inputs: Input,
) -> Check:
    return Check(
        member=_MEMBERS[key],
        what=what,
        case="relief",
        demand=demand,
        capacity=capacity,
        unit="MPa",
        oil=True,
        formula=formula,
        allowed=allowed,
        source="as entered",
        grade="data sheet",
        inputs=inputs,
        where=f"{_KEY}.{key}",
    )


def _missing(key: _Key, what: str, state: str) -> Unchecked:
    return Unchecked(member=_MEMBERS[key], what=what, state=state, where=f"{_KEY}.{key}")
