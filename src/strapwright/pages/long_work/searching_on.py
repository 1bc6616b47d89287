"""Searches for an order, and for what would make a part, in processes beside the pages."""

from __future__ import annotations

import contextlib
import pickle
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Hashable

from attrs import define, field

from strapwright.findings import Choice, Finding, Yes
from strapwright.pages.long_work.how_far import HowFar
from strapwright.pages.long_work.order_worker import Asked
from strapwright.planning.plan_values import Plan

# Findings that a longer search may take back, and what they must say where they have other reasons.
_UNDECIDED: dict[str, tuple[str, ...]] = {
    "order-not-proven": (),
    "order-not-searched": ("no time", "not yet"),
    "coming-off-no-time": (),
    "laying-in-not-proven": ("no time",),
}
_MOST = 2  # processes at a time, the rest wait their turn (a choice of ours)
STOPPED = "You stopped the search; what it had found so far is not kept."
_BROKE = "The search ended without an answer; start it again."
Start = Callable[[], "subprocess.Popen[bytes]"]


def undecided(made: Plan) -> bool:
    """Tell whether a search of a plan ended because its time was over."""
    return any(_open(one) for one in made.findings)


def hasty(made: Plan) -> bool:
    """Tell whether a plan is refused only because its time was over."""
    return any(one.code == "no-order" and _open(one) for one in made.findings)


def _open(finding: Finding) -> bool:
    if finding.code == "no-order":
        return not finding.one(Yes, "proven").value
    why = _UNDECIDED.get(finding.code)
    return why is not None and (not why or finding.one(Choice, "why").value in why)


@define(kw_only=True, eq=False)
class _Run:
    key: Hashable
    seconds: float
    process: subprocess.Popen[bytes] | None = None  # none before its turn
    waits: bool = False  # for its turn
    begun: float = field(factory=time.monotonic)
    over: threading.Event = field(factory=threading.Event)


def _started() -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-m", "strapwright.pages.long_work.order_worker"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )


class SearchingOn:
    """Searches beside the pages: one of each job, of its newest text; so many run at a time.

    Parameters
    ----------
    start
        Starts the process of one; as a program of its own where not given.
    """

    def __init__(self, start: Start | None = None) -> None:
        self._start = start or _started
        self._running: dict[Hashable, _Run] = {}
        self._said: dict[Hashable, tuple[Hashable, str]] = {}
        self._lock = threading.Lock()
        self._room = threading.Semaphore(_MOST)

    def begin(
        self, job: Hashable, key: Hashable, asked: Asked, ended: Callable[[Plan | None], None]
    ) -> bool:
        """Begin one, unless it runs already; the search of an older text of the job ends.

        Parameters
        ----------
        job
            Whose search it is.
        key
            What it is made from.
        asked
            What is searched for.
        ended
            Given the plan, or ``None`` where there is none; not called where a newer text of the
            job is searched by then.

        Returns
        -------
        bool
            Whether it was begun.
        """
        with self._lock:
            there = self._running.get(job)
            if there is not None and there.key == key:
                return False
            self._said.pop(job, None)
            run = self._running[job] = _Run(key=key, seconds=asked.seconds)
        if there is not None:
            _end(there)
        threading.Thread(target=self._run, args=(job, run, asked, ended), daemon=True).start()
        return True

    def runs(self, key: Hashable) -> HowFar | None:
        """Return how far the search of a key is, ``None`` where none runs."""
        run = self._of(key)
        if run is None:
            return None
        if run.waits:
            return HowFar(seconds=0.0, most=run.seconds, waits=True)
        return HowFar(seconds=time.monotonic() - run.begun, most=run.seconds)

    def ended_within(self, key: Hashable, seconds: float) -> bool:
        """Wait for the search of a key so long [s]; tell whether none runs any more."""
        run = self._of(key)
        return run is None or run.over.wait(seconds)

    def stop(self, job: Hashable, key: Hashable) -> bool:
        """End the search of a key; tell whether one ran."""
        with self._lock:
            run = self._running.get(job)
            if run is None or run.key != key:
                return False
            del self._running[job]
            self._said[job] = key, STOPPED
        _end(run)
        return True

    def forget(self, job: Hashable) -> None:
        """Forget why the last search of a job brought nothing."""
        with self._lock:
            self._said.pop(job, None)

    def said(self, job: Hashable, key: Hashable) -> str:
        """Return why the last search of a key brought nothing; empty where there is no reason."""
        with self._lock:
            made_from, sentence = self._said.get(job, (None, ""))
        return sentence if made_from == key else ""

    def _of(self, key: Hashable) -> _Run | None:
        with self._lock:
            return next((one for one in self._running.values() if one.key == key), None)

    def _is(self, job: Hashable, run: _Run) -> bool:
        with self._lock:
            return self._running.get(job) is run

    def _run(
        self, job: Hashable, run: _Run, asked: Asked, ended: Callable[[Plan | None], None]
    ) -> None:
        try:
            made = None
            run.waits = not self._room.acquire(blocking=False)
            if run.waits:
                self._room.acquire()
            try:
                if self._is(job, run):
                    made = self._hear(job, run, asked)
            finally:
                self._room.release()
            # The plan is there before the search is told to be over, or a page would show neither.
            if self._is(job, run):
                ended(made)
        finally:
            with self._lock:
                if self._running.get(job) is run:
                    del self._running[job]
                    if made is None:
                        self._said[job] = run.key, _BROKE
            run.over.set()

    def _hear(self, job: Hashable, run: _Run, asked: Asked) -> Plan | None:
        try:
            process = self._start()
        except OSError:
            return None
        try:
            with self._lock:
                run.begun, run.process, run.waits = time.monotonic(), process, False
                if self._running.get(job) is not run:  # ended just before it could be killed
                    return None
            return _answer(process, asked)
        finally:
            process.kill()
            process.wait()
            for pipe in (process.stdin, process.stdout):
                with contextlib.suppress(OSError):
                    if pipe is not None:
                        pipe.close()


def _end(run: _Run) -> None:
    if run.process is not None:
        run.process.kill()


def _answer(process: subprocess.Popen[bytes], asked: Asked) -> Plan | None:
    if process.stdin is None or process.stdout is None:
        return None
    try:
        pickle.dump(asked, process.stdin)
        process.stdin.flush()
        made = pickle.load(process.stdout)  # noqa: S301  of the process that was just started
    except (OSError, EOFError, pickle.UnpicklingError):
        return None
    return made if isinstance(made, Plan) else None
