"""An unknown bar: which grades explain its trial bends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from attrs import evolve, frozen

from strapwright.bending.shop_spreads import USUAL_SPREADS
from strapwright.catalog import find_material, materials, smallest_radius
from strapwright.catalog.bench_tests import bench_tests
from strapwright.errors import InputError
from strapwright.learning.grade_odds import Odds, must_not_weld, odds_of
from strapwright.learning.learn import learn
from strapwright.planning.from_the_log.learned_job import LogLine, readings_of
from strapwright.shop.bar import Lot


@frozen(kw_only=True)
class Unknown:
    """What an unknown bar may be, and what must not be done with it until that is known.

    Attributes
    ----------
    odds
        By trial bends and tests of the bench.
    bends
        How many logged pushes it rests on.
    no_weld
        Grades among the stated that take no arc like mild steel.
    sharpest
        Largest of their smallest inside radii, over the thickness [-].
    brittle
        Grades among the stated that can snap.
    """

    odds: Odds
    bends: int
    no_weld: tuple[str, ...]
    sharpest: float
    brittle: tuple[str, ...]


def grades_that_fit(lines: Sequence[LogLine], seen: Mapping[str, str], thickness: float) -> Unknown:
    """Say which grades of the catalog fit the pushes of one bar and the tests of the bench.

    Parameters
    ----------
    lines
        Pushes of that bar alone.
    seen
        Name of a test -> what it showed.
    thickness
        Of the bar [mm].

    Raises
    ------
    InputError
        If no grade explains the pushes at all: the tooling would have jammed for each.
    """
    evidence = {}
    lines = [line for line in lines if line.compared]
    for material in materials():
        if material.name not in bench_tests():
            continue  # a row for metal that nobody knows
        # What the job says of the strength is a guess about another grade.
        as_if = [_as_if(line, material.name) for line in lines]
        found = learn(readings_of(as_if, USUAL_SPREADS))
        if not found.not_reached:
            evidence[material.name] = found.evidence
    if not evidence:
        raise InputError(
            "log",
            "no grade of the catalog bends as far as the log says on this tooling",
            "check travel, bar and tooling in the job",
        )
    odds = odds_of(evidence, seen, bent=bool(lines))
    stated = [find_material(name, "material") for name in odds.stated]
    radii = [smallest_radius(one, thickness, along_grain=False)[0] for one in stated]
    return Unknown(
        odds=odds,
        bends=len(lines),
        no_weld=must_not_weld(odds.stated),
        sharpest=max(radii) / thickness,
        brittle=tuple(one.name for one in stated if one.brittle),
    )


def _as_if(line: LogLine, material: str) -> LogLine:
    part = line.job.part
    lot = Lot(thickness=part.lot.thickness)
    return evolve(line, job=evolve(line.job, part=evolve(part, material=material, lot=lot)))
