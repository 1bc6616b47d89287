"""Which lines of the log a plan rests on: it is made again when one of those changes, no other.

Where any teach, it is made again with every shop file that changes too, which is seldom.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from threading import Lock
from typing import TypeVar

from strapwright.errors import InputError
from strapwright.service.shop_log.learned_jobs import (
    Things,
    merged_things,
    states_that_teach,
    things_of,
)
from strapwright.shop_files.reading_job import read_job
from strapwright.store import Kind, Store

_K = TypeVar("_K")
_V = TypeVar("_V")
_FILES: tuple[Kind, ...] = ("press", "tooling", "lot")
_KEPT = 64  # texts and sets of lines that are remembered; a phone opens one job at a time


class LogKeys:
    """Names of what the log says of jobs; safe to use from several threads.

    Many phones log at once, and a plan takes a second or more: a line about another bar, on another
    press and other tooling, leaves a plan as it was.

    Parameters
    ----------
    store
        Opened.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._things: OrderedDict[tuple[str, tuple[tuple[str, str], ...]], Things | None] = (
            OrderedDict()
        )
        self._states: OrderedDict[Things, tuple[int, str]] = OrderedDict()
        self._lock = Lock()

    def key(self, text: str, beside: Mapping[str, str]) -> str:
        """Name the states of the lines that a job's plan rests on; empty where it rests on none.

        Parameters
        ----------
        text, beside
            The job file, and the shop files that it names.
        """
        stated = self._stated(text, beside)
        if stated is None:
            return ""  # what cannot be read is planned with nothing
        # A merged lot is another from then on, so this is looked up each time.
        things = merged_things(self._store, stated)
        # Counted before the lines are read: a line that comes between is looked at again.
        count = self._store.log.states_kept()
        with self._lock:
            known = self._states.get(things)
        if known is not None and known[0] == count:
            found = known[1]
        else:
            found = states_that_teach(self._store, things)
            with self._lock:
                _remember(self._states, things, (count, found))
        return f"{found} {self._files()}" if found else ""

    def _files(self) -> str:
        """Name the states of all shop files: a line of another job is read with those it names."""
        kept = (one for kind in _FILES for one in self._store.list(kind))
        return ",".join(f"{one.file}.{one.current}" for one in kept)

    def _stated(self, text: str, beside: Mapping[str, str]) -> Things | None:
        """Lot, press and tooling as a job names them; ``None`` of one that cannot be read."""
        key = text, tuple(sorted(beside.items()))
        with self._lock:
            if key in self._things:
                return self._things[key]
        things: Things | None
        try:
            things = things_of(text, read_job(text, beside=beside))
        except InputError:
            things = None
        with self._lock:
            _remember(self._things, key, things)
        return things


def _remember(kept: OrderedDict[_K, _V], key: _K, value: _V) -> None:
    kept[key] = value
    kept.move_to_end(key)
    while len(kept) > _KEPT:
        kept.popitem(last=False)
