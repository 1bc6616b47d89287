"""Propose a tooling from a rack for a family of parts: cheapest first, every check held.

Candidates are every choice of nose, shoulders, carriers, push plate and body from the rack with
every round opening.  Their cost does not depend on any plan, so they are taken in the order of
cost; cheap tests and checks that failed once take out whole groups; what is left is planned and
checked in full.  The first that pass are therefore the best, which the tests hold against trying
everything.  Other ways of holding (a nose on a web or out of one carrier, cheeks tied by side
plates) are tried for pairs of nose and shoulders for which the usual way does not do.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import product

from attrs import evolve

from strapwright.bending.cross_checks import customary_opening
from strapwright.bending.hydraulics import most_force
from strapwright.blank.trimmed_ends import left_long
from strapwright.catalog.steels import find_steel
from strapwright.cutting.saw_allowance import saw_allowance
from strapwright.cutting.stock_pieces import pieces_needed, price_of
from strapwright.errors import InputError, in_file, key_of
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.plate_values import Cutter
from strapwright.proposing.candidate_line import BEST, Found, Line, Progress
from strapwright.proposing.candidate_sizes import (
    cuts_of,
    fitting,
    kept_plate,
    layout_of,
    stock_of,
    widest_bars,
)
from strapwright.proposing.cheap_tests import Passed
from strapwright.proposing.drawn_candidates import DrawingBoard
from strapwright.proposing.found_values import LowerRelief, NearMiss, Proposals, Untried
from strapwright.proposing.judging_candidates import Candidate, Judge
from strapwright.proposing.least_making import LeastMaking
from strapwright.proposing.lower_relief import Tried, highest_relief
from strapwright.proposing.miss_values import (
    Miss,
    NoPlate,
    TooFewPieces,
    WeldsToKept,
)
from strapwright.proposing.proposal_values import Choice
from strapwright.proposing.rejections import Rejections
from strapwright.proposing.solved_pairs import Solved, solved_by_bending
from strapwright.proposing.trade_offs import with_trade_offs
from strapwright.shop.crib import Saw
from strapwright.shop.job import Job
from strapwright.shop.on_kept_plates import on_kept_plates
from strapwright.shop.rack import Rack, Stock
from strapwright.shop.tooling import Held

Spent = Callable[[], float]


# Ways of holding nose and shoulders: the usual one first, the others where it does not do.
USUAL: tuple[tuple[Held, bool], ...] = (("both ends", False),)
OTHERS: tuple[tuple[Held, bool], ...] = (
    ("both ends", True),
    ("web", False),
    ("web", True),
    ("one end", False),
    ("one end", True),
)


# Ways of holding, and the shares of the time after which the heaviest of them are tried, and the
# next; numerical.
_SHARES = ((USUAL, 0.6, 0.7), (OTHERS, 0.85, 1.0))


def _no_clock() -> float:
    return 0.0


def propose(
    jobs: Sequence[Job],
    rack: Rack,
    progress: Progress | None = None,
    *,
    prune: bool = True,
    cutters: Sequence[Cutter] | None = None,
    saws: Sequence[Saw] = (),
    spent: Spent = _no_clock,
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
    cutters
        Of the crib; a usual set where not given.
    saws
        Of the crib; their kerf is counted with every cut.
    spent
        Share of the time given that has gone; once it is 1 the best found so far is given back.

    Raises
    ------
    InputError
        Where no press, bore or relief is stated, the rack has no shaft or no plate, or the crib
        cuts nothing.
    """
    jobs, force = _ready(jobs, rack)
    told = progress or _silent
    crib = usual_cutters() if cutters is None else tuple(cutters)
    board, making = DrawingBoard(jobs, crib), LeastMaking(jobs[0].units, crib)
    judge = Judge(jobs, stock_of(rack, ("plate", "flat")), Rejections(), prune=prune)
    allowance = saw_allowance(saws)
    solved = solved_by_bending(jobs, rack, force, judge.rejections, told)
    found = Found(told)
    tried, left, least = 0, 0, None
    for ways, cheap, heavy in _SHARES:
        if spent() >= 1.0:
            left += len(solved) * len(ways)
            least = None
            break
        candidates = list(
            _candidates(solved, rack, judge, making, ways, allowance=allowance, told=told)
        )
        tried += len(candidates)
        line = Line(candidates, judge, board, rack.hour_rate)
        line.cheapest_first(found, lambda end=cheap: spent() < end)  # type: ignore[misc]
        if line.line and not found.best:
            line.heaviest_first(found, lambda end=heavy: spent() < end)  # type: ignore[misc]
        if len(found.best) >= BEST:
            break
        if line.least is not None:
            left += len(line.line)
            least = line.least if least is None else min(least, line.least)
    best = found.cheapest()
    near = judge.rejections.nearest
    lower = stopped = None
    if not best and judge.held > 0.0 and spent() < 1.0:
        told("lower relief", 0, 1)
        lowered = _Lowered(
            jobs, rack, solved, making, board=board, allowance=allowance, spent=spent
        )
        lower = lowered.highest(judge.held, None if near is None else near[2])
        stopped = lowered.stopped
    return Proposals(
        best=with_trade_offs(best),
        fell_out=judge.rejections.reasons(),
        nearest=None if best or near is None else near[2],
        tried=tried,
        planned=judge.planner.planned_parts,
        untried=Untried(count=left, least=least) if left else None,
        lower=lower,
        stopped=stopped,
    )


