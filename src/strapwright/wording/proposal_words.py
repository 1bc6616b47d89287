"""A search for tooling in words: what is proposed, and why other candidates were ruled out."""

from __future__ import annotations

from collections.abc import Mapping
from functools import singledispatch
from typing import assert_never

from strapwright.findings import Finding
from strapwright.making.shop_lengths import size
from strapwright.proposing.found_values import LowerRelief, Proposals
from strapwright.proposing.miss_values import (
    BendJams,
    CheckRefuses,
    Lack,
    MemberTooWeak,
    MemberUnchecked,
    NoOpening,
    NoPlate,
    NoseOffRadius,
    NoseTooSharp,
    NotDrawn,
    NotPlanned,
    PlanForbids,
    PressTooWeak,
    TooFewPieces,
    WeldsToKept,
)
from strapwright.proposing.proposal_values import BoltsReady, Choice, GivenUp, NotInCrib, Shoulder
from strapwright.quantities import Units, show_pressure
from strapwright.shop.member_names import BOLTS, WELDS, Member, MemberName
from strapwright.shop.rack import Stock
from strapwright.strength.hand_figures import shown
from strapwright.wording.member_words import member_name
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell

_REASONS: Mapping[type[Lack], str] = {
    NoseTooSharp: "the nose is below the smallest radius for the bar",
    NoseOffRadius: "the nose does not give the inside radius wanted",
    NoOpening: "no opening fits nose and legs",
    BendJams: "a bend jams or the nose does not pass",
    PressTooWeak: "the press is too weak",
    NoPlate: "the stock is too small",
    TooFewPieces: "the stock is too small",
    MemberUnchecked: "a member cannot be checked",
    NotPlanned: "a part cannot be planned",
    WeldsToKept: "the nose would be welded to the push plate that stays on the press",
}


def reason_clause(lack: Lack) -> str:
    """Say in one clause why candidates were ruled out.

    Parameters
    ----------
    lack
        Of one of them.
    """
    match lack:
        case MemberTooWeak(check=check):
            return f"{member_name(check.member)}, {check.what}, is too weak"
        case NotDrawn(finding=finding):
            member = member_name(finding.one(Member, "member").name)
            return f"{member}: no drawing can be made"
        case CheckRefuses(finding=finding):
            return f"the check finds {finding.code}"
        case PlanForbids(finding=finding):
            return f"the plan of a part says: {finding.code.replace('-', ' ')}"
    return _REASONS[type(lack)]


@singledispatch
def lack_clause(lack: Lack, units: Units) -> str:
    """Say what one candidate lacks, with its figures.

    Parameters
    ----------
    lack
        Of the candidate.
    units
        Unit system to print in.
    """
    raise TypeError(f"no words for {lack!r} in {units}")


@lack_clause.register
def _(lack: NoseTooSharp, units: Units) -> str:
    return (
        f"{lack.nose}: radius {size(lack.radius, units)}, but {lack.part} needs "
        f"{size(lack.least, units)} at least ({lack.source})"
    )


@lack_clause.register
def _(lack: NoseOffRadius, units: Units) -> str:
    return (
        f"{lack.nose}: gives {size(lack.radius, units)} inside, but {lack.part} needs "
        f"{size(lack.wanted, units)}"
    )


@lack_clause.register
def _(lack: NoOpening, units: Units) -> str:
    least, most = (shown(each, "mm", units) for each in (lack.least, lack.most))
    return (
        f"{lack.nose} on {_bent_over(lack.shoulders, units)}: to pass without a jam the opening "
        f"must be {least} or more, and the shortest leg allows {most}"
    )


@lack_clause.register
def _(lack: BendJams, units: Units) -> str:
    return f"{lack.nose} on {_bent_over(lack.shoulders, units)}, {lack.part}: {lack.error.problem}"


@lack_clause.register
def _(lack: PressTooWeak, units: Units) -> str:
    force, most = (shown(each, "N", units) for each in (lack.force, lack.most))
    return (
        f"{lack.nose} on {_bent_over(lack.shoulders, units)}, opening "
        f"{shown(lack.opening, 'mm', units)}: needs {force}, but the press gives {most} at relief"
    )


