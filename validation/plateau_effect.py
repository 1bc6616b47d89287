"""What the yield plateau of each hot-rolled steel of the catalog does to the demonstration's bends.

``validation/plateau_effect.py [--json FILE]``, or ``python3 start.py validate --table plateau``.
Each bend of the demonstration is made of each steel that has a plateau, with it and without, at the
same yield and tensile strength: gauge and travel at the angle wanted, and the angle that the travel
for a bar without a plateau would leave.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Sequence
from pathlib import Path

from attrs import asdict, evolve, frozen

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh
from strapwright.bending import BendSetup, state_at_travel, state_for_free_angle
from strapwright.bending.hydraulics import pressure_for
from strapwright.catalog.metal_table import materials
from strapwright.errors import InputError
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.quantities.inside_units import INCH_MM
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.load_job import load_job
from strapwright.shop.job import Job

PSI = 6.894757e-3  # MPa, exact to the digits shown


@frozen(kw_only=True)
class Effect:
    """One bend of one steel; gauge [MPa], travel [mm], angle [deg]."""

    job: str
    steel: str
    bend: float
    gauge_before: float
    gauge_after: float
    travel_before: float
    travel_after: float
    angle_after: float


def _setup(job: Job, steel: str, plateau: float | None) -> BendSetup:
    part = job.part
    lot = evolve(part.lot, plateau=plateau)
    made = evolve(job, part=evolve(part, material=steel, lot=lot))
    if made.tooling is None:
        raise InputError("tooling", "the demonstration states none", "state one in its job files")
    return bend_setup(made, known_bar(made), made.tooling)


def effects() -> list[Effect]:
    """Every bend of the demonstration of every steel with a plateau."""
    found = []
    steels = [one.name for one in materials() if one.plateau > 0.0 and not one.unknown]
    for name in NAMES:
        job = load_job(JOBS / f"{name}.toml")
        press = job.press
        if press is None or press.bore is None:
            continue
        for steel in steels:
            without, own = _setup(job, steel, 0.0), _setup(job, steel, None)
            for angle in sorted({bend.angle for bend in job.part.bends}):
                before = state_for_free_angle(without, angle)
                after = state_for_free_angle(own, angle)
                kept = state_at_travel(own, before.travel)
                found.append(
                    Effect(
                        job=name,
                        steel=steel,
                        bend=math.degrees(angle),
                        gauge_before=pressure_for(before.force, press.bore, press.efficiency),
                        gauge_after=pressure_for(after.force, press.bore, press.efficiency),
                        travel_before=before.travel,
                        travel_after=after.travel,
                        angle_after=math.degrees(kept.free_angle),
                    )
                )
    return found


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the table there too")
    options = parser.parse_args(arguments)
    rows = effects()
    print(f"{'job':<20} {'steel':<19} bend   {'gauge, psi':<18}   {'travel, in':<11}   leaves, deg")
    for row in rows:
        print(
            f"{row.job:<20} {row.steel:<19} {row.bend:4.0f}"
            f"   {row.gauge_before / PSI:5.0f} {row.gauge_after / PSI:5.0f}"
            f" ({row.gauge_after / row.gauge_before - 1.0:+.1%})"
            f"   {row.travel_before / INCH_MM:.3f} {row.travel_after / INCH_MM:.3f}"
            f"   {row.angle_after:.2f}"
        )
    if options.json is not None:
        text = json.dumps([asdict(row) for row in rows], indent=1)
        options.json.write_text(text + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
