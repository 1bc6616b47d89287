"""What the members that a job states let its tooling be loaded to, held against plan and relief."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import evolve

from strapwright.bending.bend_band import band_of
from strapwright.findings import Finding, Severity, spoken
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.member_loads import Pushed, bench_under
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Bench, Check
from strapwright.strength.hand_figures import shown
from strapwright.strength.member_checks import check_members
from strapwright.strength.rating import uncarried, weakest_of


def rated(job: Job, tooling: Tooling, made: Sequence[MadeBend]) -> tuple[Tooling, list[Finding]]:
    """Take the rating of a tooling from its members.

    Parameters
    ----------
    job
        With its press.
    tooling
        Where it states no members it is returned as it is.
    made
        Every bend solved.

    Returns
    -------
    Tooling, list of Finding
        With the lower of the rating stated and what the weakest member checked stands;
        ``die-rating`` says which it is, ``die-below-plan`` and ``die-below-relief`` where the
        plan's peak or the force at relief is above it.
    """
    if tooling.members is None:
        return tooling, []
    bench = bench_under([_pushed(one) for one in made], [job.part], tooling, job.press)
    checks, unchecked = check_members(bench)
    weakest = weakest_of(bench, checks)
    blind = uncarried(unchecked)
    if weakest is None:
        return tooling, [_nothing_checked(blind)]
    check, force = weakest
    name = f"{check.member} ({check.what}, {check.load_case})"
    good_to = shown(force, "N", job.units)
    findings = [_rating(bench, name, good_to, blind, job)]
    for load in bench.pushes:
        fails = any(
            not one.holds and one.load_case.startswith(load.name) and one.grows > 0.0
            for one in checks
        )
        if load.offset or not (fails or load.force > force):
            continue
        words = f"This die is good to {good_to} at its {name}, and"
        pushed = shown(load.force, "N", job.units)
        if load.name == "relief":
            findings.append(_below_relief(f"{words} at relief the ram gives {pushed}.", check))
        else:
            findings.append(
                _below_plan(f"{words} this part asks for up to {pushed}.", check, fails=fails)
            )
    limit = force if tooling.rating is None else min(force, tooling.rating)
    return evolve(tooling, rating=limit), findings


def _pushed(made: MadeBend) -> Pushed:
    return Pushed(
        high=made.force_high,
        angle=made.curve.loaded_angle,
        peak=made.peak,
        loaded=made.state.loaded_angle,
        steepest=float(np.radians(band_of(np.degrees(made.sample.loaded)).high)),
    )


def _below_plan(text: str, check: Check, *, fails: bool) -> Finding:
    return spoken(
        code="die-below-plan",
        severity=Severity.REFUSAL if fails else Severity.WARNING,
        where=check.where,
        text=text,
        remedy="Mend its weakest member as strapwright tooling check says, or use a wider opening.",
    )


def _below_relief(text: str, check: Check) -> Finding:
    return spoken(
        code="die-below-relief",
        severity=Severity.WARNING,
        where=check.where,
        text=text,
        remedy="Mend it, or set the relief valve as low as strapwright tooling check says.",
    )


def _rating(bench: Bench, name: str, good_to: str, blind: Sequence[str], job: Job) -> Finding:
    stated = bench.tooling.rating
    beside = "" if stated is None else f" beside the {shown(stated, 'N', job.units)} stated"
    gaps = f" Not checked and not proven: {', '.join(blind)}." if blind else ""
    return spoken(
        code="die-rating",
        severity=Severity.WARNING if blind else Severity.NOTE,
        where="tooling.members",
        text=f"By the members stated this die is good to {good_to} at its {name}{beside}; gauge "
        f"and relief are held below it.{gaps}",
        remedy="State what strapwright tooling check lists as missing." if blind else "",
    )


def _nothing_checked(blind: Sequence[str]) -> Finding:
    return spoken(
        code="die-rating",
        severity=Severity.WARNING,
        where="tooling.members",
        text="Members are stated but none could be checked under a push, so they limit nothing: "
        f"{', '.join(blind)}.",
        remedy="State what strapwright tooling check lists as missing.",
    )
