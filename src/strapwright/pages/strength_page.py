"""What the page about strength says: the weakest member first, what fixes it, the plate."""

from __future__ import annotations

import math

from attrs import evolve, frozen

from strapwright.errors import InputError, named
from strapwright.pages.long_work.attendance import somebody_waits
from strapwright.pages.page_statements import Said, key_name, link_to, on_page, said, table_name
from strapwright.pages.shelves import rack_of
from strapwright.pages.workshop import Workshop
from strapwright.planning.checked_tooling import Checked
from strapwright.planning.member_loads import assess, bench_of
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units, show_force, show_pressure
from strapwright.service.check_tooling import planning_on
from strapwright.service.search_clock import spent_of
from strapwright.shop.member_names import MemberName
from strapwright.shop_files.updating import update_job
from strapwright.strength.check_values import Check, Unchecked
from strapwright.strength.fixing.fix_values import Fix
from strapwright.strength.hand_figures import shown
from strapwright.strength.lasting.proof_load import proof_steps
from strapwright.strength.rating import rating_plate
from strapwright.wording.fix_words import fix_order
from strapwright.wording.member_words import member_name
from strapwright.wording.telling import tell_all

# Seconds of processor for planning on thicker noses, since others may use it too; the page waits.
_PATIENCE = 4.0
FAR = 100.0  # a ratio that is no figure any more
_WIDEST = 1.5  # ratio at which the small gauge is full


@frozen(kw_only=True)
class Sum:
    """One check as it is worked by hand.

    Attributes
    ----------
    what
        Way of failing and load case.
    percent, holds
        How much of what is allowed is asked.
    demand, capacity
        With their units.
    formula, allowed
        Of the two.
    given
        Name and value of what stands in the formulas, factors last.
    source
        Where the formulas come from, and how well that is known.
    """

    what: str
    percent: str
    holds: bool
    demand: str
    capacity: str
    formula: str
    allowed: str
    given: tuple[tuple[str, str], ...]
    source: str


@frozen(kw_only=True)
class Cure:
    """What fixes a member.

    Attributes
    ----------
    key
        Which fix it is, as its button posts it.
    text
        An order.
    after
        What the member is loaded to afterwards, and what is changed with it.
    """

    key: str
    text: str
    after: str


@frozen(kw_only=True)
class Row:
    """One member.

    Attributes
    ----------
    member, link
        Its name and the field that could be changed.
    share
        How far the small gauge is filled, 1 at what is allowed.
    worst
        The check it stands worst.
    others
        Its other checks.
    caution
        What to mind with this member, empty where nothing.
    cures
        What fixes it; empty where it holds or nothing was found.
    """

    member: str
    link: str
    share: float
    worst: Sum
    others: tuple[Sum, ...]
    caution: str
    cures: tuple[Cure, ...]


@frozen(kw_only=True)
class Missing:
    """What could not be checked, and where to state what it needs."""

    text: str
    link: str


@frozen(kw_only=True)
class Strength:
    """Everything the page says."""

    rows: tuple[Row, ...]
    missing: tuple[Missing, ...]
    findings: tuple[Said, ...]
    loads: tuple[tuple[str, str, str], ...]
    stands: str
    relief: str
    plate: tuple[str, ...]
    proof: tuple[str, ...]
    holds: bool


def check_text(shop: Workshop, text: str) -> Checked:
    """Check the tooling of a job's text.

    Parameters
    ----------
    shop
        Where plans are kept; sizes to fix it with come from its rack.
    text
        The job file.

    Raises
    ------
    InputError
        If it cannot be read or planned, or states no tooling.
    """
    job = shop.read(text)
    if job.tooling is None:
        raise InputError(
            "tooling",
            "no tooling is entered, so there is nothing to check",
            "enter nose and shoulders, or find tooling from the rack",
        )
    made = evolve(shop.plan(_bare(text)), job=job)
    bench = bench_of([made], job.tooling, job.press)
    spent = spent_of(_PATIENCE)
    again = planning_on(job, lambda: somebody_waits() and spent() < 1.0)
    found = assess(bench, job.units, rack_of(shop), again)
    return Checked(plan=made, bench=bench, assessment=found)


