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
from pathlib import Path
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
    """Ask, and say how many requests of each address were answered how, and what was wrong."""
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
        method, path = operation.method, operation.path
        if (method.lower(), path) in described.LEFT_OUT:
            continue
        own = described.WRITTEN["paths"][path][method.lower()]

        def hold(
            case: schemathesis.Case,
            drawn: tuple[str | None, bytes, bytes],
            own: dict = own,
        ) -> None:
            # Half of each: an address that is there, and what the description alone allows.
            address, query, body = drawn
            typed = case.body if isinstance(case.body, dict) else {}
            if case.method == "POST" and typed:
                body = urlencode(typed, errors="replace").encode()
            if case.query:
                query = urlencode(case.query, doseq=True, errors="replace").encode()
            if address is None:
                return
            status, headers, answer = bench.loop.run_until_complete(
                judging.asked(bench.app, case.method, address, body, query)
            )
            answered[status] += 1
            described.assert_as_described(own, status, headers, answer)

        tried = seed(asked.seed)(
            settings(
                max_examples=asked.examples, deadline=None, database=None,
                suppress_health_check=list(HealthCheck), phases=[Phase.generate, Phase.shrink],
            )(
                given(
                    case=operation.as_strategy(),
                    drawn=described.requests(bench.job, path, method.lower()),
                )(hold)
            )
        )  # fmt: skip
        try:
            tried()
        except Exception as error:  # noqa: BLE001  whatever it is, it is what is looked for
            wrong[f"{method} {path}"] = f"{type(error).__name__}: {error}"[:600]
            print(f"{method} {path}: {wrong[f'{method} {path}']}", flush=True)
    bench.close()
    print(json.dumps({"answers": dict(sorted(answered.items())), "wrong": wrong}, indent=1))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
