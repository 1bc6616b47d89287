"""What a tooling may be loaded to, and the plate to fix on it."""

from __future__ import annotations

import math

from strapwright.bending.hydraulics import piston_area, push_force
from strapwright.quantities import Units, show_force, show_pressure
from strapwright.quantities.inside_units import INCH_MM, PSI_MPA
from strapwright.shop.member_names import MemberName
from strapwright.strength.check_values import (
    ESTIMATE,
    Assessment,
    Bench,
    Check,
    Unchecked,
    case_name,
)
from strapwright.strength.columns import ON_LOAD

_PLATE_STEP = {"inch": 10 * PSI_MPA, "metric": 0.1}  # MPa, as a gauge is read; common practice
_SAME = 1e-9  # of a step, numerical
# How far over the plate a proof load goes: 125 %, as of lifting tackle; common practice, no source.
OVER = 1.25
# Members of the circuit limit the pressure, not what the tooling stands.
_CIRCUIT = frozenset({"hose", "fitting", "valve", "cylinder", "rod side", "gauge", "circuit"})

# Whose ratings a proof may not pass.
_PROVED: frozenset[MemberName] = frozenset(
    {"hose", "fitting", "valve", "cylinder", "rod side", "gauge", "frame"}
)


def share_of_load(check: Check) -> float | None:
    """Share of its load at which a check just holds, at most 1; ``None`` if less does not help."""
    if check.holds:
        return 1.0
    if check.grows == 0.0:
        return None
    return 0.0 if check.ratio == float("inf") else check.ratio ** (-1.0 / check.grows)


def weakest_of(bench: Bench, checks: tuple[Check, ...]) -> tuple[Check, float] | None:
    """Return the check that gives way first as the push grows, and the force there [N].

    Parameters
    ----------
    bench
        With its pushes.
    checks
        Of its members; the circuit, pulling back, and what no force changes are left out.

    Returns
    -------
    tuple of Check and float, or None
        The force on the nose at which the check is loaded to just what is allowed, the wedge and
        what lies off centre growing with it; ``None`` where nothing was checked under a push.
    """
    found = [(check, force_carried(bench, check)) for check in checks]
    found = [(check, force) for check, force in found if force < math.inf]
    return min(found, key=lambda one: one[1], default=None)


def force_carried(bench: Bench, check: Check) -> float:
    """Return the force on the nose that loads a check to just what is allowed [N].

    Infinite for the circuit, for pulling back, and where no force changes what is checked.
    """
    asked = case_name(check.case, off_centre=check.off_centre)
    force = min(
        (
            load.force
            for one in (bench, *bench.shared)
            if one.on == check.on
            for load in one.pushes
            if load.name == asked
        ),
        default=None,
    )
    if (
        check.member in _CIRCUIT
        or not check.breaks
        or force is None
        or not (check.grows > 0.0 and check.ratio > 0.0)
    ):
        return math.inf
    return force * _share_of_push(check, force)


def _share_of_push(check: Check, force: float) -> float:
    """Share of its push at which a check just holds, above 1 where it holds [-].

    What a column asks grows faster than its push.  With u = 1.67 F/P_E it is, at f times the push,
    f (1 - u)/(1 - f u) of itself at most, which is 1 at f = 1/(q (1 - u) + u) of a ratio q.
    """
    share = float(check.ratio ** (-1.0 / check.grows))
    slender = next((value for name, value, _ in check.inputs if name == "P_E"), None)
    if slender is None:
        return share
    near = min(ON_LOAD * force / slender, 1.0)
    return min(share, 1 / (check.ratio * (1 - near) + near)) if near < 1.0 else min(share, 1.0)


def uncarried(unchecked: tuple[Unchecked, ...]) -> tuple[MemberName, ...]:
    """Return the members of the load path that were not checked, each once."""
    return tuple(dict.fromkeys(one.member for one in unchecked if _limits(one)))


def _limits(one: Unchecked) -> bool:
    """Whether there is no rating while it is not checked."""
    return one.carries and one.member not in _CIRCUIT


def rating_of(
    bench: Bench, checks: tuple[Check, ...], unchecked: tuple[Unchecked, ...]
) -> float | None:
    """Return the force on the nose that every member stands, never above that at relief [N].

    Parameters
    ----------
    bench
        With its loads.
    checks, unchecked
        Of its members; where anything but the circuit is unchecked there is no rating.
    """
    relief = next(
        (load.force for load in bench.pushes if load.case == "relief" and not load.offset), None
    )
    if relief is None or any(map(_limits, unchecked)):
        return None
    share = 1.0
    for check in checks:
        if check.member in _CIRCUIT or check.case == "retract" or not check.breaks:
            continue
        one = share_of_load(check)
        if one is None:
            return None
        if check.case == "relief":
            share = min(share, one)
    return relief * share


