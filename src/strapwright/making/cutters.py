"""Which cutters of the crib, one after the other, make a hole."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import product

from attrs import evolve

from strapwright.catalog.cutting_speeds import MOST_STOCK, reaming_stock
from strapwright.catalog.iso286_limits import grade_width
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.making.missing_cutters import ways_round
from strapwright.making.plate_values import Cut, Cutter, HoleMaking, HoleSpec, Way
from strapwright.making.shop_lengths import either
from strapwright.making.threads.tap_drills import (
    AIM,
    AIM_DEEP,
    DEEP,
    best_tap_drill,
    drill_deeper,
)
from strapwright.quantities import Units

# How much over its size a drill cuts: a trade school says 0.05 mm; larger ones more, about the
# means of handbook lists (from memory).
_OVER, _OVER_SHARE = 0.05, 0.006
# A boring bar is set by measuring; what it holds on a small mill; common practice, no source.
BORE_BAND = 0.02
BORE_LEAVES = 0.5  # mm on the diameter that boring needs to true a drilled hole; likewise
_SAW_OVER, _MILL_OVER = 1.0, 0.1  # mm over their size that hole saws and end mills cut; likewise
# A reamer lies in the upper part of its H7, DIN 1420: top at 15 % below the hole's (from memory).
_REAMER_TOP = 0.85
# Drills from this size on want a pilot, from the second on two; common practice, no source.
PILOT_FROM, TWO_PILOTS_FROM = 8.0, 20.0
WIDE_LIMITS = 0.1  # mm; halves that meet from both sides are this far out; common practice
FROM_BOTH = (
    "No cutter reaches through: go in past the middle from one side, turn the piece over, set to "
    "the same place and meet the hole from the other."
)
HARDENED = (
    "High-speed steel does not cut a hardened shaft, and its skin spoils a reamer: grind it, use "
    "carbide in a rigid machine, or clamp the shaft instead of drilling it."
)
# A usual size (common practice, no source).
CENTRE = Cutter(kind="centre drill", name="centre drill", diameter=3.0)


def drilled_size(diameter: float) -> tuple[float, float]:
    """Return between which diameters a drill leaves its hole [mm]; ``diameter`` [mm]."""
    return diameter, diameter + _OVER + _OVER_SHARE * diameter


def reamed_size(diameter: float) -> tuple[float, float]:
    """Return between which diameters a machine reamer leaves its hole [mm]; ``diameter`` [mm]."""
    return diameter, diameter + _REAMER_TOP * grade_width(diameter, 7, "reamer")


def make_hole(
    hole: HoleSpec,
    cutters: Sequence[Cutter],
    *,
    thickness: float,
    where: str,
    units: Units | None = None,
    hardened: bool = False,
) -> HoleMaking:
    """Choose the cutters for a hole.

    Parameters
    ----------
    hole
        To make.
    cutters
        What the crib holds; centre drill and countersink are taken as owned.
    thickness
        Of the plate [mm].
    where
        Key path of the hole, for the message.
    units
        In which sizes are told; in both where not given.
    hardened
        Whether the piece is hard already.

    Returns
    -------
    HoleMaking
        The last cutter leaves the diameter within its limits.  Without cuts the crib cannot make
        the hole, and the ways round are given.

    Raises
    ------
    InputError
        Where there is no cutter at all.
    """
    if not cutters:
        raise InputError(
            "crib", "the tool crib is empty", "list the drills, reamers and taps that you have"
        )
    if hardened:
        return HoleMaking(
            cuts=(),
            ways=ways_round(hole, cutters, units=units, hardened=True),
            notes=(HARDENED,),
        )
    depth = thickness if hole.depth is None else hole.depth
    if hole.kind == "tapped":
        return _with_seat(
            hole, cutters, _tapped(hole, cutters, depth, thickness, where, units), units
        )
    # From both sides where no cutter reaches through and the halves need not be in line to a hair.
    halves = (depth, depth / 2) if hole.depth is None and _turned(hole) else (depth,)
    makers = (_by_drill, _by_reamer, _by_mill, _by_bar, _by_saw)
    # First with drills of the person's own units, which a small shop is likelier to have.
    own = [one for one in cutters if one.kind != "drill" or units in (None, _units_of(one))]
    ways_to_make = product(halves, makers, (own, cutters))
    for reached, make, among in ways_to_make:
        cuts = make(hole, among, reached)
        if cuts:
            detour = cuts[-1].role == "bore" and hole.kind != "fit"
            notes = _notes(hole, cuts, depth, through=hole.depth is None)
            if reached < depth:
                notes = (*notes, FROM_BOTH)
            ways = ways_round(hole, cutters, units=units) if detour else ()
            return _with_seat(hole, cutters, HoleMaking(cuts=cuts, ways=ways, notes=notes), units)
    return HoleMaking(cuts=(), ways=_ways(hole, cutters, depth, units))


def _units_of(drill: Cutter) -> Units:
    return "metric" if drill.metric else "inch"


def _turned(hole: HoleSpec) -> bool:
    """Whether a hole may be made from both sides: wide limits, so that no fit is spoilt."""
    return hole.kind != "fit" or hole.most - hole.least >= WIDE_LIMITS


def _ways(
    hole: HoleSpec, cutters: Sequence[Cutter], depth: float, units: Units | None
) -> tuple[Way, ...]:
    """Ways round; first of all a longer cutter, where one of this size does not reach."""
    short = [
        one
        for one in cutters
        if one.kind in {"drill", "reamer"}
        and one.reach is not None
        and one.reach < depth
        and abs(one.diameter - hole.diameter) <= max(hole.most - hole.least, _OVER)
    ]
    ways = ways_round(hole, cutters, units=units)
    if not short:
        return ways
    longest = max(short, key=lambda one: one.reach or 0.0)
    text = (
        f"buy a longer {longest.name}: the hole is {either(depth, units)} deep, and one of usual "
        f"length reaches {either(longest.reach or 0.0, units)}"
    )
    return (Way(kind="buy", text=text), *ways)


def of_kind(cutters: Iterable[Cutter], kind: str, depth: float = 0.0) -> list[Cutter]:
    """Return the cutters of one kind that reach a depth [mm], smallest first."""
    return sorted(
        (one for one in cutters if one.kind == kind and (one.reach is None or one.reach >= depth)),
        key=lambda one: one.diameter,
    )


def _within(hole: HoleSpec, size: tuple[float, float]) -> bool:
    return hole.least - 1e-9 <= size[0] and size[1] <= hole.most + 1e-9


def _drill_to(drill: Cutter, drills: Sequence[Cutter], role: str = "drill") -> tuple[Cut, ...]:
    """Centre, pilots and the drill itself."""
    cuts: list[Cut] = []
    shares = (
        ()
        if drill.diameter < PILOT_FROM
        else ((0.2, 0.35, 0.5),)
        if drill.diameter < TWO_PILOTS_FROM
        else ((0.15, 0.25, 0.35), (0.45, 0.6, 0.75))
    )
    for low, aim, high in shares:
        fit = [one for one in drills if low <= one.diameter / drill.diameter <= high]
        # Fractions and millimetres lie in the first box that is opened, numbers and letters do not.
        plain = [one for one in fit if one.name[0].isdigit() and one.metric == drill.metric]
        if fit:
            pilot = min(
                plain or fit, key=lambda one: (abs(one.diameter - aim * drill.diameter), one.name)
            )
            least, most = drilled_size(pilot.diameter)
            cuts.append(Cut(cutter=pilot, role="pilot", least=least, most=most))
    least, most = drilled_size(drill.diameter)
    cuts.append(Cut(cutter=drill, role=role, least=least, most=most))
    # No wider than what follows, or a small hole keeps the mark of the centre drill.
    spot = min(CENTRE.diameter, cuts[0].least)
    return Cut(cutter=CENTRE, role="centre", least=0.0, most=spot), *cuts


def _by_drill(hole: HoleSpec, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    drills = of_kind(cutters, "drill", depth)
    fit = [one for one in drills if _within(hole, drilled_size(one.diameter))]
    return _drill_to(fit[0], drills) if fit else ()


def _by_reamer(hole: HoleSpec, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    for reamer in of_kind(cutters, "reamer", depth):
        size = reamed_size(reamer.diameter)
        if not _within(hole, size):
            continue
        last = Cut(cutter=reamer, role="ream", least=size[0], most=size[1])
        before = _before_reamer(reamer.diameter, cutters, depth)
        if before:
            return (*before, last)
    return ()


def _before_reamer(diameter: float, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    stock = reaming_stock(diameter, "machine")
    drills = of_kind(cutters, "drill", depth)
    middle = (stock.low + stock.high) / 2

    def left(one: Cutter) -> float:
        return diameter - one.diameter

    # First the chart, then the old limit of 1/32 in; something must be left beside what the drill
    # cuts over its size.
    for low, high in ((stock.low, stock.high), (stock.low, MOST_STOCK)):
        fit = [
            one
            for one in drills
            if low - 1e-9 <= left(one) <= high + 1e-9 and drilled_size(one.diameter)[1] < diameter
        ]
        if fit:
            drill = min(fit, key=lambda one: abs(left(one) - middle))
            return _drill_to(drill, drills, "drill")
    return _bored(diameter - stock.high, diameter - stock.low, cutters, depth)


def _by_mill(hole: HoleSpec, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    drills = of_kind(cutters, "drill", depth)
    for mill in of_kind(cutters, "end mill", depth):
        size = (mill.diameter, mill.diameter + _MILL_OVER)
        pilots = [one for one in drills if one.diameter <= 0.8 * mill.diameter]
        if _within(hole, size) and pilots:
            last = Cut(cutter=mill, role="open up", least=size[0], most=size[1])
            return (*_drill_to(pilots[-1], drills), last)
    return ()


def _by_bar(hole: HoleSpec, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    return _bored(hole.least, hole.most, cutters, depth)


def _bored(least: float, most: float, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    """Rough out and bore to the middle of two limits [mm]."""
    if most - least < BORE_BAND - 1e-9:
        return ()
    middle = (least + most) / 2
    drills = of_kind(cutters, "drill", depth)
    for bar in of_kind(cutters, "boring bar", depth):
        top = middle - BORE_LEAVES

        def rough(
            one: Cutter, over: Callable[[float], float], bar: Cutter = bar, top: float = top
        ) -> bool:
            return one.diameter >= bar.diameter and over(one.diameter) <= top

        last = Cut(
            cutter=bar, role="bore", least=middle - BORE_BAND / 2, most=middle + BORE_BAND / 2
        )
        fit = [one for one in drills if rough(one, lambda d: drilled_size(d)[1])]
        if fit:
            return (*_drill_to(fit[-1], drills), last)
        saws = [
            one
            for one in of_kind(cutters, "hole saw", depth)
            if rough(one, lambda d: d + _SAW_OVER)
        ]
        if saws:
            return (_sawn(saws[-1]), last)
    return ()


def _by_saw(hole: HoleSpec, cutters: Sequence[Cutter], depth: float) -> tuple[Cut, ...]:
    for saw in of_kind(cutters, "hole saw", depth):
        cut = _sawn(saw)
        if _within(hole, (cut.least, cut.most)):
            return (cut,)
    return ()


def _sawn(saw: Cutter) -> Cut:
    return Cut(cutter=saw, role="saw out", least=saw.diameter, most=saw.diameter + _SAW_OVER)


def _tapped(
    hole: HoleSpec,
    cutters: Sequence[Cutter],
    depth: float,
    thickness: float,
    where: str,
    units: Units | None,
) -> HoleMaking:
    thread = find_thread(hole.thread, where)
    deep = depth > DEEP * thread.major + 1e-6
    below = depth if hole.depth is None else min(depth + drill_deeper(thread), thickness)
    drills = of_kind(cutters, "drill", below)
    drill = best_tap_drill(thread, drills, aim=AIM_DEEP if deep else AIM)
    tap = next((one for one in of_kind(cutters, "tap", depth) if one.thread == thread.name), None)
    if drill is None or tap is None:
        return HoleMaking(cuts=(), ways=ways_round(hole, cutters, units=units))
    notes = []
    if deep:
        notes.append(
            f"The thread is deeper than {DEEP:g} diameters: turn back every half turn to break the "
            "chip, oil it, and clear the chips; a broken tap cannot be drilled out."
        )
    if hole.depth is not None:
        notes.append(
            "Drill deeper than the thread to leave room for the tap's lead."
            if depth + drill_deeper(thread) < thickness
            else "The drill comes out on the other side, for the lead of the tap needs the depth."
        )
    last = Cut(cutter=tap, role="tap", least=thread.major, most=thread.major)
    return HoleMaking(
        cuts=(*_drill_to(drill, drills, "tap drill"), last),
        percent=thread.percent(drill.diameter),
        notes=tuple(notes),
    )


def _notes(hole: HoleSpec, cuts: Sequence[Cut], depth: float, *, through: bool) -> tuple[str, ...]:
    notes = []
    if depth > 4 * hole.diameter:
        notes.append("Deeper than four diameters: draw the drill out often and clear the chips.")
    if cuts[-1].role == "ream":
        notes.append(
            "Ream with oil. Never turn the reamer backwards; keep it turning forwards as you "
            "withdraw it."
        )
        before = cuts[-2]
        if cuts[-1].least - before.least > reaming_stock(cuts[-1].least, "machine").high + 0.01:
            notes.append(
                f"{before.cutter.name} leaves more than the chart for reamers says: ream slowly."
            )
        if not through:
            notes.append(
                "A blind hole is reamed to its lead only: drill it deeper than it is used."
            )
    if any(cut.role == "saw out" for cut in cuts):
        notes.append("A hole saw grabs as it breaks through: clamp the plate down.")
    return tuple(notes)


def _with_seat(
    hole: HoleSpec, cutters: Sequence[Cutter], made: HoleMaking, units: Units | None
) -> HoleMaking:
    """Add the seat of a bolt head."""
    if hole.counterbore is None or not made.cuts:
        return made
    wide, deep = hole.counterbore
    mills = [
        one for one in of_kind(cutters, "end mill", deep) if 0 <= one.diameter - wide <= 0.15 * wide
    ]
    if not mills:
        note = (
            f"No end mill for a seat of {either(wide, units)}, {either(deep, units)} deep: cut it "
            "with a counterbore or a boring head. Never leave it out: the bolt's length counts on "
            "it."
        )
        return evolve(made, notes=(*made.notes, note))
    size = mills[0].diameter
    seat = Cut(cutter=mills[0], role="counterbore", least=size, most=size + _MILL_OVER)
    return evolve(made, seat=seat)
