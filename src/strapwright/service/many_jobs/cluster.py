"""Jobs planned on several machines, by a scheduler of the Dask distributed engine."""

from __future__ import annotations

import itertools
from asyncio import CancelledError as LostError
from collections.abc import Iterable, Iterator
from concurrent.futures import CancelledError as FuturesLostError
from contextlib import suppress
from typing import Any

from strapwright.errors import InputError
from strapwright.service.many_jobs.case_values import Case, CaseResult
from strapwright.service.many_jobs.planning_a_case import plan_case

_FLAG = "--scheduler"
_PATIENCE = 10.0  # s to reach the scheduler; a local network answers in well under one
_AHEAD = 4  # jobs handed out for each thread of a worker, so that none waits for the network
_LEAST_AHEAD = 16  # and while no worker has come yet
DIED = "Every worker that took it up died."


def plan_on_cluster(cases: Iterable[Case], address: str, digest: str) -> Iterator[CaseResult]:
    """Plan jobs on the workers of a scheduler.

    The engine hands a dead worker's jobs to others; one that kills several workers in turn is
    given up.

    Parameters
    ----------
    cases
        The jobs, taken as they are needed.
    address
        Of the scheduler, e.g. ``tcp://192.168.1.20:8786``.
    digest
        Of this program; a worker of another version refuses.

    Yields
    ------
    CaseResult
        As they are done, in no order.

    Raises
    ------
    InputError
        If the engine is not installed, the scheduler does not answer, or a worker runs another
        version of the program.
    """
    client = _connected(address)
    left = iter(cases)
    under_way: dict[str, Case] = {}
    try:
        from distributed import as_completed  # noqa: PLC0415  an extra

        finished = as_completed(loop=client.loop, raise_errors=False)

        def hand_out() -> None:
            room = max(_AHEAD * _threads(client), _LEAST_AHEAD) - len(under_way)
            for case in itertools.islice(left, max(room, 0)):
                future = client.submit(plan_case, case, digest, pure=False)
                under_way[future.key] = case
                finished.add(future)

        hand_out()
        while under_way:
            future = next(finished)
            case = under_way.pop(future.key)
            result = _result(future, case)
            hand_out()
            yield result
    except (
        OSError,
        LostError,
        FuturesLostError,
    ) as error:  # also what the engine raises where a line breaks
        raise InputError(
            _FLAG,
            f"the scheduler is gone ({type(error).__name__})",
            "start it again and give the same command: what is done is kept",
            value=address,
        ) from None
    finally:
        with suppress(OSError, TimeoutError):
            client.close(timeout=_PATIENCE)


def _connected(address: str) -> Any:
    try:
        from distributed import Client  # noqa: PLC0415  an extra
        from distributed.comm import addressing  # noqa: PLC0415
    except ImportError:
        raise InputError(
            _FLAG,
            "the engine for several machines is not installed",
            "install it with: pip install 'strapwright[many]'",
        ) from None
    try:
        # First, since a client that begins with a wrong one complains once more at its end.
        addressing.parse_host_port(addressing.parse_address(address)[1])
        addressing.resolve_address(address)
        return Client(address, timeout=_PATIENCE, set_as_default=False)
    except (OSError, ValueError, TypeError) as error:
        why = " ".join(str(error).split())[:120]
        raise InputError(
            _FLAG,
            f"no scheduler answers there ({why or type(error).__name__})",
            "start one with: dask scheduler, and give the address that it prints",
            value=address,
        ) from None


def _threads(client: Any) -> int:
    return sum(client.nthreads().values())


def _result(future: Any, case: Case) -> CaseResult:
    """Take the result of a job; a refusal of the worker's own is raised here."""
    from distributed import KilledWorker  # noqa: PLC0415  an extra

    try:
        found = future.result()
    except KilledWorker:
        return CaseResult(name=case.name, varied=case.varied, outcome="failed", said=DIED)
    if not isinstance(found, CaseResult):
        raise InputError(
            _FLAG,
            "a worker gave back something else",
            "install the same version on every machine and start the workers again",
        )
    return found
