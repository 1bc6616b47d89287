"""Going on with a search that ran out of time, while its page is already shown."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable

from strapwright.findings import Choice, Finding
from strapwright.planning.plan_values import Plan

# Findings that a longer search may take back, and what they must say where they have other reasons.
_UNDECIDED = {"order-not-proven": "", "order-not-searched": "no time", "coming-off-no-time": ""}

_MOST = 4  # searches at a time; the oldest ends for a new one
Make = Callable[[Callable[[], bool]], Plan]


def undecided(made: Plan) -> bool:
    """Tell whether a search of a plan ended because its time was over."""
    return any(_open(one) for one in made.findings)


def _open(finding: Finding) -> bool:
    why = _UNDECIDED.get(finding.code)
    return why is not None and (not why or finding.one(Choice, "why").value == why)


class SearchingOn:
    """Longer searches: one of each job, of its newest text, and so many at a time."""

    def __init__(self) -> None:
        # Job -> what its search is made from, and the run.
        self._running: dict[Hashable, tuple[Hashable, object]] = {}
        self._lock = threading.Lock()

    def begin(
        self, job: Hashable, key: Hashable, make: Make, found: Callable[[Plan], None]
    ) -> None:
        """Begin one, unless it runs already; the search of an older text of the job ends.

        Parameters
        ----------
        job
            Whose search it is.
        key
            What it is made from.
        make
            Makes the plan with all the time that a longer search has; given what to ask now and
            then whether it is still wanted.
        found
            Given that plan, unless the search was ended.
        """
        with self._lock:
            there = self._running.pop(job, None)
            if there is not None and there[0] == key:
                self._running[job] = there
                return
            run = (key, object())
            self._running[job] = run
            while len(self._running) > _MOST:
                self._running.pop(next(iter(self._running)))
        threading.Thread(target=self._run, args=(job, run, make, found), daemon=True).start()

    def runs(self, key: Hashable) -> bool:
        """Tell whether one runs."""
        with self._lock:
            return any(key == made_from for made_from, _ in self._running.values())

    def _run(
        self,
        job: Hashable,
        run: tuple[Hashable, object],
        make: Make,
        found: Callable[[Plan], None],
    ) -> None:
        def still() -> bool:
            with self._lock:
                return self._running.get(job) is run

        try:
            made = make(still)
            if still():
                found(made)
        finally:
            with self._lock:
                if self._running.get(job) is run:
                    del self._running[job]
