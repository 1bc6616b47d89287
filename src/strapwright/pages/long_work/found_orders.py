"""What searches for an order found, and which were stopped with the server: kept in the store.

A plan is made anew from the job; of a search only the order and whether it is proven are kept, and
the plan holds that order against the tooling again.  What another program found is searched anew:
it may have known other costs and other things in the way.
"""

from __future__ import annotations

import json
import threading
from contextlib import suppress
from hashlib import sha256
from typing import Any, Literal, cast, get_args

from attrs import frozen

from strapwright.pages.long_work.kept_plans import Key
from strapwright.planning.hits_and_stacks.ordered_bends import FoundOrder
from strapwright.planning.plan_values import Plan
from strapwright.service.many_jobs.planning_a_case import program_digest
from strapwright.store import Store, StoreError

ORDERS = "order searches"  # setting of the store
_MOST = 200  # jobs; the oldest are forgotten (a choice of ours)
_LONGEST = 3600.0  # s; what is kept of an end of time is no end of all time
_MOST_BENDS = 1000
_LOG = ""  # name of the log among what a plan is made from
State = Literal["running", "done"]


@frozen(kw_only=True)
class _Kept:
    """A search of one job.

    Attributes
    ----------
    shape
        Digest of the program, the job and its shop files.
    whole
        Digest of the same with what the log says.
    seconds
        It may take [s].
    """

    shape: str
    whole: str
    seconds: float
    state: State
    bends: tuple[int, ...] = ()
    proven: bool = False


class FoundOrders:
    """Searches by job, newest last; safe to use from several threads.

    Parameters
    ----------
    store
        Opened; what it says to be running was stopped with the server of its time.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._lock = threading.Lock()
        self._kept = _read(store.setting(ORDERS) or "{}")
        self._cut_off = {job for job, one in self._kept.items() if one.state == "running"}

    def begun(self, job: str, key: Key, seconds: float) -> None:
        """Keep that a search was begun, which may take so long [s]."""
        shape, whole = _digests(key)
        before = self._kept.get(job)
        bends = before.bends if before is not None and before.shape == shape else ()
        self._put(
            job, _Kept(shape=shape, whole=whole, seconds=seconds, state="running", bends=bends)
        )

    def ended(self, job: str, key: Key, made: Plan | None, *, proven: bool) -> None:
        """Keep what a search found; ``None`` for one that was stopped or broke.

        Parameters
        ----------
        job, key
            Whose it is, and what it was made from.
        made
            The plan with it.
        proven
            Whether it looked at every order.
        """
        shape, whole = _digests(key)
        there = self._kept.get(job)
        if there is None or there.whole != whole:
            return  # a newer text of the job is searched
        bends = there.bends if made is None else tuple(step.bend for step in made.steps)
        self._put(
            job,
            _Kept(
                shape=shape, whole=whole, seconds=there.seconds, state="done", bends=bends,
                proven=proven and made is not None,
            ),
        )  # fmt: skip

    def of(self, key: Key) -> FoundOrder | None:
        """Return the order that was found for what a plan is made from.

        One that was found before the log said more is held against what it says now, but is not
        proven to be the best any more.
        """
        shape, whole = _digests(key)
        with self._lock:
            found = [one for one in self._kept.values() if one.shape == shape and one.bends]
        if not found:
            return None
        exact = [one for one in found if one.whole == whole]
        best = (exact or found)[-1]
        return FoundOrder(bends=best.bends, proven=best.proven and bool(exact))

    def is_over(self, key: Key, made: Plan) -> bool:
        """Tell whether a search of this job has ended with the order that its plan has.

        The log may say more since: nobody wants another order with every line of it.
        """
        shape, _ = _digests(key)
        order = tuple(step.bend for step in made.steps)
        with self._lock:
            return any(
                one.shape == shape and one.state == "done" and one.bends == order
                for one in self._kept.values()
            )

    def cut_off(self, job: str, key: Key) -> float | None:
        """Return how long a search was to take that the server was stopped under [s]; or none."""
        shape, _ = _digests(key)
        with self._lock:
            one = self._kept.get(job)
            return one.seconds if job in self._cut_off and one and one.shape == shape else None

    def _put(self, job: str, one: _Kept) -> None:
        with self._lock:
            self._cut_off.discard(job)
            self._kept.pop(job, None)
            self._kept[job] = one
            while len(self._kept) > _MOST:
                self._kept.pop(next(iter(self._kept)))
            text = json.dumps({name: _to_data(kept) for name, kept in self._kept.items()})
            # What a full disk does not take is searched again after the next start: no reason to
            # refuse a page.  Whatever a person saves is refused in a sentence.
            with suppress(StoreError):
                self._store.set_setting(ORDERS, text)


def _digests(key: Key) -> tuple[str, str]:
    text, beside = key
    files = tuple(one for one in beside if one[0] != _LOG)
    by = program_digest()
    shape, whole = (sha256(repr((by, *one)).encode()).hexdigest() for one in ((text, files), key))
    return shape, whole


def _to_data(one: _Kept) -> dict[str, Any]:
    return {
        "shape": one.shape, "whole": one.whole, "seconds": one.seconds, "state": one.state,
        "bends": list(one.bends), "proven": one.proven,
    }  # fmt: skip


def _read(text: str) -> dict[str, _Kept]:
    """Read what was kept; what cannot be read is searched again."""
    try:
        listed = json.loads(text)
    except (ValueError, RecursionError):
        return {}
    found: dict[str, _Kept] = {}
    for job, one in listed.items() if isinstance(listed, dict) else ():
        try:
            kept = _of_data(one)
        except (KeyError, TypeError, ValueError):
            continue
        found[job] = kept
    return found


def _of_data(one: Any) -> _Kept:
    bends = tuple(one["bends"])
    if len(bends) > _MOST_BENDS or not all(type(bend) is int for bend in bends):
        raise ValueError("these are no bends")
    if one["state"] not in get_args(State):
        raise ValueError("this is no state")
    return _Kept(
        shape=str(one["shape"]),
        whole=str(one["whole"]),
        seconds=min(max(float(one["seconds"]), 1.0), _LONGEST),
        state=cast("State", one["state"]),
        bends=bends,
        proven=one["proven"] is True,
    )
