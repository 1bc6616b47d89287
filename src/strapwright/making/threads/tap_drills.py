"""Which drill leaves the hole for a thread, and how deep it goes."""

from __future__ import annotations

from collections.abc import Iterable

from strapwright.catalog.thread_sizes import Thread, chart_drill
from strapwright.making.plate_values import Cutter

# Percentage of full thread: aim, and limits within which a drill will do; common practice.
AIM, AIM_DEEP, PERCENT_LOW, PERCENT_HIGH = 75.0, 65.0, 55.0, 85.0
_ALIKE_PERCENT = (
    5.0  # within which of the aim a drill of the thread's own system is taken; likewise
)
DEEP = 1.5  # diameters; a deeper thread gains no strength and breaks taps


def best_tap_drill(thread: Thread, drills: Iterable[Cutter], *, aim: float = AIM) -> Cutter | None:
    """Return the drill whose percentage of thread is nearest to the aim [%], or ``None``.

    Parameters
    ----------
    thread
        To be tapped.
    drills
        To choose from; only those between 55 and 85 % count.  Of those about as near to the aim one
        in the units of the thread is taken: a shop that taps inches has fractions, numbers and
        letters.
    aim
        Percentage of a full thread [%].
    """
    fit = [one for one in drills if PERCENT_LOW <= thread.percent(one.diameter) <= PERCENT_HIGH]
    chart = chart_drill(thread)
    if chart is not None and aim == AIM:  # what a chart on the wall says is found at once
        fit = [one for one in fit if abs(one.diameter - chart.diameter) < 1e-6] or fit

    def rank(one: Cutter) -> tuple[bool, bool, float, float]:
        off = abs(thread.percent(one.diameter) - aim)
        return off > _ALIKE_PERCENT, one.metric != thread.metric, off, one.diameter

    return min(fit, key=rank, default=None)


def drill_deeper(thread: Thread) -> float:
    """Return how much deeper to drill a blind hole than its thread [mm]: five pitches.

    Common practice for a plug tap, no source.
    """
    return 5 * thread.pitch
