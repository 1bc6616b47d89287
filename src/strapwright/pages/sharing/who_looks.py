"""Who looks at a job at this moment, by device, so that two people know of each other."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable

from attrs import frozen

OWN_MACHINE = "the shop's computer"  # what devices call the machine that serves the pages
# A page that is looked at tells so every 3 s (follow.js); one that sleeps or lost its network tells
# nothing, and is gone after four of these (common practice, no source).
GONE_AFTER = 12.0  # s
_MOST_TABS = 400  # in all; a small shop has a few (common practice, no source)
_MOST_NAMED = 3  # more would be a list (common practice, no source)


@frozen
class _Tab:
    device: str
    name: str
    heard: float


class Lookers:
    """Open pages by job; safe to use from several threads.

    Parameters
    ----------
    clock
        Seconds from any beginning.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._lock = threading.Lock()
        self._tabs: OrderedDict[tuple[str, str], _Tab] = OrderedDict()

    def here(self, job: str, tab: str, device: str, name: str) -> None:
        """Note that a page of a job is looked at.

        Parameters
        ----------
        job, tab
            Which job, and which page of a browser.
        device, name
            Id of the device's pass and what it is called; an empty id for this machine itself.
        """
        with self._lock:
            self._tabs[job, tab] = _Tab(device, name, self._clock())
            self._tabs.move_to_end((job, tab))
            while len(self._tabs) > _MOST_TABS:
                self._tabs.popitem(last=False)

    def left(self, job: str, tab: str) -> None:
        """Note that a page is not looked at any more."""
        with self._lock:
            self._tabs.pop((job, tab), None)

    def others(self, job: str, device: str) -> tuple[str, ...]:
        """Return the names of the other devices that look at a job, each once, in their order."""
        since = self._clock() - GONE_AFTER
        with self._lock:
            for key in [one for one, tab in self._tabs.items() if tab.heard < since]:
                del self._tabs[key]
            there = {
                tab.device: tab.name
                for (looked, _), tab in self._tabs.items()
                if looked == job and tab.device != device
            }
        return tuple(there[one] for one in sorted(there))


def also_looking(names: tuple[str, ...]) -> str:
    """Say who else looks at a job; nothing where nobody does."""
    if not names:
        return ""
    shown = names[:_MOST_NAMED]
    more = len(names) - len(shown)
    return f"Also looking: {', '.join(shown)}{f' and {more} more' if more else ''}."
