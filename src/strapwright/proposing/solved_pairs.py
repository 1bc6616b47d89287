"""What bends the parts at all: noses, shoulders and openings that the solver lets pass."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from strapwright.planning.bend_setups import known_bar
from strapwright.proposing.block_shoulders import bars_for, edges
from strapwright.proposing.candidate_line import Progress
from strapwright.proposing.candidate_sizes import openings, stock_of
from strapwright.proposing.cheap_tests import Passed, nose_miss, opening_limits, solve_all
from strapwright.proposing.miss_values import Miss, NoOpening
from strapwright.proposing.proposal_values import Shoulder
from strapwright.proposing.rejections import Rejections
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack, Stock


@frozen(kw_only=True)
class Solved:
    """A nose, shoulders and opening that the solver lets pass.

    Attributes
    ----------
    nose, opening, passed
        As of :class:`Choice`, and what the solver says.
    shoulders
        A shaft, or every bar that blocks with an edge may be cut from.
    edge
        Its radius; 0 for rounds [mm].
    """

    nose: Stock
    shoulders: tuple[Stock, ...]
    opening: float
    passed: Passed
    edge: float = 0.0


def solved_by_bending(
    jobs: Sequence[Job], rack: Rack, force: float, rejections: Rejections, told: Progress
) -> list[Solved]:
    """Return every nose, shoulders and opening that cheap tests leave.

    Parameters
    ----------
    jobs, rack
        As for the search.
    force
        At relief [N].
    rejections
        Takes what falls out.
    told
        Called with a word, how far and of how many.
    """
    shafts = stock_of(rack, ("shaft",))
    known = [known_bar(job) for job in jobs]
    found: list[Solved] = []
    bent_over = list(_shoulders(rack, jobs))
    tried = 0
    for done, nose in enumerate(shafts):
        told("bending", done, len(shafts))
        miss = nose_miss(nose, jobs, known)
        if miss is not None:
            rejections.note(0, miss)
            continue
        for shoulders, stock, edge in bent_over:
            told("openings", tried, 0)
            told("bending", done, len(shafts))
            least, most = opening_limits(nose, shoulders, jobs)
            round_ones = list(openings(least, most, inch=jobs[0].units == "inch"))
            if not round_ones:
                none = NoOpening(nose=nose.name, shoulders=shoulders, least=least, most=most)
                rejections.note(1, Miss(lack=none, over=least / most))
            for opening in round_ones:
                tried += 1
                passed = solve_all(nose, shoulders, opening, jobs, force)
                if isinstance(passed, Miss):
                    rejections.note(2, passed)
                else:
                    found.append(
                        Solved(
                            nose=nose, shoulders=stock, opening=opening, passed=passed, edge=edge
                        )
                    )
    told("openings", tried, 0)
    told("bending", len(shafts), len(shafts))
    return found


def _shoulders(
    rack: Rack, jobs: Sequence[Job]
) -> Iterator[tuple[Shoulder, tuple[Stock, ...], float]]:
    """Rounds, then blocks of each edge: as they bend, what they are cut from, and the edge [mm]."""
    for shaft in stock_of(rack, ("shaft",)):
        yield Shoulder(name=shaft.name, radius=shaft.thickness / 2), (shaft,), 0.0
    for edge in edges(jobs):
        bars = bars_for(rack, edge)
        if bars:
            yield Shoulder(name="", radius=edge), bars, edge
