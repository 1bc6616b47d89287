"""Life of what each bend stresses anew, at a number of bends a year.

Each bend takes a member from nothing to the plan's own push and back, so the stress that the plan
asks for is the range.  EN 1993-1-9 7.1 gives the range that a detail of category C stands N times,

    dS_R = (dS_C/gamma_Mf) (2e6/N)^(1/3)

with gamma_Mf 1.35, safe life where a failure does harm (table 3.1).  On the safe side of the clause
the slope 3 goes on for any N, so that no range is too small to count, and N is 10^4 at least, where
its curves begin.  Categories and factor are from memory.  A part that sticks, and what is pushed
harder than the plan asks, is not counted.  Nor are rounds on their seats, which no curve of that
standard is for, shear of plates, coupling, frame and cylinder.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.steels import Steel, find_steel
from strapwright.errors import key_of
from strapwright.shop.member_names import BOLTS, WELDS, MemberName
from strapwright.shop.members import Carriers, Members
from strapwright.strength.check_values import Bench, Check, Input, Result, Unchecked
from strapwright.strength.welds import THROAT

ON_LIFE = 1.35  # EN 1993-1-9 table 3.1, safe life, high consequence; from memory
REFERENCE = 2e6  # bends at which a category is named, EN 1993-1-9 7.1; from memory
SLOPE = 3.0  # EN 1993-1-9 7.1; from memory
LEAST_BENDS = 1e4  # where the curves of EN 1993-1-9 7.1 begin; from memory
YEARS = 10.0  # how long a die is to last; common practice, no source


@frozen
class _Detail:
    """A category of EN 1993-1-9 [MPa], and what it is of."""

    category: float
    what: str


# A plain round, turned or as rolled: 160 as rolled, 125 with the marks of a cut edge (table 8.1;
# from memory).
_PLAIN = _Detail(125.0, "table 8.1, plain with marks")
# Fretted where it is clamped, which halves it (from memory): the category below 125/2.
_FRETTED = _Detail(56.0, "table 8.1, halved by fretting")
# Notched by a groove of the rod's round, which doubles the stress at most (from memory).
_GROOVED = _Detail(56.0, "table 8.1, halved by a groove")
# Beside a fillet weld with up to 120 mm of plate along the stress (table 8.5); a hole is 90 (table
# 8.1; from memory).
_BESIDE_WELD = _Detail(56.0, "table 8.5, beside a fillet weld")
# Past the holes of a plate (table 8.1; from memory).
_HOLES = _Detail(90.0, "table 8.1, plate with holes")
# A bolt in tension on its stress area, the thread counted (table 8.1; from memory).  Taken without
# the clamp that spares it, and with its shear as if it were tension.
_BOLT = _Detail(50.0, "table 8.1, bolt in tension")
# Through the throat of a fillet weld, from its root (table 8.5, 36*; from memory).
_ROOT = _Detail(36.0, "table 8.5, root of a fillet weld")

_BOLT_RANGE = "s/2 + sqrt((s/2)^2 + t^2), s = T/At, t = V/At"
# Welds whose toes are on the push plate.
_ON_PLATE = frozenset({"carriers", "web", "push plate"})
# Member and check whose stress is the range.
_RANGES: Mapping[tuple[MemberName, str], _Detail] = MappingProxyType(
    {
        ("nose", "bending"): _PLAIN,
        ("shoulders", "bending"): _PLAIN,
        ("push plate", "bending"): _HOLES,
        ("push plate", "bending across"): _HOLES,
        ("carrier pins", "bending"): _FRETTED,
        ("guide rods", "bending"): _FRETTED,
        ("piston rod", "push and side load"): _FRETTED,
        ("piston rod", "push and bending"): _FRETTED,
        ("nose", "push and side load of the web"): _BESIDE_WELD,
        ("carriers", "push and side load"): _BESIDE_WELD,
        ("carriers", "push and bending"): _BESIDE_WELD,
        ("carriers", "push, bending, side load and twist"): _BESIDE_WELD,
        ("die body", "push and bending"): _BESIDE_WELD,
        ("die body", "bending"): _BESIDE_WELD,
        ("die body", "tension and bending of the floor"): _BESIDE_WELD,
        ("die body", "tension and bending of the base"): _BESIDE_WELD,
        ("shoulders", "push and bending at the root"): _BESIDE_WELD,
        ("die body", "tension and bending of the side plates"): _BESIDE_WELD,
        **{(name, "strength"): _ROOT for name in WELDS.values()},
        **{(name, "tension and shear"): _BOLT for name in BOLTS.values()},
    }
)


def range_allowed(category: float, bends: float) -> float:
    """Range [MPa] that a category [MPa] of EN 1993-1-9 stands a number of times."""
    return category / ON_LIFE * math.pow(REFERENCE / max(bends, LEAST_BENDS), 1 / SLOPE)


def bends_stood(category: float, stress: float) -> float:
    """How many times a category [MPa] stands a range [MPa]; 0 where the curves do not begin."""
    bends = REFERENCE * (category / ON_LIFE / stress) ** SLOPE if stress > 0.0 else math.inf
    return bends if bends >= LEAST_BENDS else 0.0


def life_checks(bench: Bench, made: Iterable[Result]) -> Iterator[Result]:
    """Check what the plan's own push asks of each member against its life.

    Parameters
    ----------
    bench
        Tooling and loads.
    made
        The other checks, whose stresses are the ranges.
    """
    members = bench.tooling.members
    if members is None:
        return
    worst: dict[tuple[MemberName, str], Check] = {}
    for one in made:
        if not isinstance(one, Check) or one.case != "plan":
            continue
        key = (one.member, one.what)
        if key in _RANGES and (key not in worst or _range(one) > _range(worst[key])):
            worst[key] = one
    if not worst:
        return
    if members.bends_a_year is None:
        yield Unchecked(
            member="every member",
            what="life",
            state=f"enter {key_of('tooling.members.bends_a_year')}",
            where="tooling.members.bends_a_year",
            carries=False,
        )
        return
    for (member, what), check in worst.items():
        detail = _RANGES[member, what]
        nose = bench.tooling.nose
        if (member, what) == ("nose", "bending"):
            grooved = _GROOVED if nose.groove == "fitted" else detail
            detail = _FRETTED if nose.held == "one end" else grooved
        if member == "push plate" and {one.holds for one in members.weld} & _ON_PLATE:
            detail = _BESIDE_WELD
        yield _lasts(members, members.bends_a_year, check, detail)


def _lasts(members: Members, a_year: int, check: Check, detail: _Detail) -> Result:
    stress = _range(check)
    what = f"life in {check.what}"
    steel = _steel(members, check)
    if steel is not None and steel.hardened:
        return Unchecked(
            member=check.member,
            what=what,
            state="no curve holds for a hardened shaft; look for cracks often, behind a shield",
            where=check.where,
            carries=False,
        )
    bends = a_year * YEARS
    allowed = range_allowed(detail.category, bends)
    if stress > allowed:
        return Unchecked(
            member=check.member,
            what=what,
            state=_too_short(bends_stood(detail.category, stress), a_year),
            where=check.where,
            carries=False,
        )
    return Check(
        member=check.member,
        what=what,
        case=check.case,
        off_centre=check.off_centre,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        factors=(("on life", ON_LIFE), ("years", YEARS)),
        formula="range, from nothing to the plan's push" if check.unit else _BOLT_RANGE,
        allowed="(C/1.35) (2e6/N)^(1/3)",
        source=f"EN 1993-1-9 7.1, {detail.what}",
        grade="from memory",
        inputs=(*_asked(check), ("C", detail.category, "MPa"), ("N", max(bends, LEAST_BENDS), "")),
        where=check.where,
        grows=0.0,
    )


def _range(check: Check) -> float:
    """What a bend asks of a member, from nothing and back [MPa].

    Of a weld what is in its throat; of a bolt the largest principal stress of T/At and V/At.
    """
    given = {name: value for name, value, _ in check.inputs}
    if check.unit == "N/mm":
        return check.demand / (THROAT * given["w"])
    if check.unit == "":
        pull, shear = given["T"] / given["At"], given["V"] / given["At"]
        return pull / 2 + math.hypot(pull / 2, shear)
    return check.demand


def _asked(check: Check) -> tuple[Input, ...]:
    """What stands in the formula of a bolt's range; of other members their own check says it."""
    return () if check.unit else tuple(one for one in check.inputs if one[0] in {"T", "V", "At"})


def _steel(members: Members, check: Check) -> Steel | None:
    """Steel of a round that may be hardened, or ``None``."""
    stated = {
        "nose": members.nose,
        "shoulders": members.shoulders,
        "carrier pins": members.carriers,
        "guide rods": members.guides,
        "piston rod": members.rod,
    }.get(check.member)
    if stated is None:
        return None
    key = "pin_material" if isinstance(stated, Carriers) else "material"
    return find_steel(getattr(stated, key), check.where)


def _too_short(bends: float, a_year: int) -> str:
    if bends == 0.0:
        return "it is proven for no number of bends; make it stronger, or look for cracks often"
    step = 10.0 ** (math.floor(math.log10(bends)) - 1)
    counted = math.floor(bends / step) * step
    return (
        f"it is proven for {counted:.0f} bends, {counted / a_year:.1f} years at {a_year} a year; "
        "look for cracks from then on, or make it stronger"
    )
