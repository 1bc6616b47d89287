"""What a search for a tooling gives back."""

from __future__ import annotations

from attrs import frozen

from strapwright.cutting.cut_list import Cut
from strapwright.findings import Finding
from strapwright.planning.plan_values import Plan
from strapwright.shop.rack import Stock
from strapwright.shop.tooling import Held, Tooling
from strapwright.strength.check_values import Assessment


@frozen(kw_only=True)
class Choice:
    """What a candidate is made from, and how wide it is opened.

    Attributes
    ----------
    nose, shoulders, carriers, push_plate, body
        Stock of each; ``carriers`` gives the web where the nose is held by it, ``body`` cheeks and
        floor, or cheeks and side plates.
    opening
        Centre to centre [mm].
    held
        How the nose is held.
    tied
        Whether two side plates, bolted across the ends of the cheeks, tie them in place of a floor
        that they are welded to.
    """

    nose: Stock
    shoulders: Stock
    carriers: Stock
    push_plate: Stock
    body: Stock
    opening: float
    held: Held = "both ends"
    tied: bool = False


@frozen(kw_only=True)
class Proposed:
    """One tooling that does every part.

    Attributes
    ----------
    tooling
        With its members.
    cuts
        Its cut list.
    material, hours, cost
        Money for new material, hours of making, and both in the rack's money.
    plans
        Of each part on it, in the order given.
    assessment
        Of its members under the worst of them.
    gives_up
        What it gives up against the other two, sentences.
    bolts
        To lay ready, one clause each; from the drawer, not priced.
    ways
        What the crib has no cutter for, with the way round that the hours count, one clause each.
    """

    choice: Choice
    tooling: Tooling
    cuts: tuple[Cut, ...]
    material: float
    hours: float
    cost: float
    plans: tuple[Plan, ...]
    assessment: Assessment
    gives_up: tuple[str, ...] = ()
    bolts: tuple[str, ...] = ()
    ways: tuple[str, ...] = ()


@frozen(kw_only=True)
class FellOut:
    """Why candidates fell out.

    Attributes
    ----------
    reason
        One clause.
    count
        How many fell out for it first.
    example
        One of them with its figures, or whose plan or check refuses it.
    finding
        What refuses it, where that is a finding.
    """

    reason: str
    count: int
    example: str
    finding: Finding | None = None


@frozen(kw_only=True)
class NearMiss:
    """The candidate that came nearest.

    Attributes
    ----------
    choice
        What it is made from; ``None`` where nothing could be put together.
    text
        What it lacks, one sentence.
    over
        How far it is over the limit, as a ratio; ``None`` where that is no number [-].
    finding
        What refuses it, where that is a finding.
    """

    choice: Choice | None
    text: str
    over: float | None
    finding: Finding | None = None


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
    """

    best: tuple[Proposed, ...]
    fell_out: tuple[FellOut, ...]
    nearest: NearMiss | None
    tried: int
    planned: int
