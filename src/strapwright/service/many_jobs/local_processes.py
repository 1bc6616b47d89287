"""Jobs planned in processes of this machine, with those begun anew that died."""

from __future__ import annotations

import itertools
import os
import signal
import threading
from collections.abc import Generator, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context, parent_process

from strapwright.service.many_jobs.case_values import Case, CaseResult
from strapwright.service.many_jobs.planning_a_case import plan_case

_AHEAD = 2  # jobs handed out for each process, so that none waits for the next
DIED = "The process that planned it was killed or ran out of memory, twice."


def plan_locally(cases: Iterable[Case], processes: int, digest: str) -> Iterator[CaseResult]:
    """Plan jobs in several processes.

    A process that dies takes its job with it: those that were under way are planned once more,
    each alone, and only one that kills its own process again is given up.

    Parameters
    ----------
    cases
        The jobs, taken as they are needed.
    processes
        How many at once.
    digest
        Of this program.

    Yields
    ------
    CaseResult
        As they are done, in no order.
    """
    left = iter(cases)
    whole = False
    while not whole:
        lost: list[Case] = []
        whole = yield from _until_broken(left, processes, digest, lost)
        yield from _one_by_one(lost, digest)


def _until_broken(
    cases: Iterator[Case], processes: int, digest: str, lost: list[Case]
) -> Generator[CaseResult, None, bool]:
    """Plan until all is done, and return whether it is.

    Where a process has died before that, what was under way is in ``lost``.
    """
    pool = _pool(processes)
    under_way: dict[Future[CaseResult], Case] = {}
    try:
        while True:
            for case in itertools.islice(cases, processes * _AHEAD - len(under_way)):
                try:
                    under_way[pool.submit(plan_case, case, digest)] = case
                except BrokenProcessPool:  # while nothing was waited for
                    lost.append(case)
                    raise
            if not under_way:
                return True
            done, _ = wait(under_way, return_when=FIRST_COMPLETED)
            for future in done:
                yield future.result()
                del under_way[future]
    except BrokenProcessPool:
        # Some of them may have been done before it broke; nobody saw their results.
        lost += under_way.values()
        return False
    finally:
        _end(pool)


def _one_by_one(cases: Iterable[Case], digest: str) -> Iterator[CaseResult]:
    """Plan jobs so that one that kills its process is known by it, and given up."""
    pool = _pool(1)
    try:
        for case in cases:
            try:
                begun = pool.submit(plan_case, case, digest)
            except BrokenProcessPool:  # it died idle, of nothing that this job did
                _end(pool)
                pool = _pool(1)
                begun = pool.submit(plan_case, case, digest)
            try:
                yield begun.result()
            except BrokenProcessPool:
                yield CaseResult(name=case.name, varied=case.varied, outcome="failed", said=DIED)
                _end(pool)
                pool = _pool(1)
    finally:
        _end(pool)


def _pool(processes: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(processes, mp_context=get_context("spawn"), initializer=_begin)


def _begin() -> None:
    """Get a process ready: Ctrl-C is for the one that asked, and this one ends where that does."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _end(pool: ProcessPoolExecutor) -> None:
    """End a pool without waiting for what it works on."""
    workers = tuple((pool._processes or {}).values())  # noqa: SLF001  the pool has no other way
    pool.shutdown(wait=False, cancel_futures=True)
    for one in workers:
        one.terminate()
    for one in workers:
        one.join()
