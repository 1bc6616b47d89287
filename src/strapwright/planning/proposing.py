"""Propose a tooling from a rack for a family of parts: cheapest first, every check held.

Candidates are every choice of nose, shoulders, carriers, push plate and body from the rack with
every round opening.  Their cost does not depend on any plan, so they are taken in the order of
cost; cheap tests and checks that failed once take out whole groups; what is left is planned and
checked in full.  The first that pass are therefore the best, which the tests hold against trying
everything.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import product

from attrs import evolve, frozen

from strapwright.bending.cross_checks import customary_opening
from strapwright.bending.hydraulics import most_force
from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.planning.candidates import (
    cuts_of,
    fitting,
    hours_of,
    openings,
    pieces_needed,
    stock_of,
    tooling_of,
    widest_bars,
)
from strapwright.planning.cheap_tests import Miss, Passed, nose_miss, opening_limits, solve_all
from strapwright.planning.plan import plan
from strapwright.planning.proposal_values import (
    Choice,
    FellOut,
    NearMiss,
    Proposals,
    Proposed,
)
from strapwright.planning.setups import known_bar
from strapwright.planning.strength import assess, bench_of
from strapwright.planning.trade_offs import with_trade_offs
from strapwright.planning.values import Plan
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack, Stock
from strapwright.toolmaking.checking import check_members
from strapwright.toolmaking.loads import push_loads, retract_load
from strapwright.toolmaking.values import Bench, Check, Unchecked

Progress = Callable[[str, int, int], None]

BEST = 3
# What a plan may say of a proposed tooling without falling out are notes and other warnings.
STOPPING = frozenset(
    {
        "stop-unreachable",
        "ease-off-below-band",
        "press-too-weak",
        "near-jam",
        "bottoms-before-angle",
        "radius-too-small",
        "coming-off-too-close",
        "draw-the-nose",
    }
)
# Members that a proposal makes; the press's own may be unstated, and are then listed.
MADE = ("nose", "carriers", "push plate", "shoulders", "die body", "weld of")


@frozen(kw_only=True)
class Candidate:
    """One choice with what is known of it before any plan."""

    choice: Choice
    passed: Passed
    material: float
    hours: float
    cost: float
    key: tuple[float, float, int, int]


class _Ledger:
    """Why things fell out, and the nearest miss."""

    def __init__(self) -> None:
        self.counts: Counter[str] = Counter()
        self.examples: dict[str, str] = {}
        self.nearest: tuple[int, float, NearMiss] | None = None

    def note(self, stage: int, miss: Miss, choice: Choice | None = None, count: int = 1) -> None:
        """Count a miss; the later its stage and the smaller its excess, the nearer it came."""
        self.counts[miss.reason] += count
        self.examples.setdefault(miss.reason, miss.text)
        over = float("inf") if miss.over is None else miss.over
        if self.nearest is None or (-stage, over) < self.nearest[:2]:
            near = NearMiss(choice=choice, text=miss.text, over=miss.over)
            self.nearest = (-stage, over, near)

    def reasons(self) -> tuple[FellOut, ...]:
        """Reasons, the commonest first."""
        return tuple(
            FellOut(reason=reason, count=count, example=self.examples[reason])
            for reason, count in self.counts.most_common()
        )


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
    ledger = _Ledger()
    told = progress or _silent
    candidates = sorted(_candidates(jobs, rack, force, ledger, told), key=lambda one: one.key)
    search = _Search(jobs, ledger, prune=prune)
    best: list[Proposed] = []
    pairs: set[tuple[float, float]] = set()
    for number, candidate in enumerate(candidates):
        pair = (candidate.choice.nose.thickness, candidate.choice.shoulders.thickness)
        if pair in pairs and prune:
            continue
        if number % 200 == 0:
            told("checking", number, len(candidates))
        proposed = search.judged(candidate)
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
        planned=search.planned,
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
    jobs: Sequence[Job], rack: Rack, force: float, ledger: _Ledger, told: Progress
) -> Iterator[Candidate]:
    """Every candidate that cheap tests leave."""
    shafts, plates = stock_of(rack, ("shaft",)), stock_of(rack, ("plate", "flat"))
    known = [known_bar(job) for job in jobs]
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
                if not all(fits):
                    text = f"{_named(sample)}: no plate is large enough for a member"
                    miss = Miss(reason="the stock is too small", over=None, text=text)
                    ledger.note(3, miss, sample)
                for trio in product(*fits):
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


class _Search:
    """Judges candidates; what failed once is not tried again."""

    def __init__(self, jobs: Sequence[Job], ledger: _Ledger, *, prune: bool) -> None:
        self.jobs = jobs
        self.ledger = ledger
        self.prune = prune
        self.planned = 0
        self.failed: set[tuple[object, ...]] = set()
        self.plans: dict[
            tuple[Stock, Stock, float], dict[tuple[float, float], tuple[Plan, ...] | Miss]
        ] = {}

    def judged(self, candidate: Candidate) -> Proposed | None:
        """Return the proposal a candidate makes, or ``None`` with its reason noted."""
        choice = candidate.choice
        if self.prune and any(group in self.failed for group in _groups(choice)):
            return None
        tooling = tooling_of(choice, candidate.passed.need, self.jobs)
        if self.prune and self._fails(choice, self._early_bench(candidate), 4):
            return None
        plans = self._planned(candidate)
        if isinstance(plans, Miss):
            self.ledger.note(5, plans, choice)
            return None
        bench = bench_of(plans, tooling, self.jobs[0].press)
        if self._fails(choice, bench, 6):
            return None
        assessment = assess(bench, self.jobs[0].units)
        refused = [one for one in assessment.findings if one.severity == Severity.REFUSAL]
        if refused:
            miss = Miss(
                reason=f"the check finds {refused[0].code}",
                over=None,
                text=f"{_named(choice)}: {refused[0].text}",
            )
            self.ledger.note(6, miss, choice)
            return None
        return Proposed(
            choice=choice,
            tooling=tooling,
            cuts=cuts_of(choice, candidate.passed.need, self.jobs),
            material=candidate.material,
            hours=candidate.hours,
            cost=candidate.cost,
            plans=plans,
            assessment=assessment,
        )

    def _early_bench(self, candidate: Candidate) -> Bench:
        """Loads at relief, and of the solver's own strokes, which no plan goes below."""
        jobs = self.jobs
        tooling = tooling_of(candidate.choice, candidate.passed.need, jobs)
        width, thickness = widest_bars(jobs)
        return Bench(
            tooling=tooling,
            press=jobs[0].press,
            thickness=thickness,
            width=min(job.part.bar.width * job.part.at_once for job in jobs),
            widest=width,
            pushes=push_loads(
                peak=candidate.passed.force,
                outward=0.0,
                steepest=candidate.passed.slope,
                press=jobs[0].press,
                friction=tooling.friction,
                off_centre=0.0 if tooling.members is None else tooling.members.off_centre,
            ),
            retract=retract_load(jobs[0].press),
        )

    def _fails(self, choice: Choice, bench: Bench, stage: int) -> bool:
        checks, unchecked = check_members(bench)
        weak = [check for check in checks if not check.holds]
        # Nothing that the proposal itself makes may be left unchecked.
        blind = [one for one in unchecked if _made(one)]
        groups = dict(zip(_GROUPS, _groups(choice), strict=True))
        for check in weak:
            self.failed.add(groups[_group_of(check.member)])
        if blind:
            self.ledger.note(
                stage, Miss(reason="a member cannot be checked", over=None, text=blind[0].sentence)
            )
            return True
        if not weak:
            return False
        worst = weak[0]
        self.ledger.note(
            stage,
            Miss(
                reason=f"{worst.member}, {worst.what}, is too weak",
                over=worst.ratio,
                text=f"{_named(choice)}: {worst.member}, {worst.what}, {worst.load_case} at "
                f"{100 * worst.ratio:.0f} % of what is allowed",
            ),
            choice,
        )
        return True

    def _planned(self, candidate: Candidate) -> tuple[Plan, ...] | Miss:
        """Plans of all parts; what a smaller body and plate are in the way of, a larger is too."""
        choice = candidate.choice
        three = (choice.nose, choice.shoulders, choice.opening)
        sizes = (choice.push_plate.thickness, choice.body.thickness)
        known = self.plans.setdefault(three, {})
        if sizes not in known:
            for smaller, said in known.items():
                fewer = smaller[0] <= sizes[0] and smaller[1] <= sizes[1]
                if self.prune and isinstance(said, Miss) and fewer:
                    return said
            known[sizes] = self._plan_all(candidate)
        return known[sizes]

    def _plan_all(self, candidate: Candidate) -> tuple[Plan, ...] | Miss:
        tooling = tooling_of(candidate.choice, candidate.passed.need, self.jobs)
        made = []
        for job in self.jobs:
            self.planned += 1
            name = f"{_named(candidate.choice)}, {job.part.name}"
            try:
                one = plan(evolve(job, tooling=tooling))
            except InputError as error:
                return Miss(
                    reason="a part cannot be planned", over=None, text=f"{name}: {error.problem}"
                )
            for finding in one.findings:
                if finding.severity == Severity.REFUSAL or finding.code in STOPPING:
                    return Miss(
                        reason=f"the plan finds {finding.code}",
                        over=None,
                        text=f"{name}: {finding.text}",
                    )
            made.append(one)
        return tuple(made)


_GROUPS = ("nose", "carriers", "push plate", "die body", "press")


def _groups(choice: Choice) -> tuple[tuple[object, ...], ...]:
    """What each member depends on, in the order of ``_GROUPS``."""
    three = (choice.nose, choice.shoulders, choice.opening)
    return (
        ("nose", *three, choice.carriers),
        ("carriers", *three, choice.carriers, choice.push_plate),
        ("push plate", *three, choice.carriers, choice.push_plate),
        ("die body", *three, choice.body),
        ("press",),
    )


def _group_of(member: str) -> str:
    """Group of choices that a member's checks follow from; the press's own fail with any choice."""
    if member in {"nose", "push plate"}:
        return member
    if member in {"carriers", "weld of the carriers"}:
        return "carriers"
    return "die body" if member.startswith(MADE) else "press"


def _made(one: Check | Unchecked) -> bool:
    return one.member.startswith(MADE)


def _named(choice: Choice) -> str:
    return (
        f"nose {choice.nose.name}, shoulders {choice.shoulders.name}, opening "
        f"{choice.opening:.0f} mm ({choice.opening / 25.4:.2f} in)"
    )
