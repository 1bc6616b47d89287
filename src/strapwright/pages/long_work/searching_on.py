"""Going on with a search that ran out of time, in a process beside the pages."""

from __future__ import annotations

import contextlib
import pickle
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Hashable

from attrs import field, frozen

from strapwright.findings import Choice, Finding
from strapwright.pages.long_work.how_far import HowFar
from strapwright.pages.long_work.order_worker import AskedOrder
from strapwright.planning.plan_values import Plan

# Findings that a longer search may take back, and what they must say where they have other reasons.
_UNDECIDED = {"order-not-proven": "", "order-not-searched": "no time", "coming-off-no-time": ""}

_MOST = 2  # searches at a time, a process each; the oldest ends for a new one (a choice of ours)
STOPPED = "You stopped the search; what it had found so far is not kept."
_BROKE = "The search ended without an answer; start it again."
Start = Callable[[], "subprocess.Popen[bytes]"]


def undecided(made: Plan) -> bool:
    """Tell whether a search of a plan ended because its time was over."""
    return any(_open(one) for one in made.findings)


def _open(finding: Finding) -> bool:
    why = _UNDECIDED.get(finding.code)
    return why is not None and (not why or finding.one(Choice, "why").value == why)


@frozen(kw_only=True, eq=False)
class _Run:
    key: Hashable
    seconds: float
    process: subprocess.Popen[bytes]
    begun: float = field(factory=time.monotonic)


def _started() -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-m", "strapwright.pages.long_work.order_worker"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )


class SearchingOn:
    """Longer searches: one of each job, of its newest text, and so many at a time.

    Parameters
    ----------
    start
        Starts the process of one.
    """

    def __init__(self, start: Start = _started) -> None:
        self._start = start
        self._running: dict[Hashable, _Run] = {}
        self._said: dict[Hashable, tuple[Hashable, str]] = {}
        self._lock = threading.Lock()

    def begin(
        self, job: Hashable, key: Hashable, asked: AskedOrder, found: Callable[[Plan], None]
    ) -> None:
        """Begin one, unless it runs already; the search of an older text of the job ends.

        Parameters
        ----------
        job
            Whose search it is.
        key
            What it is made from.
        asked
            What is searched for.
        found
            Given the plan, unless the search was ended.
        """
        with self._lock:
            there = self._running.get(job)
            if there is not None and there.key == key:
                return
            self._said.pop(job, None)
            run = _Run(key=key, seconds=asked.seconds, process=self._start())
            ended = [self._running.pop(job, None)]
            self._running[job] = run
            while len(self._running) > _MOST:
                ended.append(self._running.pop(next(iter(self._running))))
        for one in ended:
            if one is not None:
                one.process.kill()
        threading.Thread(target=self._hear, args=(job, run, asked, found), daemon=True).start()

    def runs(self, key: Hashable) -> HowFar | None:
        """Return how far the search of a key is, ``None`` where none runs."""
        with self._lock:
            run = next((one for one in self._running.values() if one.key == key), None)
        if run is None:
            return None
        return HowFar(seconds=time.monotonic() - run.begun, most=run.seconds)

    def stop(self, job: Hashable, key: Hashable) -> None:
        """End the search of a key; nothing happens where none runs."""
        with self._lock:
            run = self._running.get(job)
            if run is None or run.key != key:
                return
            del self._running[job]
            self._said[job] = key, STOPPED
        run.process.kill()

    def said(self, job: Hashable, key: Hashable) -> str:
        """Return why the last search of a key brought nothing; empty where there is no reason."""
        with self._lock:
            made_from, sentence = self._said.get(job, (None, ""))
        return sentence if made_from == key else ""

    def _hear(
        self, job: Hashable, run: _Run, asked: AskedOrder, found: Callable[[Plan], None]
    ) -> None:
        made = None
        try:
            made = _answer(run.process, asked)
        finally:
            run.process.kill()
            run.process.wait()
            for pipe in (run.process.stdin, run.process.stdout):
                with contextlib.suppress(OSError):
                    if pipe is not None:
                        pipe.close()
            # The plan is there before the search is told to be over, or a page would show neither.
            if made is not None and self._is(job, run):
                found(made)
            with self._lock:
                if self._running.get(job) is run:
                    del self._running[job]
                    if made is None:
                        self._said[job] = run.key, _BROKE

    def _is(self, job: Hashable, run: _Run) -> bool:
        with self._lock:
            return self._running.get(job) is run


def _answer(process: subprocess.Popen[bytes], asked: AskedOrder) -> Plan | None:
    if process.stdin is None or process.stdout is None:
        return None
    try:
        pickle.dump(asked, process.stdin)
        process.stdin.flush()
        made = pickle.load(process.stdout)  # noqa: S301  of the process that was just started
    except (OSError, EOFError, pickle.UnpicklingError):
        return None
    return made if isinstance(made, Plan) else None
