"""Where a long blank is cut short in its picture: plain stretches between marks."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen


@frozen(kw_only=True)
class Stretch:
    """Part of the blank and where it comes in the picture.

    Attributes
    ----------
    start, end
        From end 1 [mm].
    drawn_start, drawn_end
        In the picture [mm]; shorter than the real stretch where it is broken.
    """

    start: float
    end: float
    drawn_start: float
    drawn_end: float

    @property
    def broken(self) -> bool:
        """Whether something plain was left out here."""
        return self.drawn_end - self.drawn_start < (self.end - self.start) * (1 - 1e-9)


@frozen(kw_only=True)
class Map:
    """From places on the blank to places in the picture; to scale but for the breaks."""

    stretches: tuple[Stretch, ...]

    @property
    def length(self) -> float:
        """Drawn length [mm]."""
        return self.stretches[-1].drawn_end

    @property
    def breaks(self) -> tuple[float, ...]:
        """Drawn middles of the stretches that are cut short [mm]."""
        return tuple((s.drawn_start + s.drawn_end) / 2 for s in self.stretches if s.broken)

    def drawn(self, place: float) -> float:
        """Where a place on the blank comes in the picture [mm]."""
        for one in self.stretches:
            if place <= one.end or one is self.stretches[-1]:
                share = (place - one.start) / (one.end - one.start)
                return one.drawn_start + share * (one.drawn_end - one.drawn_start)
        raise AssertionError("a map has at least one stretch")


def broken_map(length: float, places: Sequence[float], longest: float) -> Map:
    """Shorten each plain stretch to ``longest``.

    Parameters
    ----------
    length
        Of the blank [mm].
    places
        Where something is to be seen [mm]; those off the blank are left out.
    longest
        Plain stretch that is drawn in full [mm]; infinite for a picture to scale.
    """
    stops = sorted({0.0, length, *(place for place in places if 0.0 < place < length)})
    stretches = []
    at = 0.0
    for start, end in pairwise(stops):
        long = min(end - start, longest)
        stretches.append(Stretch(start=start, end=end, drawn_start=at, drawn_end=at + long))
        at += long
    return Map(stretches=tuple(stretches))
