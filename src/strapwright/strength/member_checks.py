"""Hold every member of a tooling to every load: the weakest first, what could not be checked."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import chain

from attrs import evolve

from strapwright.catalog.steels import find_steel
from strapwright.errors import key_of
from strapwright.findings import (
    Angle,
    Finding,
    KeyAt,
    Name,
    Severity,
    Share,
)
from strapwright.shop.member_names import Member, MemberName
from strapwright.strength.bolt_checks import bolt_checks
from strapwright.strength.carriers import carrier_checks
from strapwright.strength.check_values import Bench, Check, Result, Unchecked, case_name
from strapwright.strength.coupling import coupling_checks
from strapwright.strength.die_body import body_checks
from strapwright.strength.frame_and_circuit import circuit_checks, circuit_findings, frame_checks
from strapwright.strength.guide_rods import guide_checks
from strapwright.strength.lasting.life import life_checks
from strapwright.strength.nose import nose_checks
from strapwright.strength.piston_rod import rod_checks
from strapwright.strength.push_plate import LENGTH, push_plate_checks
from strapwright.strength.shoulders import shoulder_checks
from strapwright.strength.weldability import weld_findings
from strapwright.strength.welds import weld_checks

_PARTS: tuple[Callable[[Bench], Iterator[Result]], ...] = (
    nose_checks,
    carrier_checks,
    push_plate_checks,
    shoulder_checks,
    body_checks,
    weld_checks,
    bolt_checks,
    guide_checks,
    coupling_checks,
    rod_checks,
    frame_checks,
    circuit_checks,
)


# What other tooling with a nose or shoulders of its own puts in place of the job's own.
_OF_NOSE: frozenset[MemberName] = frozenset({"nose", "carriers", "carrier pins"})
_OF_SHOULDERS: frozenset[MemberName] = frozenset({"shoulders", "die body", "bolts of the base"})

# What keeps the shoulders where they are.
_BODY = (shoulder_checks, body_checks, weld_checks, bolt_checks)


def check_members(
    bench: Bench, *, body: bool = False
) -> tuple[tuple[Check, ...], tuple[Unchecked, ...]]:
    """Check every member.

    Parameters
    ----------
    bench
        Tooling and loads.
    body
        Only shoulders, die body, welds and bolts, for a search that asks about them alone.

    Returns
    -------
    checks, unchecked
        Checks with the largest ratio first; what could not be checked in the order of the load
        path, each once.
    """
    results = list(chain.from_iterable(check(bench) for check in (_BODY if body else _PARTS)))
    if not body:
        results += life_checks(bench, results)
    checks = sorted((one for one in results if isinstance(one, Check)), key=lambda one: -one.ratio)
    missing = [one for one in results if isinstance(one, Unchecked)]
    missing = [*_loads_missing(bench), *missing]
    if not body:
        missing += _loose(bench)
    return tuple(checks), tuple(dict.fromkeys(missing))


def check_shared(bench: Bench) -> tuple[tuple[Check, ...], tuple[Unchecked, ...]]:
    """Check every member, also under what other tooling of the job asks of those that it shares.

    Parameters
    ----------
    bench
        Tooling and loads.

    Returns
    -------
    checks, unchecked
        As of :func:`check_members`, a check under the same load that other tooling only repeats
        once, and what other tooling leaves open of the job's own members.
    """
    checks, unchecked = check_members(bench)
    known = {(one.member, one.what) for one in unchecked}
    found, left = {_row(check): check for check in checks}, list(unchecked)
    for one in bench.shared:
        more, missing = check_members(one)
        for check in more:
            found.setdefault(_row(check), evolve(check, on=one.on))
        left += _open_under(one, [gap for gap in missing if (gap.member, gap.what) not in known])
    made = sorted(found.values(), key=lambda one: -one.ratio)
    return tuple(made), tuple(dict.fromkeys(left))


def _open_under(bench: Bench, missing: Sequence[Unchecked]) -> Iterator[Unchecked]:
    """What stays unchecked, of members that are the job's own, under its other tooling.

    What carries a nose or shoulders of its own cannot be entered beside the job's own, so what
    hangs on that is checked in a job of that tooling's own.
    """
    members = bench.tooling.members
    replaced: frozenset[MemberName] = frozenset()
    state = "check that tooling as a job of its own, with what holds its shoulders"
    if members is None or members.body is None:
        replaced = _OF_SHOULDERS
    if members is None or (members.nose is None and members.carriers is None):
        replaced |= _OF_NOSE
        state = (
            "enter the reach of its nose, and check that tooling as a job of its own"
            if bench.tooling.nose.reach is None
            else "check that tooling as a job of its own, with what carries its nose"
        )
    for one in missing:
        if one.where == LENGTH:
            # What bounds where the carriers of any other nose may stand.
            yield evolve(one, what=f"{one.what}, under other tooling")
        elif one.member not in replaced:
            yield evolve(
                one, what=f"{one.what}, under other tooling", state=state,
                where="part.other_tooling",
            )  # fmt: skip


def _row(check: Check) -> tuple[str, str, str, float]:
    """What makes two checks say the same, whichever tooling asks it."""
    return check.member, check.what, case_name(check.case, off_centre=check.off_centre), check.ratio


def _loads_missing(bench: Bench) -> Iterator[Unchecked]:
    names = {load.name for load in bench.pushes}
    if "plan" not in names:
        yield Unchecked(
            member="every member",
            what="the plan's own load",
            state="enter a part that this tooling can bend",
            where="part",
        )
    if "relief" not in names:
        yield Unchecked(
            member="every member",
            what="load at relief",
            state=f"enter {key_of('press.bore')} and {key_of('press.relief')}",
            where="press",
        )
    if bench.retract is None:
        yield Unchecked(
            member="every member",
            what="pulling back",
            state=f"enter {key_of('press.bore')}, {key_of('press.rod')} and "
            f"{key_of('press.relief')}",
            where="press.rod",
        )


def _loose(bench: Bench) -> Iterator[Unchecked]:
    """A die that nothing is said to hold down: a part that sticks lifts it off the bed."""
    members = bench.tooling.members
    if members is None or "base" not in members.held:
        yield Unchecked(
            member="bolts of the base",
            what="hold-down to the bed",
            state="enter the bolts or the weld that hold the base to the bed",
            where="tooling.members.bolt",
            carries=False,
        )


def member_findings(
    bench: Bench, checks: tuple[Check, ...], unchecked: tuple[Unchecked, ...]
) -> list[Finding]:
    """What checks and gaps imply, one finding a member."""
    findings: list[Finding] = []
    said: set[MemberName] = set()
    for check in checks:
        if check.holds or not check.breaks or check.member in said:
            continue
        said.add(check.member)
        findings.append(
            Finding(
                code="member-too-weak",
                severity=Severity.REFUSAL,
                about=(KeyAt(check.where),),
                facts={
                    "member": Member(check.member),
                    "what": Name(check.what),
                    "load_case": Name(check.load_case),
                    "ratio": Share(check.ratio),
                },
            )
        )
    findings += [
        Finding(
            code="bend-differs-along-bar",
            severity=Severity.WARNING,
            about=(KeyAt(check.where),),
            facts={"angle": Angle(check.demand)},
        )
        for check in checks
        if not check.breaks and not check.holds
    ]
    if unchecked:
        names = dict.fromkeys(one.member for one in unchecked)
        findings.append(
            Finding(
                code="member-unchecked",
                severity=Severity.WARNING,
                about=(KeyAt("tooling.members"),),
                facts={"members": tuple(Member(one) for one in names)},
            )
        )
    members = bench.tooling.members
    if members is not None:
        findings += weld_findings(members) + circuit_findings(members)
        if any(_brittle(bench)):
            findings.append(
                Finding(
                    code="brittle-shaft",
                    severity=Severity.WARNING,
                    about=(KeyAt("tooling.members"),),
                )
            )
    return findings


def _brittle(bench: Bench) -> Iterator[bool]:
    members = bench.tooling.members
    if members is None:
        return
    for one in (members.nose, members.shoulders, members.guides):
        if one is not None:
            yield find_steel(one.material, "tooling.members").brittle
