"""Looking for what would make a refused part while its page is already shown."""

from __future__ import annotations

import threading
from collections.abc import Callable

from strapwright.planning.plan_values import Plan
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.obstructions import is_refused
from strapwright.remedies.search_figures import find_remedies
from strapwright.shop.job import Job

Found = Callable[[str, Plan], None]
Until = Callable[[], Callable[[], bool]]


class Looking:
    """Searches by the text of the job, one at a time; each is run once.

    Parameters
    ----------
    found
        Told the text and its plan with what was found.
    until
        Starts the clock of a search and returns what it asks whether to go on.
    """

    def __init__(self, found: Found, until: Until) -> None:
        self._found = found
        self._until = until
        self._running: dict[str, threading.Thread] = {}
        self._turn = threading.Lock()
        self._lock = threading.Lock()

    def look(self, text: str, job: Job, made: Plan, seconds: float) -> bool:
        """Begin to look, and wait a little.

        Parameters
        ----------
        text, job, made
            The job file, as read, and its plan.
        seconds
            To wait at most [s].

        Returns
        -------
        bool
            Whether it has ended, or there is nothing to look for.
        """
        if made.remedies is not None or not is_refused(made):
            return True
        with self._lock:
            thread = self._running.get(text)
            if thread is None:
                thread = threading.Thread(target=self._run, args=(text, job, made), daemon=True)
                self._running[text] = thread
                thread.start()
        thread.join(seconds)
        return not thread.is_alive()

    def _run(self, text: str, job: Job, made: Plan) -> None:
        try:
            with self._turn:
                going = self._until()
                self._found(text, with_remedies(made, find_remedies(job, made, keep_going=going)))
        finally:
            with self._lock:
                self._running.pop(text, None)
