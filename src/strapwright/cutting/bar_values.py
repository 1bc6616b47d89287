"""Pieces, bars and cut plans as whole numbers: everything the search for a cut plan works with.

A length is a whole number of grains, the step in which all lengths of one problem are counted, so
that sums are exact.
"""

from __future__ import annotations

from functools import cached_property

from attrs import frozen

MOST_PIECES = 5000  # of one plan; more cannot be searched at the bench


@frozen(kw_only=True)
class BarKind:
    """Bars of one length.

    Attributes
    ----------
    length
        Of one bar [grains].
    count
        How many there are; ``None`` for as many as are wanted.
    new
        Whether it has to be bought.
    offcut
        Whether it is an off-cut, which is used up before a whole bar.
    price
        What one counts where two plans buy equally many [any money, or grains].
    """

    length: int
    count: int | None = None
    new: bool = True
    offcut: bool = False
    price: int = 0


@frozen(kw_only=True)
class CutTask:
    """What is to be cut from what.

    Attributes
    ----------
    lengths, quantities
        Of the pieces, each length once, longest first [grains] and [-].
    kinds
        The bars to choose from.
    kerf
        What one cut takes [grains].
    squaring
        What comes off the first end of every bar, with its cut [grains].
    """

    lengths: tuple[int, ...]
    quantities: tuple[int, ...]
    kinds: tuple[BarKind, ...]
    kerf: int = 0
    squaring: int = 0

    @cached_property
    def widths(self) -> tuple[int, ...]:
        """Of the pieces, each with one cut [grains]."""
        return tuple(one + self.kerf for one in self.lengths)

    def room(self, kind: int) -> int:
        """Return what a bar holds, counting a kerf with every piece [grains].

        The last piece may end at the bar's end and then needs no cut: n pieces need n - 1 kerfs.
        """
        return self.kinds[kind].length - self.squaring + self.kerf

    @property
    def pieces(self) -> int:
        """How many pieces are wanted."""
        return sum(self.quantities)


@frozen(kw_only=True)
class CutBar:
    """One way to cut a bar, and how many bars are cut so.

    Attributes
    ----------
    kind
        Number of the bar's kind.
    counts
        Pieces of each length.
    times
        How many bars.
    """

    kind: int
    counts: tuple[int, ...]
    times: int


@frozen(kw_only=True)
class CutPlan:
    """Which bars are cut how.

    Attributes
    ----------
    bars
        Ways of cutting, together all pieces.
    new
        How many bars are bought.
    least
        No plan buys fewer than this.
    proven
        Whether ``new`` is proven to be the fewest.
    settled
        Whether every further rule (the least bought, off-cuts before whole bars) is proven too.
    first_fit
        Bars bought when the longest piece goes first into the first bar that holds it.
    how
        What gave the proof: ``length`` the sum of all lengths, ``columns`` the relaxed problem,
        ``flow`` the whole problem; empty where there is none.
    seconds
        Time taken [s].
    """

    bars: tuple[CutBar, ...]
    new: int
    least: int
    proven: bool
    settled: bool
    first_fit: int
    how: str
    seconds: float


def bars_used(bars: tuple[CutBar, ...], kinds: int) -> list[int]:
    """Return how many bars of each kind a plan takes."""
    found = [0] * kinds
    for bar in bars:
        found[bar.kind] += bar.times
    return found