def _bare(text: str) -> str:
    """Return a job's text without members: no force depends on them, so it is planned once."""
    try:
        return update_job(text, {"tooling.members": None})
    except InputError:  # the tooling lies in a shop file
        return text


def strength(checked: Checked, made: Plan) -> Strength:
    """Put a checked tooling into words.

    Parameters
    ----------
    checked
        From :func:`check_text`.
    made
        Plan whose job says the unit system.
    """
    units = made.job.units
    found, bench = checked.assessment, checked.bench
    rated = found.rating
    relief = found.relief_to_set
    return Strength(
        rows=_rows(found.checks, found.fixes, units),
        missing=tuple(_missing(one) for one in found.unchecked),
        findings=tuple(
            said(one)
            for one in tell_all(checked.findings, on_page(made.job))
            if one.code not in ("member-too-weak", "member-unchecked")
        ),
        loads=tuple(
            (
                name + (f" by {shown(load.offset, 'mm', units)}" if load.offset else ""),
                shown(load.force, "N", units),
                shown(load.outward, "N", units) if load.outward else "",
            )
            for name, load in bench.named_loads
        ),
        stands="" if rated is None else show_force(rated, "lbf" if units == "inch" else "kN"),
        relief="" if relief is None else show_pressure(relief, units),
        plate=rating_plate(bench, found, units),
        proof=proof_steps(bench, found, units)[:-1],
        holds=found.holds,
    )


def _rows(checks: tuple[Check, ...], fixes: tuple[Fix, ...], units: Units) -> tuple[Row, ...]:
    by_member: dict[MemberName, list[Check]] = {}
    for check in checks:
        by_member.setdefault(check.member, []).append(check)
    cures: dict[MemberName, list[Cure]] = {}
    chained = 0
    for fix in fixes:
        after = f"then at {_percent(fix.ratio)}"
        if fix.alternative:
            after += "; instead of the other changes, and everything that was checked holds"
        elif chained:
            after += "; together with the changes shown above"
        chained += not fix.alternative
        cure = Cure(key=fix.key, text=fix_order(fix, units), after=after)
        cures.setdefault(fix.member, []).append(cure)
    return tuple(
        _row(member, several, tuple(cures.get(member, ())), units)
        for member, several in by_member.items()
    )


def _row(member: MemberName, checks: list[Check], cures: tuple[Cure, ...], units: Units) -> Row:
    worst = checks[0]
    caution = ""
    if worst.off_centre:
        caution = "This comes from an off-centre push: place the bar in the middle every time."
    return Row(
        member=member_name(member),
        link=link_to(worst.where),
        share=min(worst.ratio, _WIDEST) if math.isfinite(worst.ratio) else _WIDEST,
        worst=_sum(worst, units),
        others=tuple(_sum(one, units) for one in checks[1:]),
        caution=caution,
        cures=cures,
    )


def _sum(check: Check, units: Units) -> Sum:
    given = list(check.inputs_shown(units))
    given += [(name, f"{value:g}") for name, value in check.factors]
    return Sum(
        what=f"{check.what}, {check.load_case}",
        percent=_percent(check.ratio),
        holds=check.holds,
        demand=check.shown(check.demand, units),
        capacity=check.shown(check.capacity, units),
        formula=check.formula,
        allowed=check.allowed,
        given=tuple(given),
        source=f"{check.source}; {check.grade}",
    )


def _percent(ratio: float) -> str:
    return f"{100 * ratio:.0f} %" if ratio < FAR else "more than 100 times"


def _field_name(path: str) -> str:
    # Some keys have no field of their own, and a page names them by their words.
    return key_name(path).replace("_", " ")


def _missing(one: Unchecked) -> Missing:
    text = named(one.marked, _field_name, table_name)
    return Missing(text=text, link=link_to(one.where))
