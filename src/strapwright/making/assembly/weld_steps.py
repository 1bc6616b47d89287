"""In which order a tooling is welded, so that bores stay in line and faces square.

Common practice without a source: bores are made before, a round in them while tacks and runs are
laid, runs short and from side to side, and the bore is eased afterwards.  The preheat is that of
the list that asks for most; a steel that is not known is taken as one that is not mild, and told.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.catalog.steels import find_steel
from strapwright.catalog.welding import weldability
from strapwright.making.assembly.weld_values import Welding
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM, KSI_MPA
from strapwright.shop.members import UNKNOWN_STEEL, Members, Weld
from strapwright.shop.tooling import Tooling

# The order in which what is stated is welded: nothing is closed in before it is done.
_ORDER = (
    "carriers", "web", "nose", "cheeks", "shoulders", "side plates", "base", "push plate",
)  # fmt: skip
_JOINED = {
    "carriers": ("each carrier", "the push plate"),
    "web": ("the web", "the push plate"),
    "nose": ("the nose", "the web"),
    "cheeks": ("each cheek", "the floor"),
    "shoulders": ("each block", "the base"),
    "side plates": ("each end of the cheeks", "the side plates"),
    "base": ("the base", "the bed"),
    "push plate": ("the push plate", "the ram"),
}
CLEAN = {"inch": INCH_MM, "metric": 25.0}  # mm to each side of a joint; common practice, no source
# What one pass of a stick electrode lays flat; AWS D1.1 table 5.1 (from memory).
ONE_PASS = {"inch": 5 * INCH_MM / 16, "metric": 8.0}
ROOM = {"inch": "50 °F", "metric": "10 °C"}  # common practice, no source
_STEP = 10.0  # degrees C in which a preheat is told; common practice, no source
HARD_WELD = (
    "Never weld a hardened piece: its skin cracks beside the weld. Clamp or bolt it instead."
)


def welding(tooling: Tooling, layout: NoseLayout | None, units: Units) -> tuple[Welding, ...]:
    """Say how everything that is stated as welded is welded, in order.

    Parameters
    ----------
    tooling
        With its members.
    layout
        Sizes about the nose, ``None`` where it is not laid out.
    units
        In which it is told.
    """
    members = tooling.members
    if members is None:
        return ()
    welds = sorted(members.weld, key=lambda one: _ORDER.index(one.holds))
    return tuple(_joint(one, tooling, members, layout, units) for one in welds)


def _joint(
    weld: Weld, tooling: Tooling, members: Members, layout: NoseLayout | None, units: Units
) -> Welding:
    first, second = _JOINED[weld.holds]
    steels = _steels(weld, members)
    hard = any(find_steel(one, "weld").hardened for one in steels)
    preheat = preheat_of(steels)
    each = weld.length / weld.runs
    steps = [
        f"Clean both pieces to bright metal, {size(CLEAN[units], units)} beside the joint.",
        *_placed(weld, tooling, layout, units),
        *_unknown_first(preheat),
        f"Warm the joint to {_span(preheat, units)} before the first tack, and keep it there."
        if preheat.low is not None
        else f"Weld no colder than {ROOM[units]}: warm a piece that is wet or colder.",
        f"Tack {first} at opposite corners, then measure again; break a tack that has pulled.",
        (
            f"Weld {weld.runs} runs, leg {size(weld.size, units)}, {size(each, units)} long: one "
            "on one side, the next on the other, laid the opposite way."
        ),
        *_passes(weld, units),
        "Let it cool under its clamps, without water, until a hand can stay on it.",
        *_afterwards(weld, tooling, units),
    ]
    return Welding(
        name=f"{first} to {second}",
        facts=(
            ("Fillet", f"leg {size(weld.size, units)}"),
            ("Runs", f"{weld.runs} of {size(each, units)} on {first}"),
            ("Weld metal", _metal(weld, units)),
            ("Preheat", _preheat_words(preheat, units)),
        ),
        steps=tuple(steps),
        cautions=(
            *((HARD_WELD,) if hard else ()),
            "Wear a welding helmet and gloves, and keep the fumes out of your breath.",
        ),
    )


@frozen
class Preheat:
    """How warm a joint is welded.

    Attributes
    ----------
    low, high
        [F]; ``None`` for no preheat, and for no upper limit.
    known
        Whether every steel is.
    """

    low: float | None
    high: float | None
    known: bool


def _steels(weld: Weld, members: Members) -> tuple[str, ...]:
    """Steels of both pieces, an unknown one for a piece that nobody stated."""
    carriers, plate, body = members.carriers, members.push_plate, members.body
    nose, shoulders = members.nose, members.shoulders
    web = None if nose is None else nose.web_material or nose.material
    below = None if body is None else body.material
    above = None if plate is None else plate.material
    pairs: dict[str, tuple[str | None, ...]] = {
        "carriers": (None if carriers is None else carriers.material, above),
        "web": (web, above),
        "nose": (None if nose is None else nose.material, web),
        "shoulders": (None if shoulders is None else shoulders.material, below),
        "push plate": (above, None),
        "base": (below, None),
    }
    found = pairs.get(weld.holds, (below, below))
    return tuple(one or UNKNOWN_STEEL for one in found)


def preheat_of(steels: tuple[str, ...]) -> Preheat:
    """Return the preheat that no list asks more than, for any of the steels."""
    found = [weldability(find_steel(name, "weld")) for name in steels]
    warm = [one for one in found if one.surely is not None]
    highs = [one.high for one in warm if one.high is not None]
    return Preheat(
        low=max((one.surely for one in warm if one.surely is not None), default=None),
        high=None if len(highs) < len(warm) else max(highs, default=None),
        known=UNKNOWN_STEEL not in {find_steel(name, "weld").name for name in steels},
    )


def _unknown_first(preheat: Preheat) -> Iterator[str]:
    if not preheat.known:
        yield (
            "A steel of this joint is not entered. Find out what it is before you weld it: it may "
            "need more preheat, or must not be welded at all."
        )


def _preheat_words(preheat: Preheat, units: Units) -> str:
    said = "none for these steels" if preheat.low is None else _span(preheat, units)
    return said if preheat.known else f"{said}; a steel is not entered and may need more"


def _span(preheat: Preheat, units: Units) -> str:
    """Say ``500 to 800 °F``; in degrees Celsius never lower than the lists."""
    unit = "°F" if units == "inch" else "°C"
    low, high = preheat.low or 0.0, preheat.high
    if high is None:
        return f"{_degrees(low, units)} {unit} or more"
    if high <= low:
        return f"{_degrees(low, units)} {unit}"
    return f"{_degrees(low, units)} to {_degrees(high, units)} {unit}"


def _degrees(fahrenheit: float, units: Units) -> str:
    if units == "inch":
        return f"{fahrenheit:.0f}"
    return f"{_STEP * math.ceil((fahrenheit - 32) / 1.8 / _STEP):.0f}"


def _metal(weld: Weld, units: Units) -> str:
    if units == "inch":
        return f"{weld.electrode / KSI_MPA:.0f} ksi, low hydrogen"
    return f"{weld.electrode:.0f} MPa, low hydrogen"


def _placed(weld: Weld, tooling: Tooling, layout: NoseLayout | None, units: Units) -> Iterator[str]:
    """How the pieces are set before they are tacked."""
    opening = size(tooling.shoulders.opening, units)
    if weld.holds == "carriers" and layout is not None:
        yield (
            "Bore the carriers first, clamped together, then slide the nose or a spare round of "
            "its size through both bores."
        )
        yield (
            f"Clamp a block of {size(layout.span, units)} between the carriers, set both on the "
            "lines of the push plate, and square them to it both ways."
        )
        yield "Wrap the round and the bores against spatter, and clamp the earth to the push plate."
    elif weld.holds == "web":
        yield "Set the web on its lines between the carriers, its lower edge on the nose all along."
    elif weld.holds == "nose":
        yield (
            "Clamp the nose to the edge of the web on a straight bar, and begin in the middle: a "
            "run to one end, then one to the other."
        )
    elif weld.holds == "cheeks":
        yield (
            f"Bore the seats first, lay the rounds in them, and clamp a block of {opening} between "
            "the inner sides of the cheeks, above where the inner run goes."
        )
        yield "Set both cheeks on the lines of the floor, and square them to it."
    elif weld.holds == "shoulders":
        yield (
            "Set both blocks on the lines of the base, rounded edges facing each other, a piece of "
            f"{_clear(tooling, units)} clamped between their tops, above where the inner run goes, "
            "and square them to it."
        )
    elif weld.holds == "side plates":
        yield f"Clamp a block of {opening} between the inner sides of the cheeks, feet on a flat."


def _passes(weld: Weld, units: Units) -> Iterator[str]:
    """A fillet of more than one pass: each adds a strip, so as the square of the leg."""
    most = ONE_PASS[units]
    if weld.size > most + 1e-6:
        passes = math.ceil((weld.size / most) ** 2 - 1e-6)
        yield (
            f"Build the leg up in {passes} passes or more, none thicker than {size(most, units)}: "
            "slag chipped off and wire brushed between them, both sides in turn."
        )


def _afterwards(weld: Weld, tooling: Tooling, units: Units) -> Iterator[str]:
    if weld.holds == "carriers":
        yield (
            "Turn the round by hand. Where it binds, ream or bore both carriers again in one pass, "
            "in line, and never drive the nose in."
        )
    elif weld.holds in {"cheeks", "shoulders", "side plates"}:
        what = "blocks" if weld.holds == "shoulders" else "rounds"
        yield (
            f"Measure {_clear(tooling, units)} between the {what} at both ends, and the same both "
            "times."
        )
    if weld.holds == "shoulders":
        yield "Lay a straight edge over both tops: dress the higher one until it touches both flat."


def _clear(tooling: Tooling, units: Units) -> str:
    """The gap between the shoulders."""
    return size(tooling.shoulders.opening - 2 * tooling.shoulders.radius, units)
