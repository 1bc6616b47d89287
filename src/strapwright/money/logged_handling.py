"""What the log shows of the time that laying a part in takes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import evolve, frozen

from strapwright.errors import InputError
from strapwright.shop.shop_rates import ShopRates

# Bends that a median is taken of, at least; common practice, no source.
LEAST = 5


@frozen(kw_only=True)
class LoggedHandling:
    """Times of the log beside the rate of the shop.

    Attributes
    ----------
    count
        Bends that were timed.
    middle
        Their median [min]; ``None`` of fewer than ``LEAST``.
    stated
        To lay a part in, as the rates say [min].
    used
        Whether hours are made from the log.
    """

    count: int
    middle: float | None
    stated: float
    used: bool = False


def logged_handling(times: Sequence[float], rates: ShopRates) -> LoggedHandling:
    """Set the times of the log beside the rate.

    Parameters
    ----------
    times
        To lay a part in for one bend, without the push [min].
    rates
        Of the shop.
    """
    return LoggedHandling(
        count=len(times),
        middle=float(np.median(times)) if len(times) >= LEAST else None,
        stated=rates.time.handle,
    )


def use_logged(found: LoggedHandling, rates: ShopRates) -> tuple[LoggedHandling, ShopRates]:
    """Take the time of the log instead of the rate.

    Parameters
    ----------
    found
        As of :func:`logged_handling`.
    rates
        Of the shop.

    Raises
    ------
    InputError
        If too few bends were timed.
    """
    if found.middle is None:
        raise InputError(
            "log", f"it has {found.count} timed bends, and {LEAST} are needed",
            "log more bends with their minutes, or leave the rate of the rates file",
        )  # fmt: skip
    time = evolve(rates.time, handle=found.middle)
    return evolve(found, used=True), evolve(rates, time=time)
