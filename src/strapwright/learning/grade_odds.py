"""Which grades an unknown bar may be: odds by trial bends and the tests of the bench.

Bayes' rule over the metals of the catalog, each as likely before as any other.  A trial bend speaks
by how well each metal explains its readings (Laplace's approximation), a test of the bench by
whether the metal shows it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from attrs import frozen

from strapwright.catalog.bench_tests import TESTS, bench_tests

# Share of tests that are read right; the rest is spread over the other results (common practice,
# no source): a spark is harder to read than a magnet.
RIGHT: Mapping[str, float] = {"magnet": 0.97, "spark": 0.85, "scratch": 0.97}
# The stated set holds the true grade at least this often by its own odds.
_HELD = 0.95


@frozen(kw_only=True)
class Odds:
    """What an unknown bar may be.

    Attributes
    ----------
    odds
        Name of a metal and how likely it is, the likeliest first; all of them.
    stated
        The fewest that hold it 95 times in 100.
    next_test
        Test of the bench that would tell most, or ``bend``; ``None`` where one grade is left.
    """

    odds: tuple[tuple[str, float], ...]
    stated: tuple[str, ...]
    next_test: str | None


def odds_of(evidence: Mapping[str, float], seen: Mapping[str, str], *, bent: bool) -> Odds:
    """Return what a bar may be.

    Parameters
    ----------
    evidence
        Name of a metal -> logarithm of how well it explains the trial bends; 0 for all before any.
    seen
        Name of a test of the bench -> what it showed.
    bent
        Whether there was a trial bend already.
    """
    logs = {
        name: value + sum(math.log(_chance(name, test, shown)) for test, shown in seen.items())
        for name, value in evidence.items()
    }
    top = max(logs.values())
    weights = {name: math.exp(value - top) for name, value in logs.items()}
    total = sum(weights.values())
    odds = sorted(((name, w / total) for name, w in weights.items()), key=_likely)
    stated: list[str] = []
    held = 0.0
    for name, share in odds:
        if held >= _HELD:
            break
        stated.append(name)
        held += share
    return Odds(
        odds=tuple(odds),
        stated=tuple(stated),
        next_test=_next(dict(odds), seen, bent=bent) if len(stated) > 1 else None,
    )


def must_not_weld(stated: tuple[str, ...]) -> tuple[str, ...]:
    """Return which of the grades that a bar may be take no arc like mild steel."""
    table = bench_tests()
    return tuple(name for name in stated if not table[name].weld)


def _likely(one: tuple[str, float]) -> float:
    return -one[1]


def _chance(name: str, test: str, shown: str) -> float:
    right = RIGHT[test]
    if bench_tests()[name].shows[test] == shown:
        return right
    return (1.0 - right) / (len(TESTS[test]) - 1)


def _next(odds: Mapping[str, float], seen: Mapping[str, str], *, bent: bool) -> str | None:
    """The test that leaves least to guess: least expected entropy."""
    now = _entropy(odds)
    left = {
        test: sum(
            _shown(odds, test, result) * _entropy(_after(odds, test, result)) for result in results
        )
        for test, results in TESTS.items()
        if test not in seen
    }
    best = min(left, key=lambda test: left[test], default=None)
    # A test that takes off less than a tenth of what is left to guess is not worth its time; a
    # bend, whose readings spread over the strengths, then is (common practice, no source).
    if best is not None and left[best] < 0.9 * now:
        return best
    return None if bent else "bend"


def _shown(odds: Mapping[str, float], test: str, result: str) -> float:
    return sum(share * _chance(name, test, result) for name, share in odds.items())


def _after(odds: Mapping[str, float], test: str, result: str) -> dict[str, float]:
    both = {name: share * _chance(name, test, result) for name, share in odds.items()}
    total = sum(both.values())
    return {name: share / total for name, share in both.items()}


def _entropy(odds: Mapping[str, float]) -> float:
    return -sum(share * math.log(share) for share in odds.values() if share > 0.0)