class _Lowered:
    """Searches the same rack at lower settings of the relief valve.

    Every way of holding is tried from the start; what is listed once serves every setting.
    """

    def __init__(
        self,
        jobs: Sequence[Job],
        rack: Rack,
        solved: Sequence[Solved],
        making: LeastMaking,
        board: DrawingBoard,
        allowance: float,
        spent: Spent,
    ) -> None:
        self.jobs, self.rack, self.board, self.spent = jobs, rack, board, spent
        self.plates = stock_of(rack, ("plate", "flat"))
        self.stopped: float | None = None
        every = Judge(jobs, self.plates, Rejections(), prune=False)
        ways = (*USUAL, *OTHERS)
        self.listed = list(
            _candidates(solved, rack, every, making, ways, allowance=allowance, told=_silent)
        )

    def highest(self, share: float, near: NearMiss | None) -> LowerRelief | None:
        """Return what does at the highest setting, from a share of relief down."""
        press = self.jobs[0].press
        if press is None or press.relief is None:
            return None
        return highest_relief(
            self.at, relief=press.relief, share=share, units=self.jobs[0].units, near=near
        )

    def at(self, relief: float) -> Tried | None:
        """Search at a relief [MPa]; ``None`` where no bend can be made, or the time is over."""
        press = self.jobs[0].press
        if press is None or press.bore is None:
            return None
        if self.spent() >= 1.0:
            self.stopped = relief
            return None
        lower = evolve(press, relief=relief)
        force = most_force(relief, press.bore, press.efficiency, press.no_load)
        strong = [one for one in self.listed if one.passed.force <= force]
        if not strong:
            return None
        jobs = [evolve(job, press=lower) for job in self.jobs]
        judge = Judge(jobs, self.plates, Rejections(), prune=True)
        found = Found(_silent)
        line = Line(strong, judge, self.board, self.rack.hour_rate, enough=1)
        line.cheapest_first(found, lambda: self.spent() < 1.0)
        if line.line and not found.best:  # the time is over
            self.stopped = relief
            return None
        return Tried(proposed=found.best[0] if found.best else None, share=judge.held)


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
            "bore and relief are needed to check tooling against what the ram gives",
            f"enter {key_of('press.bore')} and {key_of('press.relief')} in the first job",
        )
    for kinds, words in ((("shaft",), "shaft"), (("plate", "flat"), "plate or flat")):
        if not stock_of(rack, kinds):
            raise InputError(
                "stock",
                f"the rack has no {words}",
                in_file(f'add a piece of kind = "{kinds[0]}"'),
            )
    for job in jobs:
        if not job.part.bends:
            raise InputError("part.shape", f"{job.part.name} has no bend", "name a part with one")
    force = most_force(press.relief, press.bore, press.efficiency, press.no_load)
    # On the tooling lies the part as it is bent, with what is sawn off after.
    return [
        evolve(
            job,
            press=press,
            part=left_long(job.part),
            tooling=job.tooling
            if job is jobs[0]
            else on_kept_plates(job.tooling, press, job.units),
        )
        for job in jobs
    ], force