def relief_to_set(bench: Bench, checks: tuple[Check, ...]) -> float | None:
    """Return the relief at which every member holds [MPa], or ``None``: none, or as stated.

    Parameters
    ----------
    bench
        With its press.
    checks
        Of its members, the circuit among them.
    """
    if bench.press is None or bench.press.relief is None:
        return None
    shares = []
    for check in checks:
        if check.holds or not check.breaks:
            continue
        share = share_of_load(check)
        if share is None or check.case == "plan":
            return None
        shares.append(share)
    return bench.press.relief * min(shares) if shares and min(shares) > 0.0 else None


def hopeless(checks: tuple[Check, ...]) -> Check | None:
    """Return the weakest check that no lower relief fixes, or ``None``.

    The plan's own push does not hold, or what does not hold grows with no force or carries none.
    """
    failing = (one for one in checks if one.breaks and not one.holds)
    return next(
        (
            one
            for one in failing
            if one.case == "plan" or one.grows == 0.0 or one.ratio == float("inf")
        ),
        None,
    )


def provable_relief(bench: Bench, checks: tuple[Check, ...]) -> float | None:
    """Return the highest pressure that press and circuit may be set to for a proof [MPa].

    Every rating of the circuit and of the frame is held there.  Where one of them is not stated
    nothing is known above the relief as it is set.

    Parameters
    ----------
    bench
        With its press.
    checks
        Of its members.
    """
    if bench.press is None or bench.press.relief is None:
        return None
    relief = bench.press.relief
    limits: dict[MemberName, float] = {
        check.member: relief / check.ratio
        for check in checks
        if check.member in _PROVED and check.case == "relief" and check.ratio > 0.0
    }
    known = [*limits.values(), *([] if limits.keys() >= _PROVED else [relief])]
    return min(known)


def plate_relief(bench: Bench, assessment: Assessment, units: Units) -> float | None:
    """Return the relief that the plate says [MPa], as a gauge is read, or ``None``.

    The lowest of what is set, of what every member and the circuit hold at, of what pushes with the
    rating on the full bore, and of 0.8 of what it can be proved at.

    Parameters
    ----------
    bench
        What was checked.
    assessment
        Of it.
    units
        Unit system of the plate.
    """
    press = bench.press
    if press is None or press.bore is None or press.relief is None:
        return None
    limits = [press.relief]
    if assessment.relief_to_set is not None:
        limits.append(assessment.relief_to_set)
    if assessment.rating is not None:
        limits.append(assessment.rating / piston_area(press.bore))
    proved = provable_relief(bench, assessment.checks)
    if proved is not None:
        limits.append(proved / OVER)
    # A plate may say less than what holds, never more.
    step = _PLATE_STEP[units]
    return math.floor(min(limits) / step + _SAME) * step


def rating_plate(bench: Bench, assessment: Assessment, units: Units) -> tuple[str, ...]:
    """Return the lines of the plate to fix on the tooling.

    Parameters
    ----------
    bench
        What was checked.
    assessment
        Of it.
    units
        Unit system of the plate.
    """
    fails = hopeless(assessment.checks)
    if fails is not None:
        return (
            "NOT RATED, DO NOT USE",
            (
                f"{fails.member}, {fails.what}, {fails.load_case}: does not hold, and no lower "
                "relief fixes it"
            ),
        )
    if assessment.rating is None:
        return ("NOT RATED", "not every member could be checked; see the list of missing figures")
    force, press = assessment.rating, bench.press
    relief = plate_relief(bench, assessment, units)
    lines = []
    if press is not None and press.bore is not None and relief is not None:
        force = min(force, push_force(press.bore, relief))
        bore = f"{press.bore / INCH_MM:.4g} in" if units == "inch" else f"{press.bore:.4g} mm"
        lines.append(f"RELIEF NOT ABOVE {show_pressure(relief, units)} ({bore} BORE)")
    lines.insert(0, f"MAX FORCE {show_force(force, 'lbf' if units == 'inch' else 'kN')}")
    members = bench.tooling.members
    if members is not None:
        off = members.off_centre
        lines.append(
            f"BAR NO MORE THAN {off / INCH_MM:.2f} in OFF CENTRE"
            if units == "inch"
            else f"BAR NO MORE THAN {off:.0f} mm OFF CENTRE"
        )
    # What grows with the push, and breaks; a life or a least size is no share of a load.
    loaded = (one for one in assessment.checks if one.breaks and one.grows > 0.0)
    weakest = next(loaded, None)
    if weakest is not None:
        lines.append(f"WEAKEST MEMBER: {weakest.member.upper()}")
    if any(one.what.startswith("life") for one in assessment.unchecked):
        lines.append("LIFE NOT CHECKED: LOOK FOR CRACKS")
    return (*lines, "HANDS OUT OF THE PINCH. EYE PROTECTION. NEVER ABOVE RELIEF.", ESTIMATE)
