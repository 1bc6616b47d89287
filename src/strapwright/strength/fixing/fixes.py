"""What fixes a member that does not hold: the next size, a shorter span, another bolt."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from attrs import evolve

from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.shop.member_names import MemberName
from strapwright.shop.members import Members
from strapwright.shop.rack import Rack
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Bench
from strapwright.strength.fixing.fix_fits import fits
from strapwright.strength.fixing.fix_options import options, thicker_noses
from strapwright.strength.fixing.fix_sizes import Sizes
from strapwright.strength.fixing.fix_values import Fix, KeyChange
from strapwright.strength.member_checks import check_shared

# Plans anew on a tooling and gives what is then to be checked; None where it cannot be made on it.
Again = Callable[[Tooling], Bench | None]

_MOST_FIXES = 20  # one after the other; more is no die any more


def fixes_of(
    bench: Bench,
    units: Units,
    rack: Rack | None = None,
    again: Again | None = None,
) -> tuple[tuple[Fix, ...], bool]:
    """Return a change for each member that does not hold, the weakest first, each on the last.

    Parameters
    ----------
    bench
        What was checked.
    units
        Unit system of the sizes to choose from.
    rack
        Where the next size comes from; usual sizes where not given.
    again
        Plans anew on a tooling with another nose; without it no other nose is offered.

    Returns
    -------
    fixes, hold
        Changes, and whether every check holds once all of them are made.  A thicker nose that does
        in place of another change of the nose, with what else it asks for, is an alternative.
    """
    sizes = Sizes(units, rack)
    fixes, fixed = _chain(bench, sizes, again)
    others: list[Fix] = []
    nose = next((one for one in fixes if one.member == "nose"), None)
    if nose is not None and again is not None and nose.tooling.nose == bench.tooling.nose:
        others = _thicker_instead(bench, sizes, again)
    return (*fixes, *others), not _failing(fixed)


def _chain(bench: Bench, sizes: Sizes, again: Again | None) -> tuple[list[Fix], Bench]:
    """Fix one member after the other until all hold or nothing more helps."""
    fixes: list[Fix] = []
    stuck: set[MemberName] = set()
    current = bench
    while len(fixes) < _MOST_FIXES:
        member = next((one for one in _failing(current) if one not in stuck), None)
        if member is None:
            break
        found = _first_that_holds(current, member, sizes, again)
        if found is None:
            stuck.add(member)
            continue
        fix, current = found
        fixes.append(fix)
    return fixes, current


def _failing(bench: Bench) -> tuple[MemberName, ...]:
    """Members that do not hold, the weakest first."""
    checks, _ = check_shared(bench)
    return tuple(dict.fromkeys(check.member for check in checks if not check.holds))


def _thicker_instead(bench: Bench, sizes: Sizes, again: Again) -> list[Fix]:
    """The first thicker nose with which, and what else it asks for, every check holds."""
    for change, tooling in thicker_noses(bench.tooling, sizes):
        thicker = again(tooling)
        if thicker is None:
            continue
        more, fixed = _chain(thicker, sizes, again)
        if _failing(fixed):
            continue
        return [
            Fix(
                member="nose",
                changes=(change, *(each for one in more for each in one.changes)),
                tooling=fixed.tooling,
                ratio=_worst(fixed, "nose"),
                alternative=True,
            )
        ]
    return []


def _worst(bench: Bench, member: MemberName) -> float:
    checks, _ = check_shared(bench)
    return max((check.ratio for check in checks if check.member == member), default=math.inf)


def _first_that_holds(
    bench: Bench, member: MemberName, sizes: Sizes, again: Again | None
) -> tuple[Fix, Bench] | None:
    stated = bench.tooling.members
    if stated is None:
        return None
    for change, changed in _changes(bench, stated, member, sizes, again):
        if not fits(bench, changed):
            continue
        try:
            ratio = _worst(changed, member)
        except InputError:
            continue
        if ratio <= 1.0:
            fix = Fix(member=member, changes=(change,), tooling=changed.tooling, ratio=ratio)
            return fix, changed
    return None


def _changes(
    bench: Bench, stated: Members, member: MemberName, sizes: Sizes, again: Again | None
) -> Iterator[tuple[KeyChange, Bench]]:
    """Changes with what is then to be checked; a nose of another size is planned anew."""
    for change, changed in options(bench, stated, member, sizes):
        yield change, bench.with_own(evolve(bench.tooling, members=changed))
    if member == "nose" and again is not None:
        for change, tooling in thicker_noses(bench.tooling, sizes):
            thicker = again(tooling)
            if thicker is not None:
                yield change, thicker
