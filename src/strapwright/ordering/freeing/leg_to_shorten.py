"""How much shorter an end leg would have to be for the part to come off."""

from __future__ import annotations

from attrs import evolve, frozen

from strapwright.ordering.freeing.bar_under_nose import on_nose
from strapwright.ordering.freeing.coming_off import quickly_off
from strapwright.ordering.freeing.part_gap import gaps_of
from strapwright.ordering.order_values import PartGeometry, Piece
from strapwright.ordering.refusal_values import End
from strapwright.ordering.time_given import KeepGoing, always


@frozen(kw_only=True)
class Trim:
    """An end leg shortened until the part comes off.

    Attributes
    ----------
    end
        Which end of the bar.
    length
        Cut off at least so much [mm].
    gap
        The gap that leaves [mm], or ``None`` where there is none any more.
    """

    end: End
    length: float
    gap: float | None


def trim_to_free(
    pieces: tuple[Piece, ...],
    part: PartGeometry,
    last_bend: int,
    nose_radius: float,
    end: End,
    *,
    resolution: float = 0.5,
    keep_going: KeepGoing = always,
) -> Trim | None:
    """Bisect for the least length off one end leg with which the part is found to come off.

    Errs to the safe side: a part shortened by the length stated was found free, by ``resolution``
    less [mm] it was not.  ``None`` where even the bare bend at that end does not help, or the time
    ran out.
    """
    made = tuple(range(1, part.bends + 1))
    leg = part.straights[0 if end == 1 else -1]

    def shorter(by: float) -> PartGeometry:
        straights = list(part.straights)
        straights[0 if end == 1 else -1] = leg - by
        return evolve(part, straights=tuple(straights))

    def off(by: float) -> bool:
        return quickly_off(pieces, shorter(by), last_bend, nose_radius, keep_going)

    held, free = 0.0, leg
    if not off(free):
        return None
    while free - held > resolution:
        middle = 0.5 * (held + free)
        found = off(middle)
        if not keep_going():
            return None  # a no for lack of time is no answer
        if found:
            free = middle
        else:
            held = middle
    gaps = gaps_of(on_nose(shorter(free), made, last_bend, nose_radius))
    return Trim(end=end, length=free, gap=gaps[0].width if gaps else None)
