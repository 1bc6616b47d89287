"""Magnet, spark and scratch: what a bar of each metal shows, as the trade has it."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.steels import table_rows

TESTS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "magnet": ("yes", "no"),
        "spark": ("long", "bursts", "short", "none"),
        "scratch": ("grey", "white", "red", "yellow"),
    }
)


@frozen(kw_only=True)
class BenchTests:
    """What a metal shows.

    Attributes
    ----------
    shows
        Name of a test -> its result.
    weld
        Whether it takes an arc like mild steel.
    """

    shows: Mapping[str, str]
    weld: bool


@functools.cache
def bench_tests() -> Mapping[str, BenchTests]:
    """Return what every known metal of the catalog shows, by its name."""
    return MappingProxyType(
        {
            row["material"]: BenchTests(
                shows=MappingProxyType({name: row[name] for name in TESTS}),
                weld=row["weld"] == "yes",
            )
            for row in table_rows("bench_tests.csv")
        }
    )