@lack_clause.register
def _(lack: NoPlate, units: Units) -> str:
    return f"{choice_name(lack.choice, units)}: no plate is large enough for a member"


@lack_clause.register
def _(lack: TooFewPieces, _: Units) -> str:
    choice = lack.choice
    blocks = (choice.shoulders,) if choice.edge else ()
    pieces = (choice.nose, *blocks, choice.carriers, choice.push_plate, choice.body)
    return ", ".join(dict.fromkeys(piece.name for piece in pieces))


@lack_clause.register
def _(lack: MemberUnchecked, _: Units) -> str:
    return lack.unchecked.sentence


@lack_clause.register
def _(lack: MemberTooWeak, units: Units) -> str:
    check = lack.check
    return (
        f"{choice_name(lack.choice, units)}: {member_name(check.member)}"
        f"{_cut_from(check.member, lack.choice, units)}, {check.what}, {check.load_case} at "
        f"{100 * check.ratio:.0f} % of the limit"
    )


@lack_clause.register
def _(lack: CheckRefuses, units: Units) -> str:
    return f"{choice_name(lack.choice, units)}: {_told(lack.finding, units)}"


@lack_clause.register
def _(lack: NotDrawn, units: Units) -> str:
    return f"{choice_name(lack.choice, units)}: {_told(lack.finding, units)}"


@lack_clause.register
def _(lack: WeldsToKept, units: Units) -> str:
    plate = lack.choice.push_plate.name
    return f"{choice_name(lack.choice, units)}: only two bolted carriers go on {plate}"


@lack_clause.register
def _(lack: NotPlanned, units: Units) -> str:
    return f"{choice_name(lack.choice, units)}, {lack.part}: {lack.error.problem}"


@lack_clause.register
def _(lack: PlanForbids, units: Units) -> str:
    return f"{choice_name(lack.choice, units)}, {lack.part}: {_told(lack.finding, units)}"


def _bent_over(shoulders: Shoulder, units: Units) -> str:
    """Name shoulders: a shaft, or blocks of whatever bar by their edge."""
    if shoulders.name:
        return shoulders.name
    return f"blocks with an edge of radius {size(shoulders.radius, units)}"


def _cut_from(member: MemberName, choice: Choice, units: Units) -> str:
    """Say what a member is cut from and how thick that is; nothing of the press's own."""
    stock: dict[MemberName, Stock] = {
        "nose": choice.nose,
        "carriers": choice.carriers,
        "push plate": choice.push_plate,
        "shoulders": choice.shoulders,
        "die body": choice.body,
    }
    joined: dict[MemberName, Stock] = {
        **dict.fromkeys((WELDS["carriers"], WELDS["web"], WELDS["nose"]), choice.carriers),
        **dict.fromkeys((WELDS["cheeks"], BOLTS["side plates"]), choice.body),
        WELDS["shoulders"]: choice.shoulders,
    }
    for word, among in (("from", stock), ("on", joined)):
        if member in among:
            return f" {word} {among[member].name} ({size(among[member].thickness, units)})"
    return ""


def lower_relief_words(one: LowerRelief, units: Units) -> str:
    """Say at which lower relief something on the rack does, and what it is.

    Parameters
    ----------
    one
        From a search that found nothing at the relief that is set.
    units
        Unit system to print in.
    """
    choice = one.proposed.choice
    across = size(choice.nose.thickness, units)
    nose = f"a smaller nose, {across} across," if one.smaller else f"a nose {across} across"
    return (
        f"Relief at {show_pressure(one.relief, units)} and {nose} would do: "
        f"{choice_name(choice, units)}. Relief is {show_pressure(one.was, units)} now: enter the "
        "lower one and search again."
    )


def _told(finding: Finding, units: Units) -> str:
    return tell(finding, in_units(units)).text


def choice_name(choice: Choice, units: Units) -> str:
    """Name a choice by what bends and how it is held.

    Parameters
    ----------
    choice
        Of a candidate.
    units
        Unit system to print in.
    """
    ways = {"both ends": "", "one end": " supported at one end", "web": " on its web"}
    tied = ", side plates" if choice.tied else ""
    return (
        f"nose {choice.nose.name}{ways[choice.held]}, shoulders {shoulder_name(choice, units)}, "
        f"opening {size(choice.opening, units)}{tied}"
    )


