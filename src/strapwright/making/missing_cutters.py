"""What to do where the crib has no cutter for a hole: bore, sleeve, next size, buy."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.catalog.cutting_speeds import reaming_stock
from strapwright.catalog.thread_sizes import chart_drill, find_thread
from strapwright.making.plate_values import Cutter, HoleSpec, Way
from strapwright.making.shop_lengths import either
from strapwright.quantities import Units

LEAST_SLEEVE = 2.0  # mm, wall of a sleeve that is pressed in; common practice, no source
_NEAR = 0.15  # a next size is within this share of what is wanted; likewise


def ways_round(
    hole: HoleSpec, cutters: Sequence[Cutter], *, units: Units | None = None, hardened: bool = False
) -> tuple[Way, ...]:
    """List the nearest ways to a hole that the crib does not make.

    Parameters
    ----------
    hole
        Wanted.
    cutters
        What the crib holds.
    units
        In which sizes are told; in both where not given.
    hardened
        Whether the piece is hard: then only grinding or carbide is left.

    Returns
    -------
    tuple of Way
        At least one.
    """
    if hardened:
        return (Way(kind="buy", text="buy a carbide drill, or have the hole ground"),)
    if hole.kind == "tapped":
        return _tapped(hole, cutters, units)
    ways = [_bore(hole, cutters, units)]
    if hole.kind == "fit":
        ways.append(
            Way(
                kind="sleeve",
                text=f"bore it out to {either(hole.diameter + 2 * LEAST_SLEEVE, units)} or more, "
                f"press in a bought sleeve of {either(hole.diameter, units)} bore",
            )
        )
    near = _next_size(hole, cutters, units)
    if near is not None:
        ways.append(near)
    ways.append(Way(kind="buy", text=_what_to_buy(hole, units)))
    return tuple(one for one in ways if one.text)


def _bore(hole: HoleSpec, cutters: Sequence[Cutter], units: Units | None) -> Way:
    bars = [one for one in cutters if one.kind == "boring bar"]
    smallest = min((one.diameter for one in bars), default=None)
    if smallest is None:
        text = "bore it: there is no boring bar in the crib, a lathe's will do in a faceplate"
    elif smallest >= hole.diameter:
        text = (
            f"bore it: the boring bar enters only from {either(smallest, units)} up, a smaller bar "
            "would"
        )
    else:
        text = (
            f"bore it: rough it out to at least {either(smallest, units)}, from which the boring "
            "bar enters"
        )
    return Way(kind="bore", text=text)


def _next_size(hole: HoleSpec, cutters: Sequence[Cutter], units: Units | None) -> Way | None:
    kinds = ("reamer",) if hole.kind == "fit" else ("drill", "reamer")
    near = [
        one
        for one in cutters
        if one.kind in kinds and abs(one.diameter - hole.diameter) <= _NEAR * hole.diameter
    ]
    # A bolt or a shaft passes a larger hole, not a smaller one.
    larger = [one for one in near if one.diameter >= hole.least]
    best = min(larger or near, key=lambda one: abs(one.diameter - hole.diameter), default=None)
    if best is None:
        return None
    change = best.diameter - hole.diameter
    word = "larger" if change > 0 else "smaller"
    follow = "the shaft to suit" if hole.kind == "fit" else "if that much play will do"
    if change < 0 and hole.kind != "fit":
        follow = "with a smaller bolt"
    return Way(
        kind="next size",
        text=f"take the {best.name}, {either(abs(change), units)} {word}, {follow}",
    )


def _what_to_buy(hole: HoleSpec, units: Units | None) -> str:
    if hole.kind == "fit":
        stock = reaming_stock(hole.diameter, "machine")
        low, high = hole.diameter - stock.high, hole.diameter - stock.low
        return (
            f"buy a reamer of {either(hole.diameter, units)} {hole.fit}, and a drill between "
            f"{either(low, units)} and {either(high, units)}"
        )
    return f"buy a drill or hole saw of {either(hole.diameter, units)}"


def _tapped(hole: HoleSpec, cutters: Sequence[Cutter], units: Units | None) -> tuple[Way, ...]:
    thread = find_thread(hole.thread, "thread")
    ways = []
    owned = [one for one in cutters if one.kind == "tap"]
    alike = [one for one in owned if find_thread(one.thread, "thread").metric == thread.metric]
    near = min(alike, key=lambda one: abs(one.diameter - thread.major), default=None)
    if not any(one.thread == thread.name for one in owned):
        if near is not None and abs(near.diameter - thread.major) <= 0.3 * thread.major:
            ways.append(Way(kind="next size", text=f"tap {near.thread} instead, bolts to suit"))
        ways.append(Way(kind="buy", text=f"buy a {thread.name} tap"))
    chart = chart_drill(thread)
    size = either(thread.hole(75), units) if chart is None else chart.name
    if not any(55 <= thread.percent(one.diameter) <= 85 for one in cutters if one.kind == "drill"):
        ways.append(Way(kind="buy", text=f"buy a tap drill {size}"))
    return tuple(ways) or (Way(kind="buy", text=f"buy a longer {thread.name} tap or drill"),)
