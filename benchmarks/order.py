"""Parts for the measured times of bend order and coming off: flat angles, folds and frames."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from strapwright.ordering.freeing.coming_off import comes_off
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection

BENDS = (4, 8, 10, 12, 14, 16)
# Seconds aimed at until the order is proven, by bends.
GOALS = {12: 0.3, 16: 3.0}
FREE_GOAL, TRAPPED_GOAL = 0.1, 1.0  # s
RADIUS, THICKNESS, SPRINGBACK = 9.5, 5.0, math.radians(2.0)  # mm, mm, rad
Work = tuple[str, Callable[[], object], float | None]


def tooling(*, even: bool) -> ToolSection:
    """A nose on a web between two walls; not even, with a rail on the left [mm]."""
    pieces = (
        Piece(name="nose", side="nose", centre=(0.0, 0.0), radius=RADIUS, contact=True),
        _box("web", "nose", -6.0, 0.0, 6.0, 170.0),
        _box("plate", "nose", -38.0, 170.0, 38.0, 195.0),
        *(
            Piece(name=name, side="shoulders", centre=(x, -6.0), radius=6.0, contact=True)
            for name, x in (("left shoulder", -31.5), ("right shoulder", 31.5))
        ),
        _box("left wall", "shoulders", -44.0, -70.0, -25.5, -6.0, contact=True),
        _box("right wall", "shoulders", 25.5, -70.0, 44.0, -6.0, contact=True),
        _box("bed", "shoulders", -300.0, -400.0, 300.0, -300.0),
    )
    rail = () if even else (_box("rail", "shoulders", -190.0, -60.0, -150.0, -8.0),)
    return ToolSection(
        opening=63.0,
        shoulder_radius=6.0,
        nose_radius=RADIUS,
        depth=70.0,
        pieces=(*pieces, *rail),
    )


def _box(
    name: str, side: str, x0: float, y0: float, x1: float, y1: float, *, contact: bool = False
) -> Piece:
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return Piece(
        name=name,
        side="nose" if side == "nose" else "shoulders",
        polygon=corners,
        contact=contact,
    )


def folded(bends: int, *, symmetric: bool) -> PartGeometry:
    """A strip folded in low hats, four bends a hat; not symmetric, every leg is another length."""
    turn = math.radians(40.0)
    signs = (1.0, -1.0, -1.0, 1.0)
    legs = [70.0] * (bends + 1)
    if not symmetric:
        legs = [70.0 + 3.0 * (7 * k % 11) for k in range(bends + 1)]
    return PartGeometry(
        straights=tuple(legs),
        angles=tuple(signs[k % 4] * turn for k in range(bends)),
        radii=(RADIUS,) * bends,
        thickness=THICKNESS,
    )


def box_part(end_leg: float) -> PartGeometry:
    """A box of 90 mm straights, open at one corner, made round that corner last [mm]."""
    square = math.radians(90.0)
    return PartGeometry(
        straights=(end_leg, 90.0, 90.0, end_leg),
        angles=(square,) * 3,
        radii=(RADIUS,) * 3,
        thickness=THICKNESS,
    )


def works() -> Iterator[Work]:
    """Give what to measure, with what is aimed at [s]."""
    settings = SearchSettings(springback=(SPRINGBACK,))
    for even, name in ((True, "even legs and tooling"), (False, "uneven legs, a rail on the left")):
        section = tooling(even=even)
        for bends in BENDS:
            part = folded(bends, symmetric=even)

            def order(section: ToolSection = section, part: PartGeometry = part) -> object:
                found = find_order(section, part, settings)
                if not (found.proven and found.feasible):
                    raise RuntimeError("no order was proven")
                return found

            yield f"order, {bends} bends, {name}", order, GOALS.get(bends)
    pieces = (
        Piece(name="nose", side="nose", centre=(0.0, 0.0), radius=RADIUS),
        _box("web", "nose", -1.5, 0.0, 1.5, 240.0),
        _box("plate", "nose", -38.0, 240.0, 38.0, 260.0),
    )
    for leg, verdict, goal in (
        (70.0, "FREE", FREE_GOAL),
        (88.0, "TRAPPED", TRAPPED_GOAL),
    ):
        part = box_part(leg)

        def off(part: PartGeometry = part, verdict: str = verdict) -> object:
            found = comes_off(pieces, part, 2, RADIUS, what_holds=False)
            if found.verdict != verdict:
                raise RuntimeError(f"{found.verdict} instead of {verdict}")
            return found

        yield f"coming off, {verdict.lower()}", off, goal
