"""Looking for what would make a refused part while its page is already shown."""

from __future__ import annotations

import threading
from collections.abc import Callable

from strapwright.planning.plan_values import Plan
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.obstructions import is_refused
from strapwright.remedies.search_figures import find_remedies
from strapwright.shop.job import Job

Found = Callable[[Plan], None]
Until = Callable[[], Callable[[], bool]]


class Looking:
    """Searches by the text of the job; each is run once, and of one job only the newest goes on.

    Parameters
    ----------
    until
        Starts the clock of a search and returns what it asks whether to go on.
    """

    def __init__(self, until: Until) -> None:
        self._until = until
        self._running: dict[str, threading.Thread] = {}
        self._newest: dict[str, str] = {}
        self._lock = threading.Lock()

    def look(
        self, item: str, text: str, job: Job, made: Plan, seconds: float, found: Found
    ) -> bool:
        """Begin to look, and wait a little.

        Parameters
        ----------
        item
            Id of the job.
        text, job, made
            The job file, as read, and its plan.
        seconds
            To wait at most [s].
        found
            Given the plan with what was found.

        Returns
        -------
        bool
            Whether it has ended, or there is nothing to look for.
        """
        if made.remedies is not None or not is_refused(made):
            return True
        with self._lock:
            self._newest[item] = text
            thread = self._running.get(text)
            if thread is None:
                thread = threading.Thread(
                    target=self._run, args=(item, text, job, made, found), daemon=True
                )
                self._running[text] = thread
                thread.start()
        thread.join(seconds)
        return not thread.is_alive()

    def _run(self, item: str, text: str, job: Job, made: Plan, found: Found) -> None:
        try:
            in_time = self._until()
            remedies = find_remedies(
                job, made, keep_going=lambda: self._newest[item] == text and in_time()
            )
            if self._newest[item] == text:
                found(with_remedies(made, remedies))
        finally:
            with self._lock:
                self._running.pop(text, None)