def shoulder_name(choice: Choice, units: Units) -> str:
    """Name what the shoulders are: a shaft, or blocks with the radius of their edge.

    Parameters
    ----------
    choice
        Of a candidate.
    units
        Unit system to print in.
    """
    if not choice.edge:
        return choice.shoulders.name
    return f"{choice.shoulders.name} as blocks, edge radius {size(choice.edge, units)}"


def held_words(choice: Choice, units: Units) -> str:
    """Say how a choice holds its nose and its shoulders.

    Parameters
    ----------
    choice
        Of a proposal.
    units
        Unit system to print in.
    """
    nose = {
        "both ends": "nose in two carriers",
        "one end": "nose out of one carrier",
        "web": "nose on the edge of a web",
    }[choice.held]
    if choice.kept:
        nose = f"nose in two carriers bolted to {choice.push_plate.name}"
    body = "cheeks tied by two bolted side plates" if choice.tied else "cheeks welded to a floor"
    if choice.edge:
        body = (
            "two blocks, their inner top edges rounded to a radius of "
            f"{size(choice.edge, units)}, welded to a base"
        )
    return f"{nose}, {body}"


def ran_out(found: Proposals, units: Units) -> str:
    """Say what the time did not reach, and by how much the cheapest found can be beaten.

    Parameters
    ----------
    found
        By a search; empty where it decided everything.
    units
        Unit system to print in.
    """
    left = found.untried
    if left is None:
        if found.stopped is None:
            return ""
        at = show_pressure(found.stopped, units)
        return (
            "Nothing does at the relief that is set, nor at any lower setting that was tried. The "
            f"time ran out at {at}: from there down nothing is known. Below is what came nearest."
        )
    said = "The time ran out before every candidate was tried"
    if left.least is None:
        return f"{said}; a cheaper one may be among them."
    if not found.best:
        return f"{said}: {left.count} are left, and none of them costs less than {left.least:.2f}."
    gap = max(found.best[0].cost - left.least, 0.0)
    return (
        f"{said}: {left.count} are left. The cheapest found costs at most {gap:.2f} more than the "
        "cheapest of these."
    )


def given_up(one: GivenUp, units: Units) -> str:
    """Say in one clause what a proposal gives up against the others.

    Parameters
    ----------
    one
        Of a proposal.
    units
        Unit system to print in.
    """
    match one.measure:
        case "new material":
            return f"costs {one.here:.0f} in new material; another needs {one.best:.0f}"
        case "hours":
            return f"{one.here:.1f} h of shop time; another needs {one.best:.1f} h"
        case "weakest member":
            return (
                f"its weakest member is at {100 * one.here:.0f} % of the limit; another's at "
                f"{100 * one.best:.0f} %"
            )
        case "most force":
            here, best = (shown(each, "N", units) for each in (one.here, one.best))
            return f"pushes with up to {here}; another needs {best}"
        case "opening":
            here, best = (shown(each, "mm", units) for each in (one.here, one.best))
            return f"needs an opening of {here} and so longer legs; another needs {best}"
        case "inside radius":
            here, best = (shown(each, "mm", units) for each in (one.here, one.best))
            return f"inside radius {here}; another gives {best}"
    assert_never(one.measure)


def bolts_ready(bolts: BoltsReady) -> str:
    """Name the bolts of the side plates.

    Parameters
    ----------
    bolts
        To have ready.
    """
    return f"{bolts.count} bolts {bolts.size}, grade {bolts.grade}, for the side plates"


def not_in_crib(one: NotInCrib, units: Units) -> str:
    """Say what the crib has no cutter for, with the workaround.

    Parameters
    ----------
    one
        Of a proposal.
    units
        Unit system to print in.
    """
    what = {
        "nose": "hole of the nose",
        "guide rod": "hole of a guide rod",
        "shoulder seats": "seats of the shoulders",
        "clearance": f"hole for {one.size}",
        "thread": f"thread {one.size}",
    }[one.use]
    sized = "" if one.diameter is None else f" of {size(one.diameter, units)}"
    return f"{what}{sized}: {one.way.text}"