def _candidates(
    solved: Sequence[Solved],
    rack: Rack,
    judge: Judge,
    making: LeastMaking,
    ways: Sequence[tuple[Held, bool]],
    allowance: float,
    told: Progress,
) -> Iterator[Candidate]:
    """Every choice of plates and way of holding for what the solver lets pass."""
    jobs, plates = judge.jobs, stock_of(rack, ("plate", "flat"))
    custom = customary_opening(widest_bars(jobs)[1])
    there = _kept_stock(jobs)
    number = 0
    pairs = [(one, stock) for one in solved for stock in one.shoulders]
    for done, ((one, stock), (held, tied)) in enumerate(product(pairs, ways)):
        told("listed", number, 0)
        told("listing", done, len(pairs) * len(ways))
        if one.edge and tied:  # blocks stand on a base, which ties them
            continue
        sample = Choice(
            nose=one.nose,
            shoulders=stock,
            edge=one.edge,
            carriers=plates[0],
            push_plate=plates[0],
            body=plates[0],
            opening=one.opening,
            held=held,
            tied=tied,
            kept=there is not None,
        )
        if there is not None:
            sample = evolve(sample, push_plate=there)
            if held != "both ends":
                judge.rejections.note(3, Miss(lack=WeldsToKept(choice=sample)), sample)
                continue
        fits = fitting(plates, sample, one.passed.need, jobs, allowance)
        bodies = tuple(
            body for body in fits[2] if judge.stands(evolve(sample, body=body), one.passed)
        )
        if there is not None:
            fits = (fits[0], (there,), fits[2])
        if not all(fits):
            judge.rejections.note(3, Miss(lack=NoPlate(choice=sample)), sample)
        for trio in product(*fits[:2], bodies):
            choice = evolve(sample, carriers=trio[0], push_plate=trio[1], body=trio[2])
            number += 1
            layout = layout_of(choice, one.passed.need, jobs)
            cuts = cuts_of(choice, one.passed.need, layout, jobs[0].units)
            pieces = pieces_needed(cuts, allowance)
            if pieces is None:
                judge.rejections.note(3, Miss(lack=TooFewPieces(choice=choice)), choice)
                continue
            off = abs(one.opening - custom)
            least = making.hours(choice, layout, cuts, one.passed.need.reach)
            yield _priced(choice, one.passed, price_of(pieces), least, rack, (off, number))


def _kept_stock(jobs: Sequence[Job]) -> Stock | None:
    """The push plate that stays on the press, as a piece that costs nothing."""
    plate = kept_plate(jobs)
    if plate is None:
        return None
    return Stock(
        name=plate.name or "push plate",
        kind="plate",
        thickness=plate.thickness,
        width=plate.width,
        length=plate.length,
        count=1,
        material=plate.material,
        price=0.0,
        origin="rack",
    )


def _priced(
    choice: Choice,
    passed: Passed,
    material: float,
    least: float,
    rack: Rack,
    place: tuple[float, int],
) -> Candidate:
    off, number = place
    brittle = sum(
        find_steel(one.material, "stock").brittle for one in (choice.nose, choice.shoulders)
    )
    return Candidate(
        choice=choice,
        passed=passed,
        material=material,
        cost=material + least * rack.hour_rate,
        # Among equals the opening nearest to eight thicknesses, then what cannot shatter, then the
        # order of the rack.
        rank=(round(off, 6), brittle, number),
    )
