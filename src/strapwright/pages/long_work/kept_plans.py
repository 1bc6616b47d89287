"""Plans by what they are made from: each is made once, beside the others, while somebody waits."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from concurrent.futures import TimeoutError as NotYetError

from attrs import define, field

from strapwright.errors import InputError
from strapwright.ordering.time_given import KeepGoing
from strapwright.pages.long_work.attendance import AbandonedError, Gone, gone
from strapwright.planning.plan_values import Plan

_LOOK = 0.05  # s between looks whether the one who waits for another's plan has left
_KEPT = 12
_IMPROVED = 24  # jobs; a long search costs minutes, its plan little room

Made = Plan | InputError
Key = tuple[str, tuple[tuple[str, str], ...]]  # text of a job, and of the shop files it names


@define
class _Making:
    """A plan that is being made, and those who wait for it."""

    answer: Future[Made] = field(factory=Future)
    waiting: list[Gone] = field(factory=list)


class KeptPlans:
    """Plans, made outside any lock; safe to use from several threads.

    Whoever asks first makes the plan.  Who asks for the same meanwhile waits for it; who asks for
    another makes that at the same time.  When all have left, the work stops and is not kept.
    """

    def __init__(self) -> None:
        self._kept: OrderedDict[Key, Made] = OrderedDict()
        self._improved: OrderedDict[Hashable, tuple[Key, Plan]] = OrderedDict()  # by job
        self._making: dict[Key, _Making] = {}
        self._lock = threading.Lock()

    def get(self, key: Key, make: Callable[[KeepGoing], Plan]) -> Plan:
        """Return the plan of a key.

        Parameters
        ----------
        key
            What it is made from.
        make
            Makes it; given what to ask now and then, which ends the work by its own error once
            nobody waits.

        Raises
        ------
        InputError
            If it cannot be made.
        AbandonedError
            If the one who asks has left.
        """
        with self._lock:
            improved = self._improved_of(key)
            if improved is not None:
                return improved
            made = self._kept.get(key)
            if made is not None:
                self._kept.move_to_end(key)
                return _given(made)
            work = self._making.get(key)
            mine = work is None
            if work is None:
                work = self._making[key] = _Making()
            work.waiting.append(gone())
        if mine:
            self._make(key, work, make)
        return _given(_waited(work.answer))

    def kept(self, key: Key) -> Plan | None:
        """Return the plan of a key where there is one already."""
        with self._lock:
            made = self._improved_of(key) or self._kept.get(key)
        return None if isinstance(made, InputError) else made

    def is_improved(self, key: Key) -> bool:
        """Tell whether more is known of a plan than of one made in passing."""
        with self._lock:
            return self._improved_of(key) is not None

    def put(self, job: Hashable, key: Key, made: Plan) -> None:
        """Keep a plan that more is known of than of one made in passing; the newest of each job.

        Parameters
        ----------
        job
            Whose plan it is.
        key
            What it is made from.
        made
            The plan, given from here on to whoever asks for the key.
        """
        with self._lock:
            self._improved[job] = key, made
            self._improved.move_to_end(job)
            while len(self._improved) > _IMPROVED:
                self._improved.popitem(last=False)

    def _improved_of(self, key: Key) -> Plan | None:
        for job, (made_from, made) in self._improved.items():
            if made_from == key:
                self._improved.move_to_end(job)
                return made
        return None

    def _make(self, key: Key, work: _Making, make: Callable[[KeepGoing], Plan]) -> None:
        def keep_going() -> bool:
            with self._lock:
                if all(left() for left in work.waiting):
                    self._making.pop(key, None)  # who asks from here on begins again
                    raise AbandonedError
            return True

        made: Made
        try:
            keep_going()
            made = make(keep_going)
        except InputError as error:
            made = error
        except BaseException as error:  # noqa: BLE001 - whoever waits is given it, whatever it is
            with self._lock:
                if self._making.get(key) is work:
                    del self._making[key]
            work.answer.set_exception(error)
            return
        with self._lock:
            self._making.pop(key, None)
            self._kept[key] = made
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
        work.answer.set_result(made)


def _waited(answer: Future[Made]) -> Made:
    left = gone()
    while True:
        try:
            return answer.result(_LOOK)
        except NotYetError:
            if answer.done():  # the work itself ran into it
                raise
            if left():
                raise AbandonedError from None


def _given(made: Made) -> Plan:
    if isinstance(made, InputError):
        raise made
    return made
