"""What a first look at a job leaves open is searched beside its pages, and kept once found."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable
from functools import partial

from attrs import frozen

from strapwright.pages.long_work.attendance import somebody_waits
from strapwright.pages.long_work.found_orders import FoundOrders
from strapwright.pages.long_work.how_far import HowFar
from strapwright.pages.long_work.kept_plans import KeptPlans, Key
from strapwright.pages.long_work.order_worker import AskedOrder, AskedRemedies
from strapwright.pages.long_work.searching_on import SearchingOn, undecided
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.hits_and_stacks.ordered_bends import FoundOrder
from strapwright.planning.plan_values import Plan
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.obstructions import is_refused
from strapwright.remedies.search_figures import find_remedies
from strapwright.service.search_clock import (
    LONGER_SECONDS,
    REMEDY_SECONDS,
    SEARCH_SECONDS,
    first_look,
)
from strapwright.shop.job import Job
from strapwright.store import Store

_LOOK = 0.2  # s between looks whether the one who waits has left
_PATIENCE = 2.0 * SEARCH_SECONDS  # s that paper waits; a busy machine starts a search later


@frozen(kw_only=True)
class JobKey:
    """A job and what its plan is made from."""

    job: str
    key: Key


@frozen(kw_only=True)
class SoughtJob:
    """A job as it was read, and what its log says."""

    job: Job
    learned: LearnedJob | None


Read = Callable[[], SoughtJob]


class Seeking:
    """The searches of jobs; safe to use from several threads.

    Parameters
    ----------
    store
        Opened.
    plans
        Where a plan is kept that a search ended with.
    """

    def __init__(self, store: Store, plans: KeptPlans) -> None:
        self._plans = plans
        self._found = FoundOrders(store)
        self._searching = SearchingOn()
        self._ends: Counter[str] = Counter()

    def found_before(self, key: Key) -> FoundOrder | None:
        """Return the order that an earlier search found for what a plan is made from."""
        return self._found.of(key)

    def go_on(self, of: JobKey, read: Read) -> HowFar | None:
        """Search on for the order of a job where a look left it open; nobody has to ask for it.

        Parameters
        ----------
        of
            The job; nothing happens before it was planned.
        read
            Reads it.

        Returns
        -------
        HowFar or None
            How far the search is; ``None`` where none runs.
        """
        made = self._plans.kept(of.key)
        if made is not None and self._is_open(of, made):
            seconds = self._found.cut_off(of.job, of.key) or SEARCH_SECONDS
            self._begin(of, read, seconds)
        return self._searching.runs(of.key)

    def _is_open(self, of: JobKey, made: Plan) -> bool:
        """Whether nothing but the first look has looked for the order of a plan."""
        return (
            undecided(made)
            and not self._plans.is_improved(of.key)
            and not self._searching.said(of.job, of.key)
            and not self._found.is_over(of.key, made)
        )

    def longer(self, of: JobKey, read: Read) -> None:
        """Search for the order of a job for as long as a person asks for."""
        self._searching.forget(of.job)
        self._begin(of, read, LONGER_SECONDS)

    def _begin(self, of: JobKey, read: Read, seconds: float) -> None:
        if self._searching.runs(of.key) is not None:
            return
        sought = read()
        asked = AskedOrder(
            job=sought.job,
            learned=sought.learned,
            seconds=seconds,
            found_before=self.found_before(of.key),
        )
        self._found.begun(of.job, of.key, seconds)
        self._searching.begin(of.job, of.key, asked, partial(self._ended, of))

    def _ended(self, of: JobKey, made: Plan | None) -> None:
        found = made if made is not None and not is_refused(made) else None
        self._found.ended(of.job, of.key, found, proven=found is not None and proven(found))
        self._keep(of, made)

    def _keep(self, of: JobKey, made: Plan | None) -> None:
        if made is not None:
            self._plans.put(of.job, of.key, made)
        self._ends[of.job] += 1

    def runs(self, of: JobKey) -> HowFar | None:
        """Return how far the search for the order of a job is, ``None`` where none runs."""
        return self._searching.runs(of.key)

    def stop(self, of: JobKey) -> None:
        """End the search for the order of a job; it begins again when that is asked for."""
        if self._searching.stop(of.job, of.key):
            self._found.ended(of.job, of.key, None, proven=False)

    def said(self, of: JobKey) -> str:
        """Return why the last search for an order brought nothing; empty where it did."""
        return self._searching.said(of.job, of.key)

    def ends(self, job: str) -> int:
        """Return how many searches of a job have ended, so that its pages know of a new plan."""
        return self._ends[job]

    def wait(self, of: JobKey) -> None:
        """Wait for a search that runs for a job, but for none that a person asked to take long.

        Raises
        ------
        AbandonedError
            If the one who asks has left.
        """
        far, end = self.runs(of), time.monotonic() + _PATIENCE
        if far is None or far.most > SEARCH_SECONDS:
            return
        while time.monotonic() < end and not self._searching.ended_within(of.key, _LOOK):
            somebody_waits()

    def look(self, of: JobKey, read: Read) -> HowFar | None:
        """Look for what would make a refused part; what is found goes into its plan.

        Returns
        -------
        HowFar or None
            How far that is; ``None`` where it has ended, or there is nothing to look for.

        Raises
        ------
        AbandonedError
            If the one who asks has left.
        """
        made, name = self._plans.kept(of.key), ("remedies", of.job)
        wanted = made is not None and made.remedies is None and is_refused(made)
        if made is None or not wanted or self.looks_no_more(of) or self.runs(of) is not None:
            return None
        key = ("remedies", of.key)
        if self._searching.runs(key) is None:
            job, in_time = read().job, first_look()
            found = find_remedies(job, made, keep_going=lambda: somebody_waits() and in_time())
            if found is None or not (found.untried or found.pairs == "time ran out"):
                if found is not None:
                    self._plans.put(of.job, of.key, with_remedies(made, found))
                return None
            asked = AskedRemedies(job=job, made=made, seconds=REMEDY_SECONDS)
            self._searching.begin(name, key, asked, partial(self._keep, of))
        return self._searching.runs(key)

    def looks(self, of: JobKey) -> HowFar | None:
        """Return how far the search for what would make a part is, ``None`` where none runs."""
        return self._searching.runs(("remedies", of.key))

    def look_no_more(self, of: JobKey, *, again: bool = False) -> None:
        """End the search for what would make a part, or let one that was ended begin again."""
        if again:
            self._searching.forget(("remedies", of.job))
        else:
            self._searching.stop(("remedies", of.job), ("remedies", of.key))

    def looks_no_more(self, of: JobKey) -> bool:
        """Tell whether the search for what would make a part was stopped, or broke."""
        return bool(self._searching.said(("remedies", of.job), ("remedies", of.key)))


def proven(made: Plan) -> bool:
    """Tell whether every order of a plan was looked at."""
    return not undecided(made)
