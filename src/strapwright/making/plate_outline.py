"""The outline of a piece as drawn: a rectangle, or two halves with a bore on their joint."""

from __future__ import annotations

from strapwright.making.plate_values import PlateDrawing

Corner = tuple[float, float, float]
_QUARTER = 1.0  # tangent of a quarter of a half circle's sweep, exact


def outlines(plate: PlateDrawing) -> tuple[tuple[Corner, ...], ...]:
    """Return closed outlines, counter-clockwise from a lower corner.

    Parameters
    ----------
    plate
        As drawn.

    Returns
    -------
    tuple of tuple of (x, y, bulge)
        From the lower left corner [mm]; the bulge of the line to the next corner is the tangent of
        a quarter of the angle that it sweeps, negative clockwise [-].  A bore on a joint is half in
        each outline.
    """
    wide, high = plate.width, plate.height
    if not plate.joint:
        return (((0.0, 0.0, 0.0), (wide, 0.0, 0.0), (wide, high, 0.0), (0.0, high, 0.0)),)
    middle = wide / 2
    up: list[Corner] = [(middle, 0.0, 0.0)]
    for hole in sorted(plate.holes, key=lambda one: one.y):
        radius = hole.diameter / 2
        up += [(middle, hole.y - radius, -_QUARTER), (middle, hole.y + radius, 0.0)]
    if high - up[-1][1] > 1e-6:
        up.append((middle, high, 0.0))
    # Downwards every arc begins where it ended upwards.
    ends = [one[1:] for one in up]
    down = [
        (middle, y, bulge)
        for (y, _), (_, bulge) in zip(
            reversed(ends), [*reversed(ends[:-1]), (0.0, 0.0)], strict=True
        )
    ]
    return (
        ((0.0, 0.0, 0.0), *up, (0.0, high, 0.0)),
        ((wide, 0.0, 0.0), (wide, high, 0.0), *down),
    )
