"""Ask every address what its OpenAPI description allows, and more, and hold the answers to it.

    pip install -r validation/fuzz/requirements.txt     # into an environment of its own
    python validation/fuzz/described.py [--examples 300] [--seed 1]

Requests are made by Schemathesis from ``docs/openapi.json``; job numbers that are there and fields
that the pages have are put in their place, or nothing behind them would be reached.
"""

from __future__ import annotations

import argparse
import collections
import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings

ROOT = Path(__file__).resolve().parents[2]
sys.path += [str(Path(__file__).parent), str(ROOT / "tests" / "property")]

from strapwright.service.compiler_cache import prepare_cache  # noqa: E402

prepare_cache()

import judging  # noqa: E402
import test_described_answers as described  # noqa: E402


def main() -> int:
    """Ask, and say how many requests were answered how, and what was wrong."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("--examples", type=int, default=300, help="for each address")
    words.add_argument("--seed", type=int, default=1)
    asked = words.parse_args()
    schema = schemathesis.openapi.from_dict(described.WRITTEN)
    bench = judging.Bench()
    answered: collections.Counter[int] = collections.Counter()
    wrong: dict[str, str] = {}
    for found in schema.get_all_operations():
        operation = found.ok()
        name = f"{operation.method.upper()} {operation.path}"
        if (operation.method.lower(), operation.path) in described.LEFT_OUT:
            continue
        how = settings(
            max_examples=asked.examples, deadline=None, database=None,
            suppress_health_check=list(HealthCheck), phases=[Phase.generate, Phase.shrink],
        )  # fmt: skip
        try:
            seed(asked.seed)(how(_asking(bench, operation, answered)))()
        except Exception as error:  # noqa: BLE001  whatever it is, it is what is looked for
            wrong[name] = f"{type(error).__name__}: {error}"[:600]
            print(f"{name}: {wrong[name]}", flush=True)
    bench.close()
    print(json.dumps({"answers": dict(sorted(answered.items())), "wrong": wrong}, indent=1))
    return 1 if wrong else 0


def _asking(
    bench: judging.Bench, operation: Any, answered: collections.Counter[int]
) -> Callable[[], None]:
    """Return what asks an address and holds the answer to its description."""
    method, path = operation.method.lower(), operation.path
    own = described.WRITTEN["paths"][path][method]

    @given(case=operation.as_strategy(), drawn=described.requests(bench.job, path, method))
    def ask(case: schemathesis.Case, drawn: tuple[str | None, bytes, bytes]) -> None:
        # An address that is there, with what the description allows beside it.
        address, query, body = drawn
        typed = case.body if isinstance(case.body, dict) else {}
        if method == "post" and typed:
            body = urlencode(typed, errors="replace").encode()
        if case.query:
            query = urlencode(case.query, doseq=True, errors="replace").encode()
        if address is None:
            return
        status, headers, answer = bench.loop.run_until_complete(
            judging.asked(bench.app, method.upper(), address, body, query)
        )
        answered[status] += 1
        described.assert_as_described(own, status, headers, answer)

    return ask


if __name__ == "__main__":
    sys.exit(main())
