"""What the members that a job states let its tooling be loaded to, held against plan and relief."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import evolve

from strapwright.bending.bend_band import band_of
from strapwright.findings import (
    Fact,
    Finding,
    Force,
    KeyAt,
    Name,
    Severity,
)
from strapwright.planning.jammed_bends import Jams
from strapwright.planning.made_bend import MadeBend
from strapwright.planning.member_loads import Pushed, bench_under, rate_of, uneven_share
from strapwright.shop.job import Job
from strapwright.shop.member_names import Member, MemberName
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Bench, Check
from strapwright.strength.member_checks import check_members
from strapwright.strength.rating import force_carried, uncarried, weakest_of


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
    findings = [_rating(bench, check, force, blind)]
    expected = max(one.peak_to_carry for one in made)
    for load in bench.pushes:
        fails = any(not one.holds and one.case == load.case and one.grows > 0.0 for one in checks)
        if load.offset or not (fails or load.force > force):
            continue
        relief = load.case == "relief"
        # The plan's load is the upper end of the band: only what fails at the load expected is
        # certain to be overloaded.
        surely = not relief and any(
            force_carried(bench, one) < expected for one in checks if one.case == "plan"
        )
        findings.append(
            Finding(
                code="die-below-relief" if relief else "die-below-plan",
                severity=Severity.REFUSAL if surely else Severity.WARNING,
                about=(KeyAt(check.where),),
                facts={**_weakest(check, force), "pushed": Force(load.force)},
            )
        )
    limit = force if tooling.rating is None else min(force, tooling.rating)
    return evolve(tooling, rating=limit), findings


def rated_each(
    job: Job, tooling: Tooling, made: Sequence[MadeBend], jams: Jams, *, rate: bool
) -> tuple[list[Tooling], list[Finding]]:
    """Tooling of each bend, with what its members let it be loaded to.

    Of other tooling those that are the job's own as well, under the bends made on it.

    Parameters
    ----------
    job, tooling, made
        As for :func:`rated`.
    jams
        Bends that jam, by 0-based number: nothing is known of their load.
    rate
        Whether members limit anything at all.
    """
    tools = [job.part.tool_of(bend) for bend in range(1, len(made) + 1)]
    each, findings = list(job.toolings()), []
    for tool, one in enumerate((tooling, *(one.sharing(tooling) for one in job.part.others))):
        on_it = [made[bend] for bend, its in enumerate(tools) if its == tool and bend not in jams]
        if not rate or not on_it:
            continue
        limited, said = rated(job, one, on_it)
        each[tool] = evolve(each[tool], rating=limited.rating)
        # What of other tooling is not checked, is said where it is named.
        findings += [one for one in said if tool == 0 or one.code != "die-rating"]
    return [each[tool] for tool in tools], findings


def _pushed(made: MadeBend) -> Pushed:
    return Pushed(
        high=made.force_high,
        angle=made.curve.loaded_angle,
        peak=made.peak,
        loaded=made.state.loaded_angle,
        steepest=float(np.radians(band_of(np.degrees(made.sample.loaded)).high)),
        rate=rate_of(made.curve.travel, made.curve.loaded_angle, made.state.loaded_angle),
        uneven=uneven_share(made.uneven, made.offset, made.setup, made.state.loaded_angle),
    )


Facts = dict[str, Fact | tuple[Fact, ...]]


def _weakest(check: Check, force: float) -> Facts:
    return {
        "member": Member(check.member),
        "what": Name(check.what),
        "load_case": Name(check.load_case),
        "good_to": Force(force),
    }


def _rating(bench: Bench, check: Check, force: float, blind: Sequence[MemberName]) -> Finding:
    facts = {**_weakest(check, force), "not_checked": tuple(Member(one) for one in blind)}
    stated = bench.tooling.rating
    if stated is not None:
        facts["stated"] = Force(stated)
    return Finding(
        code="die-rating",
        severity=Severity.WARNING if blind else Severity.NOTE,
        about=(KeyAt("tooling.members"),),
        facts=facts,
    )


def _nothing_checked(blind: Sequence[MemberName]) -> Finding:
    return Finding(
        code="die-rating",
        severity=Severity.WARNING,
        about=(KeyAt("tooling.members"),),
        facts={"not_checked": tuple(Member(one) for one in blind)},
    )
