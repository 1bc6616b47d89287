"""What a search for a tooling gives back: proposals, and why other candidates fell out."""

from __future__ import annotations

from attrs import frozen

from strapwright.proposing.miss_values import Lack
from strapwright.proposing.proposal_values import Choice, Proposed


@frozen(kw_only=True)
class FellOut:
    """Candidates that fell out for one reason.

    Attributes
    ----------
    example
        Why the first of them did.
    count
        How many fell out for it first.
    """

    example: Lack
    count: int


@frozen(kw_only=True)
class NearMiss:
    """The candidate that came nearest.

    Attributes
    ----------
    choice
        What it is made from; ``None`` where nothing could be put together.
    lack
        What it lacks.
    over
        How far it is over the limit, as a ratio; ``None`` where that is no number [-].
    """

    choice: Choice | None
    lack: Lack
    over: float | None


@frozen(kw_only=True)
class LowerRelief:
    """What does at a lower relief, where nothing does at the one that is set.

    Attributes
    ----------
    proposed
        The cheapest that does there, checked and planned at that relief.
    relief, was
        The highest setting of a gauge at which something does, and as it is set now [MPa].
    smaller
        Whether its nose is smaller than that of the nearest miss.
    """

    proposed: Proposed
    relief: float
    was: float
    smaller: bool


@frozen(kw_only=True)
class Untried:
    """Candidates that the time did not reach.

    Attributes
    ----------
    count
        How many, or how many groups of them where they were not even listed.
    least
        What the cheapest of them costs at least; ``None`` where that is not known.
    """

    count: int
    least: float | None


@frozen(kw_only=True)
class Proposals:
    """What the search found.

    Attributes
    ----------
    best
        At most three, each with a nose or shoulders of another size, the cheapest first.
    fell_out
        Why the others did, the commonest reason first.
    nearest
        Where none was found.
    tried, planned
        Candidates looked at, and plans made.
    untried
        What the time did not reach; ``None`` where everything was decided.
    lower
        What does at a lower relief; ``None`` where something does at the one that is set, or
        nothing was found for a lower one.
    stopped
        Lower relief at which the time ran out [MPa]: at every setting above it nothing does;
        ``None`` where all of them were decided, or none was tried.
    """

    best: tuple[Proposed, ...]
    fell_out: tuple[FellOut, ...]
    nearest: NearMiss | None
    tried: int
    planned: int
    untried: Untried | None = None
    lower: LowerRelief | None = None
    stopped: float | None = None
