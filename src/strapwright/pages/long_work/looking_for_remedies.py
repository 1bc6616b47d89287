"""Looking for what would make a refused part while its page is already shown."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable

from strapwright.pages.long_work.how_far import HowFar
from strapwright.planning.plan_values import Plan
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.obstructions import is_refused
from strapwright.remedies.search_figures import find_remedies
from strapwright.shop.job import Job

Found = Callable[[Plan], None]
Until = Callable[[], Callable[[], bool]]
_STOPPED_KEPT = 200  # texts; more than a shop stops in a week (common practice, no source)


class Looking:
    """Searches by the text of the job; each is run once, and of one job only the newest goes on.

    Parameters
    ----------
    until
        Starts the clock of a search and returns what it asks whether to go on.
    """

    def __init__(self, until: Until) -> None:
        self._until = until
        self._running: dict[str, tuple[threading.Thread, float]] = {}
        self._newest: dict[str, str] = {}
        self._stopped: OrderedDict[str, None] = OrderedDict()
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
        if made.remedies is not None or not is_refused(made) or self.is_stopped(text):
            return True
        with self._lock:
            self._newest[item] = text
            thread, _ = self._running.get(text, (None, 0.0))
            if thread is None:
                thread = threading.Thread(
                    target=self._run, args=(item, text, job, made, found), daemon=True
                )
                self._running[text] = thread, time.monotonic()
                thread.start()
        thread.join(seconds)
        return not thread.is_alive()

    def runs(self, text: str, most: float) -> HowFar | None:
        """Return how far the search for a text is, of ``most`` it may take [s]; or ``None``."""
        with self._lock:
            there = self._running.get(text)
        return None if there is None else HowFar(seconds=time.monotonic() - there[1], most=most)

    def stop(self, text: str) -> None:
        """End the search for a text; it begins again only when that is asked for."""
        with self._lock:
            self._stopped[text] = None
            while len(self._stopped) > _STOPPED_KEPT:
                self._stopped.popitem(last=False)

    def is_stopped(self, text: str) -> bool:
        """Tell whether somebody stopped the search for a text."""
        with self._lock:
            return text in self._stopped

    def again(self, text: str) -> None:
        """Let a search that was stopped begin again."""
        with self._lock:
            self._stopped.pop(text, None)

    def _goes_on(self, item: str, text: str) -> bool:
        with self._lock:
            return self._newest[item] == text and text not in self._stopped

    def _run(self, item: str, text: str, job: Job, made: Plan, found: Found) -> None:
        try:
            in_time = self._until()
            remedies = find_remedies(
                job, made, keep_going=lambda: self._goes_on(item, text) and in_time()
            )
            if self._goes_on(item, text):
                found(with_remedies(made, remedies))
        finally:
            with self._lock:
                self._running.pop(text, None)
