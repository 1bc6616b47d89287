"""Judge one candidate of a proposal: what failed once is not tried again."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve, frozen

from strapwright.findings import Severity
from strapwright.planning.member_loads import assess, bench_of
from strapwright.proposing.candidate_sizes import cuts_of, layout_of, widest_bars
from strapwright.proposing.candidate_tooling import bolts_to_lay_ready, tooling_of
from strapwright.proposing.cheap_tests import Passed
from strapwright.proposing.drawn_candidates import Drawn
from strapwright.proposing.miss_values import CheckRefuses, MemberTooWeak, MemberUnchecked, Miss
from strapwright.proposing.part_plans import Planner
from strapwright.proposing.proposal_values import Choice, Proposed
from strapwright.proposing.rejections import Rejections
from strapwright.shop.job import Job
from strapwright.shop.member_names import BOLTS, WELDS, MemberName
from strapwright.shop.rack import Stock
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Bench, Check, Unchecked
from strapwright.strength.load_cases import push_loads, retract_load
from strapwright.strength.member_checks import check_members
from strapwright.strength.rating import share_of_load

# Members that a proposal makes; the press's own may be unstated, and are then listed.
MADE: frozenset[MemberName] = frozenset(
    {
        "nose", "carriers", "push plate", "shoulders", "die body", BOLTS["side plates"],
        BOLTS["carriers"],
        *WELDS.values(),
    }
)  # fmt: skip


@frozen(kw_only=True)
class Candidate:
    """One choice with what is known of it before any plan.

    Attributes
    ----------
    choice, passed
        What it is made from, and what the solver says of it.
    material, cost
        Money for new material, and with the hours; of one not drawn yet with the least hours.
    rank
        Among those of equal cost.
    drawn
        ``None`` until it is drawn.
    """

    choice: Choice
    passed: Passed
    material: float
    cost: float
    rank: tuple[float, int, int]
    drawn: Drawn | None = None

    @property
    def key(self) -> tuple[float, float, int, int, bool]:
        """Its place in line; no two have the same."""
        return (round(self.cost, 6), *self.rank, self.drawn is None)

    def drawn_at(self, drawn: Drawn, rate: float) -> Candidate:
        """Return the candidate as drawn; ``rate`` is money for an hour."""
        return evolve(self, drawn=drawn, cost=self.material + drawn.hours * rate)


# Of a limit: a drawing differs from its candidate by less than ``read_back.SAME``, which changes no
# ratio by more (numerical).
DRAWN_SLACK = 0.03
_RATED: frozenset[MemberName] = frozenset(
    {"frame", "hose", "fitting", "valve", "cylinder", "rod side", "gauge", "circuit"}
)


class Judge:
    """Plans and checks candidates.

    Attributes
    ----------
    held
        Share of relief above which every group that failed for strength still fails [-]; 0 where
        none failed, or less relief helps none.
    """

    def __init__(
        self,
        jobs: Sequence[Job],
        plates: Sequence[Stock],
        rejections: Rejections,
        *,
        prune: bool,
    ) -> None:
        self.jobs = jobs
        self.rejections = rejections
        self.prune = prune
        self.planner = Planner(jobs, plates, prune=prune)
        self.failed: set[tuple[object, ...]] = set()
        self.held = 0.0

    def judged(self, candidate: Candidate) -> Proposed | None:
        """Return the proposal a candidate makes, or ``None`` with its reason noted."""
        choice, drawn = candidate.choice, candidate.drawn
        if drawn is None or (self.prune and self.has_failed(choice)):
            return None
        tooling = drawn.tooling
        if self.prune and self._fails(choice, self._early_bench(tooling, candidate.passed), 4):
            return None
        plans = self.planner.planned(choice, candidate.passed.need)
        if isinstance(plans, Miss):
            # No other plates and no other way of holding help.
            if self.prune and self.planner.hopeless(choice):
                self.failed.add(_groups(choice)[_GROUPS.index("bends")])
            self.rejections.note(5, plans, choice)
            return None
        press = self.jobs[0].press
        if press is not None:
            press = evolve(press, push_plate=drawn.push_plate)
        bench = bench_of(plans, tooling, press)
        if self._fails(choice, bench, 6):
            return None
        assessment = assess(bench, self.jobs[0].units)
        refused = [one for one in assessment.findings if one.severity == Severity.REFUSAL]
        if refused:
            miss = Miss(lack=CheckRefuses(choice=choice, finding=refused[0]))
            self.rejections.note(6, miss, choice)
            return None
        need = candidate.passed.need
        layout = layout_of(choice, need, self.jobs)
        return Proposed(
            choice=choice,
            tooling=tooling,
            cuts=cuts_of(choice, need, layout, self.jobs[0].units),
            material=candidate.material,
            hours=drawn.hours,
            cost=candidate.cost,
            plans=plans,
            assessment=assessment,
            bolts=() if tooling.members is None else bolts_to_lay_ready(tooling.members),
            ways=drawn.ways,
        )

    def fails_early(self, candidate: Candidate) -> bool:
        """Whether a candidate fails for strength with the sizes it is to be drawn with.

        Drawings round some of them, by less than is allowed for here; so what stands as drawn is
        never given up. Without pruning nothing fails early.

        Parameters
        ----------
        candidate
            Not drawn yet.
        """
        if not self.prune:
            return False
        tooling = tooling_of(candidate.choice, candidate.passed.need, self.jobs)
        bench = self._early_bench(tooling, candidate.passed)
        return self._fails(candidate.choice, bench, 4, slack=DRAWN_SLACK)

    def has_failed(self, choice: Choice) -> bool:
        """Whether something that a choice shares with an earlier one has failed.

        Parameters
        ----------
        choice
            What is tried.
        """
        return any(group in self.failed for group in _groups(choice))

    def stands(self, choice: Choice, passed: Passed) -> bool:
        """Whether the body of a choice stands the wedge at relief; without pruning all do.

        Parameters
        ----------
        choice
            With any carriers and push plate.
        passed
            What the solver says of it.
        """
        # How far apart side plates stand depends on the carriers, which are not chosen yet.
        if not self.prune or (choice.tied and choice.held != "web"):
            return True
        tooling = tooling_of(choice, passed.need, self.jobs)
        self._fails(choice, self._early_bench(tooling, passed), 4, body=True)
        return _groups(choice)[_GROUPS.index("die body")] not in self.failed

    def _early_bench(self, tooling: Tooling, passed: Passed) -> Bench:
        """Loads at relief, and of the solver's own strokes, which no plan goes below."""
        jobs = self.jobs
        width, thickness = widest_bars(jobs)
        return Bench(
            tooling=tooling,
            press=jobs[0].press,
            thickness=thickness,
            width=min(job.part.bar.width * job.part.at_once for job in jobs),
            widest=width,
            pushes=push_loads(
                peak=passed.force,
                outward=0.0,
                steepest=passed.slope,
                press=jobs[0].press,
                friction=tooling.friction,
                off_centre=0.0 if tooling.members is None else tooling.members.off_centre,
            ),
            retract=retract_load(jobs[0].press),
        )

    def _fails(
        self, choice: Choice, bench: Bench, stage: int, *, body: bool = False, slack: float = 0.0
    ) -> bool:
        checks, unchecked = check_members(bench, body=body)
        weak = [check for check in checks if not check.holds and check.ratio > 1.0 + slack]
        # Nothing that the proposal itself makes may be left unchecked; drawings may add what is
        # to be checked.
        blind = [one for one in unchecked if one.carries and _made(one)] if not slack else []
        groups = dict(zip(_GROUPS, _groups(choice), strict=True))
        for check in weak:
            group = _group_of(check.member)
            # How far the press's own members are bent depends on the tooling; what its ratings say
            # does not.
            if group != "press" or check.member in _RATED:
                self.failed.add(groups[group])
        if blind:
            self.rejections.note(stage, Miss(lack=MemberUnchecked(unchecked=blind[0])))
            return True
        if not weak:
            return False
        # Of one group: what holds it back is its own weakest check.
        shares: dict[str, float] = {}
        for check in weak:
            group = _group_of(check.member)
            share = 0.0 if check.case == "plan" else share_of_load(check) or 0.0
            shares[group] = min(share, shares.get(group, 1.0))
        self.held = max(self.held, *shares.values())
        worst = weak[0]
        weakest = MemberTooWeak(choice=choice, check=worst)
        self.rejections.note(stage, Miss(lack=weakest, over=worst.ratio), choice)
        return True


