"""Slow down whoever tries tokens: each address for itself, and all together."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable

FREE_TRIES = 5  # of one address; a person mistypes now and then (common practice, no source)
FIRST_WAIT = 2.0  # s, doubled with every wrong one after
LONGEST_WAIT = 900.0  # s
TRIES_OF_ALL = 60  # in TRIES_WITHIN, of all addresses together
TRIES_WITHIN = 600.0  # s
_MOST_ADDRESSES = 2000  # remembered; the oldest are forgotten, the limit of all still holds


class GuessLimit:
    """Wrong tokens so far; safe to use from several threads.

    Parameters
    ----------
    clock
        Seconds from any beginning.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._lock = threading.Lock()
        self._wrong: OrderedDict[str, tuple[int, float]] = OrderedDict()
        self._lately: deque[float] = deque(maxlen=TRIES_OF_ALL)

    def wait(self, address: str) -> float:
        """Return how long an address has to wait before its next try [s], 0 for not at all."""
        now = self._clock()
        with self._lock:
            count, last = self._wrong.get(address, (0, 0.0))
            own = 0.0
            if count >= FREE_TRIES:
                pause = min(FIRST_WAIT * 2.0 ** min(count - FREE_TRIES, 20), LONGEST_WAIT)
                own = max(last + pause - now, 0.0)
            others = 0.0
            if len(self._lately) == TRIES_OF_ALL:
                others = max(self._lately[0] + TRIES_WITHIN - now, 0.0)
        return max(own, others)

    def wrong(self, address: str) -> None:
        """Note a wrong token."""
        now = self._clock()
        with self._lock:
            count, _ = self._wrong.pop(address, (0, 0.0))
            self._wrong[address] = (count + 1, now)
            while len(self._wrong) > _MOST_ADDRESSES:
                self._wrong.popitem(last=False)
            self._lately.append(now)

    def right(self, address: str) -> None:
        """Forget the wrong tokens of an address that showed a right one."""
        with self._lock:
            self._wrong.pop(address, None)
