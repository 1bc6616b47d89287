"""The stroke solver as a thin bar against the chain of rigid links, which shares nothing with it.

``validation/referee.py [--json FILE]``, or ``python3 start.py validate --table referee``.  For
every bend the largest difference along the stroke, with links of a 12th, a 25th and a 50th of the
thickness: what falls as they are halved is theirs.  Then what the solver leaves out: the way out,
with friction turned round, and a bar that was let go at 85 % and pushed on.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from attrs import asdict, frozen

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "reference"))

import chain_cases as cases  # no part of the package
from chain_stroke import back_off, push

from strapwright.bending import BendSetup, state_at_travel
from strapwright.bending.solver_model import THIN

LET_OFF = 0.85  # of the travel, as on the step card
LEFT = 0.02  # share of the force at which the way out ends


@frozen(kw_only=True)
class Halved:
    """One bend at one size of links; force [-], angles [deg], ours less the referee's."""

    name: str
    links: int
    force: float
    loaded: float
    free: float
    springback: float


@frozen(kw_only=True)
class WayOut:
    """One bend let go by the ram and pushed on.

    Attributes
    ----------
    turned
        Share of the force that is gone once friction has turned round [-].
    bent_on
        By how much the way out changes the free angle [deg].
    half
        Our free angle at the let-off less what the referee's bar reads after the way out [deg].
    force, loaded, free
        At the full travel, ours less the referee's bar that was let go between; [-], [deg].
    """

    name: str
    turned: float
    bent_on: float
    half: float
    force: float
    loaded: float
    free: float


def halved(name: str, setup: BendSetup, last: float) -> list[Halved]:
    """Compare along the stroke with three sizes of links."""
    rows = cases.meshes(setup, last)
    return [
        Halved(name=name, links=count, **asdict(row))
        for (count, _), row in zip(cases.MESHES, rows, strict=True)
    ]


def way_out(name: str, setup: BendSetup, last: float) -> WayOut:
    """Push, let go, push on."""
    bar = cases.referee(setup, last)
    first = push(bar, np.array([LET_OFF * last]), last / cases.STEPS)[0]
    back = back_off(bar, LEFT)
    on = push(bar, np.array([LET_OFF * last, last]), last / 300.0)[-1]
    half, end = (state_at_travel(setup, h, effects=THIN) for h in (LET_OFF * last, last))
    turned = next((r for r in back if r.friction < -0.999), back[0])
    return WayOut(
        name=name,
        turned=1.0 - turned.force / first.force,
        bent_on=math.degrees(back[-1].free - first.free),
        half=math.degrees(half.free_angle - back[-1].free),
        force=end.force / on.force - 1.0,
        loaded=math.degrees(end.loaded_angle - on.loaded),
        free=math.degrees(end.free_angle - on.free),
    )


def describe(name: str, setup: BendSetup, last: float) -> str:
    """Say what bend it is in one line."""
    t, flow = setup.thickness, setup.flow
    end = state_at_travel(setup, last, effects=THIN)
    return (
        f"{name:<29} {setup.opening / t:5.1f} {setup.nose_radius / t:5.2f} {setup.friction:5.2f}"
        f" {setup.width_state:4.1f} {flow.modulus / 1e3:5.0f} {flow.yield_stress:6.0f}"
        f" {flow.exponent:5.2f} {math.degrees(end.loaded_angle):6.0f}"
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the tables there too")
    options = parser.parse_args(arguments)
    print(f"{'bend':<29}   W/t   r/t    mu    w E, GPa  yield     n  to deg")
    for name, (setup, last) in cases.CASES.items():
        print(describe(name, setup, last))
    print("\nLargest difference along the stroke, ours less the referee's")
    print(f"{'bend':<29} links    force  loaded    free  springback")
    mesh = [row for name, case in cases.CASES.items() for row in halved(name, *case)]
    for row in mesh:
        print(
            f"{row.name:<29} {row.links:5d} {row.force:+8.3%} {row.loaded:+7.3f} {row.free:+7.3f}"
            f" {row.springback:+11.4f}"
        )
    print("\nLet go at 85 % of the travel, with the ram, and pushed on")
    print(f"{'bend':<29} turned  bent on  let off    force  loaded    free")
    out = [way_out(name, *case) for name, case in cases.CASES.items()]
    for way in out:
        print(
            f"{way.name:<29} {way.turned:6.1%} {way.bent_on:+8.3f} {way.half:+8.3f}"
            f" {way.force:+8.3%} {way.loaded:+7.3f} {way.free:+7.3f}"
        )
    if options.json is not None:
        table = {"halved": [asdict(r) for r in mesh], "way_out": [asdict(r) for r in out]}
        options.json.write_text(json.dumps(table, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
