"""Find what makes a refused part: each figure by planning the whole job, none that was not planned.

Along a quantity the plan may say yes and no more than once, so it is asked at a few values over the
whole range, nearest first; between the last that fails and the first that makes the part the limit
is halved out to one step of the shop.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from attrs import evolve, field, frozen

from strapwright.errors import InputError, SolverError
from strapwright.findings import Severity
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Change, Remedies, Remedy, Tried
from strapwright.remedies.levers import Lever
from strapwright.remedies.named_tooling import named_tooling_levers
from strapwright.remedies.obstructions import closes_on_itself, is_refused, obstructions
from strapwright.remedies.part_levers import leg_levers, part_ways, trim_levers
from strapwright.remedies.quick_look import reaches
from strapwright.remedies.tooling_levers import AGAINST
from strapwright.shop.job import Job

KeepGoing = Callable[[], bool]
Told = Callable[[int], None]

_LOOKS = 5  # values over a range
_PAIR_LOOKS = 3
_ENOUGH = 4  # remedies of one change
_ENOUGH_PAIRS = 2
# Warnings that come with the angle, the pump, the way, the nose or other tooling, whatever is
# changed.
_WITH_THE_ANGLE = frozenset(
    {
        "too-fast-to-stop",
        "past-proven-angle",
        "finish-not-proven",
        "clearance-off-middle",
        "other-tooling-unchecked",
    }
)


class _TimeOut(Exception):  # noqa: N818 - no error, the end of the time given
    """The time given is over."""


@frozen(kw_only=True)
class _Asked:
    """Plans of changed jobs, each made once; what is in their way is looked for where it is asked.

    Attributes
    ----------
    warned
        Codes of what the job as it stands is warned of or refused for: a refusal that becomes a
        warning is the milder side of the same.
    """

    warned: frozenset[str]
    keep_going: KeepGoing
    progress: Told | None
    known: dict[Job, Plan | None] = field(factory=dict)
    explained: set[Job] = field(factory=set)

    def planned(self, job: Job, *, explain: bool = False) -> Plan | None:
        """Plan a job; ``None`` where it cannot be meant."""
        if job not in self.known or (explain and self._unexplained(job)):
            if not self.keep_going():
                raise _TimeOut
            try:
                made = plan(job, keep_going=self.keep_going, explain=explain)
            except (InputError, SolverError):
                made = None
            if not self.keep_going():
                raise _TimeOut  # what the plan says may be for want of time
            self.known[job] = made
            if explain:
                self.explained.add(job)
            if self.progress is not None:
                self.progress(len(self.known))
        return self.known[job]

    def _unexplained(self, job: Job) -> bool:
        made = self.known[job]
        return made is not None and is_refused(made) and job not in self.explained

    def makes(self, job: Job) -> bool:
        """Whether the part is made, with no warning that the job as it stands has not."""
        if not reaches(job):
            return False
        made = self.planned(job)
        if made is None or made.blank is None or is_refused(made):
            return False
        warned = {one.code for one in made.findings if one.severity == Severity.WARNING}
        return not warned - self.warned - _WITH_THE_ANGLE


def find_remedies(
    job: Job,
    refused: Plan,
    *,
    keep_going: KeepGoing,
    progress: Told | None = None,
) -> Remedies | None:
    """Find what would make a refused part.

    Parameters
    ----------
    job
        As stated.
    refused
        Its plan.
    keep_going
        Asked before and after every plan; once it says no, what is left is named as not tried.
    progress
        Told how many plans were made so far.

    Returns
    -------
    Remedies or None
        ``None`` where the plan is not refused, or the bar is too hard for any figure to help.
    """
    if not is_refused(refused) or any(one.code == "cracks-cold" for one in refused.findings):
        return None
    stands = (Severity.WARNING, Severity.REFUSAL)
    warned = {one.code for one in refused.findings if one.severity in stands}
    asked = _Asked(warned=frozenset(warned), keep_going=keep_going, progress=progress)
    levers = _levers(job, refused)
    found: list[Remedy] = []
    in_vain: list[Tried] = []
    for k, lever in enumerate(levers):
        if len(found) >= _ENOUGH:
            break
        try:
            change = _limit(asked, job, lever, _LOOKS)
        except _TimeOut:
            left = tuple(one.tried() for one in levers[k:])
            return Remedies(found=tuple(found), in_vain=tuple(in_vain), untried=left)
        if change is None:
            in_vain.append(lever.tried())
        else:
            found.append(_remedy(asked, (change,), lever.put(job, change.new)))
    if any(_keeps_part(one) for one in found):
        return Remedies(found=tuple(found), in_vain=tuple(in_vain), untried=())
    pairs: list[Remedy] = []
    ended: Literal["tried", "time ran out"] = "tried"
    try:
        _find_pairs(asked, job, levers, pairs)
    except _TimeOut:
        ended = "time ran out"
    return Remedies(found=(*pairs, *found), in_vain=tuple(in_vain), untried=(), pairs=ended)


def _keeps_part(remedy: Remedy) -> bool:
    """Whether the finished part can stay as it is: no leg of it is changed."""
    return all(one.what != "leg" for one in remedy.changes)


def _levers(job: Job, refused: Plan) -> list[Lever]:
    """What may be changed against what stands against a job: what keeps the part goes first."""
    if closes_on_itself(refused):
        return []
    against = obstructions(refused)
    levers: dict[str, Lever] = {}
    if job.tooling is not None:
        for one in against:
            for name, make in AGAINST.get(one.kind, ()):
                lever = make(job, job.tooling)
                if lever is not None and lever.values() and name not in levers:
                    levers[name] = lever
    legs = sorted({leg for one in against for leg in one.legs})
    bends = sorted({one.bend for one in against if one.at_work and one.bend is not None})
    bends += [bend for one in against for bend in one.beside if bend not in bends]
    blocked = sorted({one.bend for one in against if one.bend is not None})
    return [
        *named_tooling_levers(job, blocked),
        *trim_levers(job, legs),
        *levers.values(),
        *part_ways(job, tuple(dict.fromkeys(bends))),
        *leg_levers(job, legs),
    ]


def _limit(asked: _Asked, job: Job, lever: Lever, looks: int) -> Change | None:
    """Nearest value of a quantity that makes the part, or ``None`` where none tried does."""
    values = lever.values()
    places = _spread(len(values), looks)
    fails = -1  # as it stands
    while places and not asked.makes(lever.put(job, values[places[0]])):
        fails = places.pop(0)
    if not places:
        return None
    first = _halved(asked, job, lever, fails, places[0])
    furthest = places.pop(0)
    while places and asked.makes(lever.put(job, values[places[0]])):
        furthest = places.pop(0)
    return lever.change(values[first], values[furthest])


def _halved(asked: _Asked, job: Job, lever: Lever, fails: int, makes: int) -> int:
    """Place of the first value that makes the part, between one that fails and one that makes."""
    values = lever.values()
    while makes - fails > 1:
        middle = (makes + fails) // 2
        if asked.makes(lever.put(job, values[middle])):
            makes = middle
        else:
            fails = middle
    return makes


def _spread(count: int, looks: int) -> list[int]:
    """Places over a range, closer together at its near end, the last among them."""
    last = count - 1
    places = [round(last * (k / max(looks - 1, 1)) ** 1.5) for k in range(looks)]
    return sorted(set(places)) if count else []


def _find_pairs(asked: _Asked, job: Job, levers: Sequence[Lever], found: list[Remedy]) -> None:
    """Change one quantity as far as something else stands in the way, then that too.

    What leaves the finished part as it is goes first.
    """
    against = _kinds(asked.planned(job, explain=True))
    for first in sorted(levers, key=lambda one: one.what == "leg"):
        values = first.values()
        places = _spread(len(values), _PAIR_LOOKS + 1)
        for place in places[1:] if len(places) > 1 else places:
            changed = first.put(job, values[place])
            refused = asked.planned(changed, explain=True)
            if refused is None or _kinds(refused) == against:
                continue
            for second in _levers(changed, refused):
                if (second.what, second.numbers) == (first.what, first.numbers):
                    continue
                change = _limit(asked, changed, second, _LOOKS)
                if change is None:
                    continue
                found.append(_pair(asked, job, first, place, second, change))
                if len(found) >= _ENOUGH_PAIRS:
                    return
            if any(_keeps_part(one) for one in found):
                return


def _kinds(planned: Plan | None) -> frozenset[str]:
    return frozenset() if planned is None else frozenset(one.kind for one in obstructions(planned))


def _pair(
    asked: _Asked, job: Job, first: Lever, place: int, second: Lever, change: Change
) -> Remedy:
    """Bring the first quantity back as far as the second, as found, allows."""
    values, others = first.values(), second.values()

    def both(at: int, other: float) -> Job:
        return second.put(first.put(job, values[at]), other)

    def put(one: Job, value: float) -> Job:
        return second.put(first.put(one, value), change.new)

    near = _halved(asked, job, evolve(first, put=put), -1, place)
    other = others.index(change.new)
    while other > 0 and asked.makes(both(near, others[other - 1])):
        other -= 1
    # Each was tried with the other at its figure, so neither may go further untried.
    figures = ((first, values[near]), (second, others[other]))
    changes = tuple(lever.change(figure, figure) for lever, figure in figures)
    return _remedy(asked, changes, both(near, others[other]))


def _remedy(asked: _Asked, changes: tuple[Change, ...], job: Job) -> Remedy:
    made = asked.planned(job)
    if made is None or made.blank is None:
        raise TypeError("a remedy is planned before it is offered")
    return Remedy(
        changes=changes,
        job=job,
        order=tuple(step.bend for step in made.steps),
        blank=made.blank.length,
    )
