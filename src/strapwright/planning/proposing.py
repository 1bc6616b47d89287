"""Propose a tooling from a rack for a family of parts: cheapest first, every check held.

Candidates are every choice of nose, shoulders, carriers, push plate and body from the rack with
every round opening.  Their cost does not depend on any plan, so they are taken in the order of
cost; cheap tests and checks that failed once take out whole groups; what is left is planned and
checked in full.  The first that pass are therefore the best, which the tests hold against trying
everything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import product

from attrs import evolve

from strapwright.bending.cross_checks import customary_opening
from strapwright.bending.hydraulics import most_force
from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError
from strapwright.planning.candidates import (
    cuts_of,
    fitting,
    hours_of,
    openings,
    pieces_needed,
    stock_of,
    widest_bars,
)
from strapwright.planning.cheap_tests import Miss, Passed, nose_miss, opening_limits, solve_all
from strapwright.planning.judging import Candidate, Judge, named
from strapwright.planning.ledger import Ledger
from strapwright.planning.proposal_values import (
    Choice,
    Proposals,
    Proposed,
)
from strapwright.planning.setups import known_bar
from strapwright.planning.trade_offs import with_trade_offs
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack

Progress = Callable[[str, int, int], None]

BEST = 3


def propose(
    jobs: Sequence[Job], rack: Rack, progress: Progress | None = None, *, prune: bool = True
) -> Proposals:
    """Propose at most three toolings, each with a nose or shoulders of another size.

    Parameters
    ----------
    jobs
        The parts to be made on it; press, and what the press's own members are, the first's.
    rack
        What it may be made from.
    progress
        Called with a word, how far and of how many.
    prune
        Whether groups are taken out by what failed once; without it every candidate is planned
        and checked in full, which gives the same and takes long.

    Raises
    ------
    InputError
        Where no press, bore or relief is stated, or the rack has no shaft or no plate.
    """
    jobs, force = _ready(jobs, rack)
    ledger = Ledger()
    told = progress or _silent
    judge = Judge(jobs, ledger, prune=prune)
    candidates = sorted(_candidates(jobs, rack, force, judge, told), key=lambda one: one.key)
    best: list[Proposed] = []
    pairs: set[tuple[float, float]] = set()
    for number, candidate in enumerate(candidates):
        pair = (candidate.choice.nose.thickness, candidate.choice.shoulders.thickness)
        if pair in pairs and prune:
            continue
        if number % 200 == 0:
            told("checking", number, len(candidates))
        proposed = judge.judged(candidate)
        if proposed is None or pair in pairs:
            continue
        pairs.add(pair)
        best.append(proposed)
        told("found", len(best), BEST)
        if len(best) == BEST and prune:
            break
    return Proposals(
        best=with_trade_offs(tuple(best[:BEST]), jobs[0].units),
        fell_out=ledger.reasons(),
        nearest=None if best or ledger.nearest is None else ledger.nearest[2],
        tried=len(candidates),
        planned=judge.planned,
    )


def _silent(word: str, done: int, whole: int) -> None:
    del word, done, whole


def _ready(jobs: Sequence[Job], rack: Rack) -> tuple[list[Job], float]:
    """Give every part the first one's press, and what it gives at relief [N]."""
    if not jobs:
        raise InputError("job", "no part is named", "name one job file or more")
    press = jobs[0].press
    if press is None or press.bore is None or press.relief is None:
        raise InputError(
            "press",
            "bore and relief are needed to hold a tooling to what the ram gives",
            "state press.bore and press.relief in the first job",
        )
    for kinds, words in ((("shaft",), "shaft"), (("plate", "flat"), "plate or flat")):
        if not stock_of(rack, kinds):
            raise InputError(
                "stock",
                f"the rack has no {words}",
                f'add a piece of kind = "{kinds[0]}"',
            )
    for job in jobs:
        if not job.part.bends:
            raise InputError("part.shape", f"{job.part.name} has no bend", "name a part with one")
    force = most_force(press.relief, press.bore, press.efficiency, press.no_load)
    return [evolve(job, press=press) for job in jobs], force


def _candidates(
    jobs: Sequence[Job], rack: Rack, force: float, judge: Judge, told: Progress
) -> Iterator[Candidate]:
    """Every candidate that cheap tests leave."""
    shafts, plates = stock_of(rack, ("shaft",)), stock_of(rack, ("plate", "flat"))
    known, ledger = [known_bar(job) for job in jobs], judge.ledger
    _, thickness = widest_bars(jobs)
    custom = customary_opening(thickness)
    number = 0
    for done, nose in enumerate(shafts):
        told("bending", done, len(shafts))
        miss = nose_miss(nose, jobs, known)
        if miss is not None:
            ledger.note(0, miss)
            continue
        for shoulders in shafts:
            least, most = opening_limits(nose, shoulders, jobs)
            found = list(openings(least, most, inch=jobs[0].units == "inch"))
            if not found:
                text = f"{nose.name} on {shoulders.name}: {least:.0f} mm to pass and not jam, "
                text += f"{most:.0f} mm by the shortest leg"
                ledger.note(
                    1, Miss(reason="no opening fits nose and legs", over=least / most, text=text)
                )
            for opening in found:
                passed = solve_all(nose, shoulders, opening, jobs, force)
                if isinstance(passed, Miss):
                    ledger.note(2, passed)
                    continue
                sample = Choice(
                    nose=nose,
                    shoulders=shoulders,
                    carriers=plates[0],
                    push_plate=plates[0],
                    body=plates[0],
                    opening=opening,
                )
                fits = fitting(plates, sample, passed.need, jobs)
                bodies = tuple(
                    one for one in fits[2] if judge.stands(evolve(sample, body=one), passed)
                )
                if not all(fits):
                    text = f"{named(sample)}: no plate is large enough for a member"
                    miss = Miss(reason="the stock is too small", over=None, text=text)
                    ledger.note(3, miss, sample)
                for trio in product(*fits[:2], bodies):
                    choice = evolve(sample, carriers=trio[0], push_plate=trio[1], body=trio[2])
                    number += 1
                    made = _priced(choice, passed, jobs, rack, abs(opening - custom), number)
                    if made is None:
                        text = f"{nose.name}, {', '.join(one.name for one in trio)}"
                        short = Miss(reason="the stock is too small", over=None, text=text)
                        ledger.note(3, short, choice)
                    else:
                        yield made


def _priced(
    choice: Choice, passed: Passed, jobs: Sequence[Job], rack: Rack, off: float, number: int
) -> Candidate | None:
    need = passed.need
    cuts = cuts_of(choice, need, jobs)
    pieces = pieces_needed(cuts)
    if pieces is None:
        return None
    material = sum(stock.price * count for stock, count in pieces.items())
    hours = hours_of(cuts, need.plate_width, cuts[1].length)
    cost = material + hours * rack.hour_rate
    brittle = sum(
        find_steel(one.material, "stock").brittle for one in (choice.nose, choice.shoulders)
    )
    return Candidate(
        choice=choice,
        passed=passed,
        material=material,
        hours=hours,
        cost=cost,
        # Among equals the opening nearest to eight thicknesses, then what cannot shatter, then the
        # order of the rack.
        key=(round(cost, 6), round(off, 6), brittle, number),
    )
