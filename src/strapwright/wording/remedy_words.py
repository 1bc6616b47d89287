"""What makes a refused part possible, in words: its figure and what was tried in vain."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.planning.remedy_values import Change, Named, Remedies, Remedy, Tried, What
from strapwright.wording.figures import Figures
from strapwright.wording.places import listed

HEAD = "How to make it possible"
_ORDERS: dict[What, str] = {
    "opening": "set the shoulders to an opening of {}",
    "shoulder radius": "use shoulders with a radius of {}",
    "shoulder height": "raise the shoulders to a height of {}",
    "outer edge": "cut the shoulder blocks back to an outer edge {} from the centre",
    "depth": "lower the floor to a depth of {}",
    "nose radius": "use a nose with a radius of {}",
    "web thickness": "use a nose web {} thick",
    "no web": "support the nose at both ends without a web, with a reach of {}",
    "reach": "use a nose with a reach of {}",
    "plate width": "use a push plate {} wide",
}
_NAMES: dict[What, str] = {
    "opening": "the opening",
    "shoulder radius": "the radius of the shoulders",
    "shoulder height": "the height of the shoulders",
    "outer edge": "the outer edge of the shoulder blocks",
    "depth": "the depth under the shoulder tops",
    "nose radius": "the radius of the nose",
    "web thickness": "the thickness of the web",
    "no web": "a nose without a web, its reach",
    "reach": "the reach of the nose",
    "plate width": "the width of the push plate",
}
# What is made anew, and not just set.
_MADE = frozenset(_ORDERS) - {"opening"}
STRENGTH = "Check the strength of changed tooling before you press with it."


@frozen(kw_only=True)
class RemedyWords:
    """One remedy in words.

    Attributes
    ----------
    order
        What to change, with its figure, as an order.
    checked
        What the plan with exactly that says.
    """

    order: str
    checked: str


def remedy_words(remedy: Remedy, show: Figures) -> RemedyWords:
    """Put a remedy into words.

    Parameters
    ----------
    remedy
        As found.
    show
        Figures of the reader.
    """
    orders = [_order(change, show) for change in remedy.changes]
    text = "; and ".join(orders)
    bends = ", ".join(map(str, remedy.order))
    made = "the bend can be made" if len(remedy.order) == 1 else f"the order {bends} can be made"
    return RemedyWords(
        order=f"{text[:1].upper()}{text[1:]}.",
        checked=f"Planned with this: {made}.",
    )


def rest_words(remedies: Remedies, show: Figures) -> tuple[str, ...]:
    """Say what was tried in vain where nothing was found, what was not tried, and what to mind.

    Parameters
    ----------
    remedies
        As found.
    show
        Figures of the reader.
    """
    lines = []
    if not remedies.found:
        lines.append(_nothing(remedies, show))
    if remedies.untried:
        names = listed(_name(one) for one in remedies.untried)
        lines.append(f"Not tried, because the time ran out: {names}.")
    if remedies.pairs == "time ran out":
        lines.append("Not all pairs of changes were tried, because the time ran out.")
    if any(change.what in _MADE for one in remedies.found for change in one.changes):
        lines.append(STRENGTH)
    return tuple(lines)


def _nothing(remedies: Remedies, show: Figures) -> str:
    if not remedies.in_vain:
        if remedies.untried:
            return "The search ran out of time before it found a fix."
        return "No size of part or tooling is known that would help."
    tried = listed(_span(one, show) for one in remedies.in_vain)
    both = " alone or two at once" if remedies.pairs == "tried" else ""
    return f"No change that was tried{both} is enough: {tried}."


def _order(change: Change, show: Figures) -> str:
    if change.what == "tooling" and change.tooling is not None:
        return f"make {_bends(change)} on {_sizes(change.tooling, show)}"
    now = _beside(change, show)
    figure = _bound(change, show)
    if change.what == "part of the way":
        bend = change.numbers[0]
        where = "in the vise" if change.tooling is None else f"on {_sizes(change.tooling, show)}"
        return f"stop bend {bend} at {figure}{now} and finish it {where}"
    if change.what == "leg":
        legs = f"leg{'s' if len(change.numbers) > 1 else ''} {listed(change.numbers)}"
        return f"make {legs} {figure} long{now}"
    if change.what == "trim":
        several = len(change.numbers) > 1
        legs = f"leg{'s' if several else ''} {listed(change.numbers)}"
        each, them = (" each", "them") if several else ("", "it")
        return f"leave {legs} longer by {figure}{each}{now} and saw {them} to length after bending"
    return _ORDERS[change.what].format(figure) + now


def _bound(change: Change, show: Figures) -> str:
    """The figure, and which way it may go on."""
    figure = _value(change, change.new, show)
    if not _goes_on(change):
        return figure
    more = change.furthest > change.new
    return f"{figure} or {'more' if more else 'less'}"


def _beside(change: Change, show: Figures) -> str:
    """What is stated now, and how far beyond the figure was tried."""
    said = []
    if change.old is not None and not math.isclose(change.old, change.new):
        said.append(f"now {_value(change, change.old, show)}")
    if _goes_on(change):
        way = "up" if change.furthest > change.new else "down"
        said.append(f"tried {way} to {_value(change, change.furthest, show)}")
    return f" ({'; '.join(said)})" if said else ""


def _goes_on(change: Change) -> bool:
    """Whether going on past the figure does as well; who would bend less than can be bent."""
    return change.what != "part of the way" and not math.isclose(change.new, change.furthest)


def _value(change: Change | Tried, value: float, show: Figures) -> str:
    return show.angle(value) if change.what == "part of the way" else show.stated(value)


def _bends(change: Change | Tried) -> str:
    return f"bend{'s' if len(change.numbers) > 1 else ''} {listed(change.numbers)}"


def _sizes(tooling: Named, show: Figures) -> str:
    return (
        f"{tooling.name} (nose radius {show.stated(tooling.nose_radius)}, opening "
        f"{show.stated(tooling.opening)})"
    )


def _name(tried: Tried) -> str:
    if tried.what == "tooling" and tried.tooling is not None:
        return f"{_bends(tried)} on {tried.tooling.name}"
    if tried.what == "part of the way":
        rest = "" if tried.tooling is None else f" and then on {tried.tooling.name}"
        return f"bend {tried.numbers[0]} part-way{rest}"
    if tried.what == "trim":
        legs = f"leg{'s' if len(tried.numbers) > 1 else ''} {listed(tried.numbers)}"
        return f"{legs} left longer and sawn to length"
    if tried.what == "leg":
        return f"leg{'s' if len(tried.numbers) > 1 else ''} {listed(tried.numbers)} longer"
    return _NAMES[tried.what]


def _span(tried: Tried, show: Figures) -> str:
    if tried.what == "tooling":
        return _name(tried)
    name, end = _name(tried), _value(tried, tried.end, show)
    way = "up" if tried.old is None or tried.end > tried.old else "down"
    return f"{name} {way} to {end}"
