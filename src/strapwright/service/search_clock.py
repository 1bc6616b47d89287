"""How long a search may take: the clock lives here, the core only asks whether to go on."""

from __future__ import annotations

import math
import time
from collections.abc import Callable

from strapwright.service.compiler_cache import load_loops
from strapwright.wording.search_progress import SearchProgress

# A person waits this long for an order before they would rather have the best found so far.
SEARCH_SECONDS = 30.0
# A page is shown after so many seconds of the processor; what is open then is searched beside it
# (a choice of ours).
FIRST_SECONDS = 1.5
BUSY_SHARE = 4.0  # of its time that a search beside the pages takes by the clock (a choice of ours)
# Asked for by a button, beside the pages.
LONGER_SECONDS = 300.0
_APART = 0.005  # s between two looks at the processor's own clock (a choice of ours)
# A tooling from the rack: seconds of processor, since others may use it too.
PROPOSE_SECONDS = 30.0
# What would make a refused part is looked for after its plan, which is told either way.
REMEDY_SECONDS = 10.0


def within(seconds: float = SEARCH_SECONDS) -> Callable[[], bool]:
    """Return a question that says no once ``seconds`` have passed from now [s].

    The compiler's work is done first: it is no part of the search.
    """
    load_loops()
    end = time.monotonic() + seconds
    return lambda: time.monotonic() < end


def first_look(seconds: float = FIRST_SECONDS) -> Callable[[], bool]:
    """Return a question that says no once this thread has worked for ``seconds`` from now [s].

    So what a page finds at first hangs little on what else the machine does; however busy it is,
    nobody waits for longer than for a whole search.
    """
    load_loops()
    worked = _seldom(time.thread_time)
    end, latest = worked() + seconds, time.monotonic() + SEARCH_SECONDS
    return lambda: worked() < end and time.monotonic() < latest


def working(seconds: float = SEARCH_SECONDS) -> Callable[[], bool]:
    """Return a question that says no once ``seconds`` of this processor are spent from now [s].

    So a search among many ends at the same place however busy the machine is.
    """
    load_loops()
    worked = _seldom(time.process_time)
    end = worked() + seconds
    return lambda: worked() < end


def _seldom(clock: Callable[[], float]) -> Callable[[], float]:
    """Ask a clock of the processor anew only every few ms: a search asks it at each small step.

    The system answers such a question far more slowly than one for the time of day.
    """
    known, until = 0.0, -math.inf

    def asked() -> float:
        nonlocal known, until
        now = time.monotonic()
        if now >= until:
            known, until = clock(), now + _APART
        return known

    return asked


def worked_within(seconds: float) -> Callable[[], bool]:
    """Return a question that says no once this processor worked for ``seconds`` from now [s].

    What is found so hangs little on what else the machine does; by the clock it may take
    ``BUSY_SHARE`` times as long.
    """
    worked, there = working(seconds), within(BUSY_SHARE * seconds)
    return lambda: worked() and there()


def spent_of(seconds: float = PROPOSE_SECONDS) -> Callable[[], float]:
    """Return a question for the share of ``seconds`` of processor time spent from now [s]."""
    load_loops()
    begun = time.process_time()
    return lambda: (time.process_time() - begun) / seconds


def shown_on(screen: Callable[[str], None]) -> Callable[[str, int, int], None]:
    """Return what a search for tooling can tell its progress to; it is in words at once.

    Parameters
    ----------
    screen
        Shows a line in place of the last.
    """
    progress = SearchProgress()
    screen(progress.text)

    def tell(word: str, done: int, whole: int) -> None:
        progress.hear(word, done, whole)
        screen(progress.text)

    return tell
