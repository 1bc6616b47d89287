"""What each browser did to a job while the server runs, so that none stands against itself."""

from __future__ import annotations

import threading
from collections import OrderedDict
from typing import TypeVar

_KEPT = 4000  # tabs, and versions; more than a shop opens in a week
K = TypeVar("K")
V = TypeVar("V")


class Browsers:
    """Who saved which version, and what each tab sent last; safe to use from several threads."""

    def __init__(self) -> None:
        self._savers: OrderedDict[tuple[str, int], str] = OrderedDict()
        self._latest: OrderedDict[tuple[str, str, str, bool], int] = OrderedDict()
        self._lock = threading.Lock()

    def saved(self, job: str, number: int, who: str) -> None:
        """Note that a browser saved a version; the first to be noted stays."""
        with self._lock:
            _put(self._savers, (job, number), self._savers.get((job, number), who))

    def saved_all(self, job: str, base: int, current: int, who: str) -> bool:
        """Tell whether one browser saved every version after a base, the current one included."""
        with self._lock:
            return base < current and all(
                self._savers.get((job, number)) == who for number in range(base + 1, current + 1)
            )

    def is_late(self, job: str, who: str, tab: str, turn: int, *, to_save: bool) -> bool:
        """Note what a tab sent; tell whether something it sent later has come in before.

        A saving is late behind a later saving alone: a draft takes nothing of it away.

        Parameters
        ----------
        job, who, tab
            Which job, browser and tab.
        turn
            Grows with each thing the tab sends; 0 where it does not say, which is never late.
        to_save
            Whether it is to be saved, or kept as a draft.
        """
        if not turn:
            return False
        with self._lock:
            drafted, saved = (self._latest.get((job, who, tab, one), 0) for one in (False, True))
            _put(self._latest, (job, who, tab, to_save), max(turn, saved if to_save else drafted))
            return turn < (saved if to_save else max(saved, drafted))


def _put(there: OrderedDict[K, V], key: K, value: V) -> None:
    there[key] = value
    there.move_to_end(key)
    while len(there) > _KEPT:
        there.popitem(last=False)