_GROUPS = ("bends", "nose", "carriers", "push plate", "die body", "press")


def _groups(choice: Choice) -> tuple[tuple[object, ...], ...]:
    """What each member depends on, in the order of ``_GROUPS``."""
    bends = (choice.bends_over, choice.opening)
    three = (choice.nose, *bends, choice.held)
    # Between side plates the carriers come down, and shoulders end beside them.
    body = (choice.shoulders, choice.body, choice.carriers if choice.tied else None)
    return (
        ("bends", choice.nose, *bends),
        ("nose", *three, choice.carriers),
        ("carriers", *three, choice.carriers, choice.push_plate, choice.tied),
        # How wide the carriers are, which bend it across, depends on what they come down between.
        ("push plate", *three, choice.carriers, choice.push_plate, choice.tied),
        ("die body", *three, *body),
        ("press",),
    )


def _group_of(member: MemberName) -> str:
    """Group of choices that a member's checks follow from; the press's own fail with any choice."""
    if member in {"nose", "push plate"}:
        return member
    if member in {"carriers", BOLTS["carriers"], WELDS["carriers"], WELDS["web"], WELDS["nose"]}:
        return "carriers"
    return "die body" if member in MADE else "press"


def _made(one: Check | Unchecked) -> bool:
    return one.member in MADE
