"""One angle gauge to cut from paper: a single vee cut gives an inside and an outside piece."""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.quantities import Units, show_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.scene.lettering import wrap
from strapwright.sheets.true_scale import Line, Place, Shape, Words, points

LEG = 70.0  # mm of gauge edge, where nothing asks for more
LONGEST = 150.0  # mm
CLEAR = 1.0  # mm that a trimmed tip stays off the bend zone
BEYOND = 30.0  # mm of edge that must lie past the bend zone
_SIDE, _NARROWEST = 9.0, 66.0  # mm of outside piece beside the vee, and least width
_FOOT, _WORDS = 22.0, 20.0  # mm under the corner, and over the trimmed tip
_MOST_TRIMMED = 0.75  # of an edge; the rest has to guide the eye
_UPRIGHT_BELOW = 60.0  # mm; a narrower vee has its words along its middle
_FIRST, _REST, _UPRIGHT = 14.0, 8.5, 7.5  # pt


@frozen(kw_only=True)
class Gauge:
    """An angle to read with a paper gauge.

    Attributes
    ----------
    degrees
        Bend angle, how far the bend turns the bar; the gauge is drawn to it exactly [deg].
    what
        What has this angle, e.g. ``bend 2 under load``; may be empty.
    reach
        From the corner of the straight legs to where a leg is straight [mm].
    units
        Unit system of what is written on it.
    finished
        Bends that have this angle on the finished part, by their numbers.
    """

    degrees: float
    what: str
    reach: float
    units: Units
    finished: frozenset[int] = frozenset()


@frozen(kw_only=True)
class Outline:
    """Sizes of a gauge on paper [mm].

    Attributes
    ----------
    leg
        Length of each gauge edge.
    width, height
        Of the whole piece.
    spread, depth
        Half width of the vee at its open side, and its depth.
    """

    leg: float
    width: float
    height: float
    spread: float
    depth: float


def outline(gauge: Gauge, widest: float, least: float = LEG) -> Outline:
    """Size a gauge.

    Parameters
    ----------
    gauge
        The angle and its reach.
    widest
        Room on the page [mm].
    least
        Edge that it has at least, where the room allows [mm].

    Returns
    -------
    Outline
        Edges go past the bend zone as far as the room allows.
    """
    half = _half(gauge)
    room = (widest - 2 * _SIDE) / 2 / math.sin(half)
    leg = min(max(least, gauge.reach + BEYOND), room, LONGEST)
    spread, depth = leg * math.sin(half), leg * math.cos(half)
    # The words of the inside piece stand above where its tip comes off.
    tip = min(gauge.reach, _MOST_TRIMMED * leg) * math.cos(half)
    return Outline(
        leg=leg,
        width=max(2 * spread + 2 * _SIDE, _NARROWEST),
        height=max(depth, tip + _WORDS) + _FOOT,
        spread=spread,
        depth=depth,
    )


def draw_gauge(gauge: Gauge, size: Outline, left: float, top: float) -> Iterator[Shape]:
    """Draw a gauge.

    Parameters
    ----------
    gauge, size
        The angle, and what :func:`outline` made of it.
    left, top
        Place of the piece on the page [mm].
    """
    x = left + size.width / 2
    corner = (x, top + size.height - _FOOT)
    tips = [(x - size.spread, corner[1] - size.depth), (x + size.spread, corner[1] - size.depth)]
    right, bottom = left + size.width, top + size.height
    for tip, side in zip(tips, (left, right), strict=True):
        yield Line(start=corner, end=tip, stroke="edge")
        yield Line(start=tip, end=(side, tip[1]), stroke="cut")
        yield Line(start=tip, end=(tip[0], top), stroke="cut")
        yield Line(start=(side, tip[1]), end=(side, bottom), stroke="cut")
    yield Line(start=(tips[0][0], top), end=(tips[1][0], top), stroke="cut")
    yield Line(start=(left, bottom), end=(right, bottom), stroke="cut")
    yield from _trim(gauge, size, corner)
    yield from _words(gauge, size, corner, top)


def _half(gauge: Gauge) -> float:
    return math.radians(180.0 - gauge.degrees) / 2


def _trim(gauge: Gauge, size: Outline, corner: Place) -> Iterator[Shape]:
    """Where the tip of the inside piece comes off, so that it clears the inside radius."""
    half = _half(gauge)
    along = _trimmed(gauge, size)
    dx, dy = along * math.sin(half), along * math.cos(half)
    yield Line(
        start=(corner[0] - dx, corner[1] - dy), end=(corner[0] + dx, corner[1] - dy), stroke="trim"
    )


def _trimmed(gauge: Gauge, size: Outline) -> float:
    """Length of edge that comes off with the tip [mm]; enough of it has to stay."""
    return min(gauge.reach, _MOST_TRIMMED * size.leg)


def _clears(gauge: Gauge, size: Outline) -> str:
    """Say how large an inside radius the trimmed tip clears, where it is less than it should."""
    along = _trimmed(gauge, size)
    if along == gauge.reach or _within(gauge, size):
        return ""
    radius = (along - CLEAR) / math.tan(math.radians(gauge.degrees) / 2)
    return f"only radii up to {radius_below(radius, gauge.units)}"


def radius_below(radius: float, units: Units) -> str:
    """Print an inside radius [mm] that a gauge clears: rounded down to 1/16 in or 1 mm."""
    if units == "metric":
        return f"{math.floor(radius + 1e-9)} mm"
    sixteenths = math.floor(16 * radius / INCH_MM + 1e-9)
    return show_length(sixteenths * INCH_MM / 16, "1/16")


def _within(gauge: Gauge, size: Outline) -> str:
    """Say where the edges of a gauge do not get as far as the straight legs of its bend."""
    if not gauge.what or gauge.reach < size.leg:
        return ""
    return "ends within the bend: lay straightedges along its legs"


def _words(gauge: Gauge, size: Outline, corner: Place, top: float) -> Iterator[Shape]:
    x = corner[0]
    turn, included = f"{gauge.degrees:g}°", f"included {180.0 - gauge.degrees:g}°"
    room = points(size.width - 4.0)
    below = [row for said in (gauge.what, _within(gauge, size)) for row in wrap(said, _REST, room)]
    yield from _stack((turn, f"outside, {included}", *below), (x, corner[1] + 6.5))
    if 2 * size.spread >= _UPRIGHT_BELOW:
        # The vee narrows downwards; the last line has to fit as well as the first.
        body = size.height - _FOOT - size.depth
        share = 1.0 - max(0.0, _WORDS - 2.0 - body) / size.depth
        room = points(2 * size.spread * share)
        lines = [
            row
            for said in (gauge.what, _clears(gauge, size), _within(gauge, size))
            for row in wrap(said, _REST, room)
        ]
        yield from _stack((turn, f"inside, {included}", *lines), (x, top + 6.5))
    else:
        said = (f"{turn} inside", gauge.what, _clears(gauge, size))
        for column, line in enumerate(one for one in said if one):
            at = (x - 1.6 + 3.2 * column, top + 1.5)
            yield Words(at=at, text=line, size=_UPRIGHT, anchor="end", upward=True)


def _stack(lines: tuple[str, ...], at: Place) -> Iterator[Shape]:
    x, y = at
    for index, line in enumerate(lines):
        size = _FIRST if index == 0 else _REST
        yield Words(at=(x, y), text=line, size=size, anchor="middle", bold=index == 0)
        y += 4.4 if index == 0 else 3.8
