"""A search for the order of a job, or for what would make it, in a process of its own.

What comes in is one pickled :class:`AskedOrder` or :class:`AskedRemedies`; what goes out is the
pickled plan, or nothing where the search failed.  The input stays open as long as somebody waits;
when it closes, the search ends.
"""

from __future__ import annotations

import os
import pickle
import signal
import sys
import threading
from typing import TYPE_CHECKING

from attrs import frozen

from strapwright.service.compiler_cache import prepare_cache

if TYPE_CHECKING:
    from strapwright.planning.from_the_log.learned_job import LearnedJob
    from strapwright.planning.hits_and_stacks.ordered_bends import FoundOrder
    from strapwright.planning.plan_values import Plan
    from strapwright.shop.job import Job

_GENTLE = 10  # nice; pages come first on a small machine


@frozen(kw_only=True)
class AskedOrder:
    """What a search for an order is asked from.

    Attributes
    ----------
    job, learned
        The job, and what the log says of it.
    seconds
        How long it may take [s].
    found_before
        Order that a search of this job ended with; used where it is proven.
    """

    job: Job
    learned: LearnedJob | None
    seconds: float
    found_before: FoundOrder | None = None

    def answer(self) -> Plan:
        """Search, and plan with what is found."""
        from strapwright.planning.plan import plan  # noqa: PLC0415
        from strapwright.service.search_clock import worked_within  # noqa: PLC0415

        known = self.found_before
        return plan(
            self.job,
            keep_going=worked_within(self.seconds),
            learned=self.learned,
            found_before=known if known is not None and known.proven else None,
        )


@frozen(kw_only=True)
class AskedRemedies:
    """What a search for what would make a refused part is asked from.

    Attributes
    ----------
    job, made
        The job, and its plan.
    seconds
        How long it may take [s].
    """

    job: Job
    made: Plan
    seconds: float

    def answer(self) -> Plan:
        """Search, and return the plan with what was found."""
        from strapwright.remedies.carrying import with_remedies  # noqa: PLC0415
        from strapwright.remedies.search_figures import find_remedies  # noqa: PLC0415
        from strapwright.service.search_clock import worked_within  # noqa: PLC0415

        in_time = worked_within(self.seconds)
        return with_remedies(self.made, find_remedies(self.job, self.made, keep_going=in_time))


Asked = AskedOrder | AskedRemedies


def main() -> int:
    """Search, and answer with the plan.

    Returns
    -------
    int
        Exit code, 0.
    """
    prepare_cache()  # before anything that is read imports the compiler
    asked: Asked = pickle.load(sys.stdin.buffer)  # noqa: S301  of the process that started this
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is meant for who asks, who then goes
    threading.Thread(target=_end_with_the_asker, daemon=True).start()
    if hasattr(os, "nice"):
        os.nice(_GENTLE)
    made = asked.answer()
    pickle.dump(made, sys.stdout.buffer)
    sys.stdout.buffer.flush()
    return 0


def _end_with_the_asker() -> None:
    sys.stdin.buffer.read()
    os._exit(1)


if __name__ == "__main__":
    sys.exit(main())
