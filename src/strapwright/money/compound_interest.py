"""Money over years: the yearly payment that pays back a sum with interest."""

from __future__ import annotations

import math

from strapwright.errors import InputError

_LONGEST = 100  # years; more is a slip
_DEAREST = 10  # a year, as a share; more is a slip


def recovery_factor(interest: float, years: float) -> float:
    """Return the yearly payment for one unit of money lent now, paid at the end of each year.

    A/P = i (1 + i)^n / ((1 + i)^n - 1), 1/n without interest; the capital recovery factor of any
    textbook of engineering economy.  Written as -i / expm1(-n log1p(i)), which keeps its digits at
    a small interest and has no power that can overflow.

    Parameters
    ----------
    interest
        A year, as a share [-].
    years
        Above 0, at most 100.

    Raises
    ------
    InputError
        Where years or interest cannot be.
    """
    if not 0 < years <= _LONGEST:
        raise InputError("years", f"the years are not from 0 to {_LONGEST}", "give for example 5")
    if not 0 <= interest <= _DEAREST:
        raise InputError(
            "interest", f"the interest is not from 0 to {_DEAREST} a year", "write 0.08 for 8 %"
        )
    if interest == 0:
        return 1.0 / years
    return -interest / math.expm1(-years * math.log1p(interest))
