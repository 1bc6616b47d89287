"""A longer search for the order of a job, in a process of its own.

What comes in is one pickled :class:`AskedOrder`; what goes out is the pickled plan, or nothing
where the search failed.  The input stays open as long as somebody waits; when it closes, the search
ends.
"""

from __future__ import annotations

import os
import pickle
import signal
import sys
import threading

from attrs import frozen

from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.service.compiler_cache import prepare_cache
from strapwright.shop.job import Job

_GENTLE = 10  # nice; pages come first on a small machine


@frozen(kw_only=True)
class AskedOrder:
    """What a longer search is asked from.

    Attributes
    ----------
    job, learned
        The job, and what the log says of it.
    seconds
        How long it may take [s].
    """

    job: Job
    learned: LearnedJob | None
    seconds: float


def main() -> int:
    """Search, and answer with the plan.

    Returns
    -------
    int
        Exit code, 0.
    """
    asked: AskedOrder = pickle.load(sys.stdin.buffer)  # noqa: S301  of the process that started this
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is meant for who asks, who then goes
    threading.Thread(target=_end_with_the_asker, daemon=True).start()
    if hasattr(os, "nice"):
        os.nice(_GENTLE)
    prepare_cache()  # before the compiler is imported
    from strapwright.planning import plan  # noqa: PLC0415
    from strapwright.service.search_clock import within  # noqa: PLC0415

    made = plan(asked.job, keep_going=within(asked.seconds), learned=asked.learned)
    pickle.dump(made, sys.stdout.buffer)
    sys.stdout.buffer.flush()
    return 0


def _end_with_the_asker() -> None:
    sys.stdin.buffer.read()
    os._exit(1)


if __name__ == "__main__":
    sys.exit(main())
