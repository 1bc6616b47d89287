"""Money over years: the yearly payment that pays back a sum with interest."""

from __future__ import annotations

from strapwright.errors import InputError


def recovery_factor(interest: float, years: float) -> float:
    """Return the yearly payment for one unit of money lent now, paid at the end of each year.

    A/P = i (1 + i)^n / ((1 + i)^n - 1), 1/n without interest; the capital recovery factor of any
    textbook of engineering economy.

    Parameters
    ----------
    interest
        A year, as a share [-].
    years
        Above 0.

    Raises
    ------
    InputError
        Where years or interest cannot be.
    """
    if not years > 0:
        raise InputError("years", "the years are not above 0", "give for example 5")
    if interest < 0:
        raise InputError("interest", "the interest is negative", "give 0 or more, 0.08 for 8%")
    if interest == 0:
        return 1.0 / years
    grown = (1.0 + interest) ** years
    return float(interest * grown / (grown - 1.0))
