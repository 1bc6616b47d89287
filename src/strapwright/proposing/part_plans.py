"""Plans of a proposal's parts: what cannot be made on less is not planned on more."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from attrs import evolve

from strapwright.errors import InputError
from strapwright.findings import Severity
from strapwright.planning.order_findings import UNDECIDED
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.proposing.block_shoulders import carries_edge
from strapwright.proposing.candidate_sizes import WEB_LEAST, Need
from strapwright.proposing.candidate_tooling import tooling_of
from strapwright.proposing.miss_values import Miss, NotPlanned, PlanForbids
from strapwright.proposing.proposal_values import Choice
from strapwright.shop.job import Job
from strapwright.shop.rack import Stock
from strapwright.shop.tooling import Tooling

# What a plan may say of a proposed tooling without falling out are notes and other warnings.
STOPPING = frozenset(
    {
        "stop-unreachable",
        "ease-off-below-band",
        "press-too-weak",
        "tooling-too-weak",
        "near-jam",
        "bottoms-before-angle",
        "radius-too-small",
        *UNDECIDED,
        "draw-the-nose",
    }
)
Plans = tuple[Plan, ...] | Miss
_MISSES = 2  # of other plates, before less is asked for


class OutOfTime(Exception):  # noqa: N818  no error: the candidate waits on
    """The time went while a plan was made."""


class Planner:
    """Plans choices.

    Parameters
    ----------
    jobs
        The parts.
    plates
        What carriers, push plate and body may be cut from.
    prune
        Whether a choice is given up for what less of it could not do.

    Attributes
    ----------
    going
        Whether there is time left, asked while a plan is made.
    """

    def __init__(self, jobs: Sequence[Job], plates: Sequence[Stock], *, prune: bool) -> None:
        self.jobs = jobs
        self.prune = prune
        self.planned_parts = 0
        self.going: Callable[[], bool] = _always
        self.plates = sorted(plates, key=lambda one: one.thickness)
        self.known: dict[tuple[object, ...], dict[tuple[float, float, float], Plans]] = {}
        self.bare: dict[tuple[object, ...], bool] = {}

    def planned(self, choice: Choice, need: Need) -> Plans:
        """Return the plans of all parts, or why one cannot be made.

        What smaller body, plate and web are in the way of, larger are too.

        Parameters
        ----------
        choice, need
            Stock and sizes.

        Raises
        ------
        OutOfTime
            Where the time goes before a plan is made.
        """
        known = self.known.setdefault(_bends(choice), {})
        sizes = _sizes(choice)
        if sizes in known:
            return known[sizes]
        for smaller, said in known.items():
            fewer = all(one <= other for one, other in zip(smaller, sizes, strict=True))
            if self.prune and isinstance(said, Miss) and fewer:
                return said
        known[sizes] = self._plan_all(tooling_of(choice, need, self.jobs), choice)
        missed = sum(isinstance(one, Miss) for one in known.values())
        if not self.prune or not isinstance(known[sizes], Miss) or missed < _MISSES:
            return known[sizes]
        # Time to ask whether any plates, or any way of holding, would do.
        least = self._thinnest(choice)
        if not self._fails_bare(choice, need) and _sizes(least) not in known:
            tooling = tooling_of(least, need, self.jobs)
            known[_sizes(least)] = self._plan_all(tooling, choice)
        return known[sizes]

    def hopeless(self, choice: Choice) -> bool:
        """Whether nose and shoulders at this opening fail with nothing else about them.

        Parameters
        ----------
        choice
            That could not be planned.
        """
        return self.bare.get(_bends(choice)[:3], False)

    def _fails_bare(self, choice: Choice, need: Need) -> bool:
        """Plan once with nose and shoulders alone, which any way of holding only adds to."""
        three = _bends(choice)[:3]
        if three not in self.bare:
            tooling = tooling_of(choice, need, self.jobs)
            nose = evolve(tooling.nose, held="web", reach=None, web_thickness=None, web_height=None)
            alone = evolve(
                tooling,
                nose=nose,
                shoulders=evolve(tooling.shoulders, outer_edge=None),
                plate_width=None,
                plate_thickness=None,
                members=None,
            )
            self.bare[three] = isinstance(self._plan_all(alone, choice), Miss)
        return self.bare[three]

    def _thinnest(self, choice: Choice) -> Choice:
        thin = self.plates[0]
        web = choice.carriers
        if choice.held == "web":
            least = WEB_LEAST * choice.nose.thickness
            web = next(one for one in self.plates if one.thickness >= least)
        push_plate = choice.push_plate if choice.kept else thin
        shoulders = choice.shoulders
        if choice.edge:
            shoulders = next(one for one in self.plates if carries_edge(one, choice.edge))
        return evolve(choice, push_plate=push_plate, body=thin, carriers=web, shoulders=shoulders)

    def _keep_going(self) -> bool:
        """An order cut short is no answer: the plan ends, and its candidate waits on."""
        if not self.going():
            raise OutOfTime
        return True

    def _plan_all(self, tooling: Tooling, choice: Choice) -> Plans:
        made = []
        for job in self.jobs:
            self.planned_parts += 1
            part = job.part.name
            try:
                one = plan(evolve(job, tooling=tooling), rate=False, keep_going=self._keep_going)
            except InputError as error:
                return Miss(lack=NotPlanned(choice=choice, part=part, error=error))
            for finding in one.findings:
                if finding.severity == Severity.REFUSAL or finding.code in STOPPING:
                    return Miss(lack=PlanForbids(choice=choice, part=part, finding=finding))
            made.append(one)
        return tuple(made)


def _always() -> bool:
    return True


def _bends(choice: Choice) -> tuple[object, ...]:
    """What the bends of a part, their order and coming off depend on beside thicknesses."""
    return (choice.nose, choice.bends_over, choice.opening, choice.held)


def _sizes(choice: Choice) -> tuple[float, float, float]:
    web = choice.carriers.thickness if choice.held == "web" else 0.0
    # What stands out beside the bar: a cheek, or the block itself.
    beside = choice.shoulders if choice.edge else choice.body
    return choice.push_plate.thickness, beside.thickness, web
