"""In which order a tooling is welded, so that bores stay in line and faces square.

Common practice without a source: bores are made before, a round in them while tacks and runs are
laid, runs short and from side to side, and the bore is eased afterwards.  The preheat is that of
the lists for the steels that are stated; where none is, that is said.
"""

from __future__ import annotations

from collections.abc import Iterator

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
    "shoulders": ("each shoulder", "the base"),
    "side plates": ("each end of the cheeks", "the side plates"),
    "base": ("the base", "the bed"),
    "push plate": ("the push plate", "the ram"),
}
CLEAN = {"inch": INCH_MM, "metric": 25.0}  # mm to each side of a joint; common practice, no source
ROOM = {"inch": "50 °F", "metric": "10 °C"}  # common practice, no source
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
    hard = any(find_steel(one, "weld").hardened for one in steels if one is not None)
    preheat = _preheat(steels, units)
    each = weld.length / weld.runs
    steps = [
        f"Clean both pieces to bright metal, {size(CLEAN[units], units)} beside the joint.",
        *_placed(weld, tooling, layout, units),
        f"Warm the joint to {preheat} before the first tack, and keep it there."
        if preheat[:1].isdigit()
        else f"Weld no colder than {ROOM[units]}: warm a piece that is wet or colder.",
        f"Tack {first} at opposite corners, then measure again; break a tack that has pulled.",
        (
            f"Weld {weld.runs} runs, leg {size(weld.size, units)}, {size(each, units)} long: one "
            "on one side, the next on the other, laid the opposite way."
        ),
        "Let it cool under its clamps, without water, until a hand can stay on it.",
        *_afterwards(weld, tooling, units),
    ]
    return Welding(
        name=f"{first} to {second}",
        facts=(
            ("Fillet", f"leg {size(weld.size, units)}"),
            ("Runs", f"{weld.runs} of {size(each, units)} on {first}"),
            ("Weld metal", _metal(weld, units)),
            ("Preheat", preheat),
        ),
        steps=tuple(steps),
        cautions=(
            *((HARD_WELD,) if hard else ()),
            "Wear a welding helmet and gloves, and keep the fumes out of your breath.",
        ),
    )


def _steels(weld: Weld, members: Members) -> tuple[str | None, ...]:
    """Steels of both pieces; ``None`` for one that nobody stated."""
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
    return tuple(None if one == UNKNOWN_STEEL else one for one in found)


def _preheat(steels: tuple[str | None, ...], units: Units) -> str:
    """The highest preheat that the lists name for any of the steels."""
    lows, highs = [], []
    for name in steels:
        if name is not None:
            found = weldability(find_steel(name, "weld"))
            if found.low is not None:
                lows.append(found.low)
                highs.append(found.high)
    unknown = any(one is None for one in steels)
    if lows:
        low = max(lows)
        high = None if None in highs else max(one for one in highs if one is not None)
        ends = [low] if high is None or high <= low else [low, high]
        said = " to ".join(_degrees(one, units) for one in ends)
        return f"{said} °{'F' if units == 'inch' else 'C'}{' or more' if high is None else ''}"
    return "not known: a steel is not stated" if unknown else "none for these steels"


def _degrees(fahrenheit: float, units: Units) -> str:
    celsius = 10 * round((fahrenheit - 32) / 18)
    return f"{fahrenheit:.0f}" if units == "inch" else f"{celsius:.0f}"


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
            "the inner sides of the cheeks."
        )
        yield "Set both cheeks on the lines of the floor, and square them to it."
    elif weld.holds == "shoulders":
        yield f"Set both shoulders {opening} apart, middle to middle of their rounds, and square."
    elif weld.holds == "side plates":
        yield f"Clamp a block of {opening} between the inner sides of the cheeks, feet on a flat."


def _afterwards(weld: Weld, tooling: Tooling, units: Units) -> Iterator[str]:
    shoulders = tooling.shoulders
    if weld.holds == "carriers":
        yield (
            "Turn the round by hand. Where it binds, ream or bore both carriers again in one pass, "
            "in line, and never drive the nose in."
        )
    elif weld.holds in {"cheeks", "shoulders", "side plates"}:
        gap = size(shoulders.opening - 2 * shoulders.radius, units)
        yield f"Measure {gap} between the rounds at both ends, and the same both times."
