"""Going on with a search that ran out of time, while its page is already shown."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable

from strapwright.findings import Choice, Finding
from strapwright.planning.plan_values import Plan

# Findings that a longer search may take back, and what they must say where they have other reasons.
_UNDECIDED = {"order-not-proven": "", "order-not-searched": "no time", "coming-off-no-time": ""}


def undecided(made: Plan) -> bool:
    """Tell whether a search of a plan ended because its time was over."""
    return any(_open(one) for one in made.findings)


def _open(finding: Finding) -> bool:
    why = _UNDECIDED.get(finding.code)
    return why is not None and (not why or finding.one(Choice, "why").value == why)


class SearchingOn:
    """Longer searches by what they are made from; each runs once at a time."""

    def __init__(self) -> None:
        self._running: set[Hashable] = set()
        self._lock = threading.Lock()

    def begin(self, key: Hashable, make: Callable[[], Plan], found: Callable[[Plan], None]) -> None:
        """Begin one, unless it runs already.

        Parameters
        ----------
        key
            What it is made from.
        make
            Makes the plan with all the time that a longer search has.
        found
            Given that plan.
        """
        with self._lock:
            if key in self._running:
                return
            self._running.add(key)
        threading.Thread(target=self._run, args=(key, make, found), daemon=True).start()

    def runs(self, key: Hashable) -> bool:
        """Tell whether one runs."""
        with self._lock:
            return key in self._running

    def _run(self, key: Hashable, make: Callable[[], Plan], found: Callable[[Plan], None]) -> None:
        try:
            found(make())
        finally:
            with self._lock:
                self._running.discard(key)
