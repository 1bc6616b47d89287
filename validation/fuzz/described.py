"""Ask every address what its OpenAPI description allows, and more, and hold the answers to it.

    pip install -r validation/fuzz/requirements.txt     # into an environment of its own
    python validation/fuzz/described.py FOLDER [--rounds 30] [--minutes 10] [--seed 1]

Requests are made by Schemathesis from ``docs/openapi.json``; job numbers that are there and fields
that the pages have are put in their place, or nothing behind them would be reached.  A round asks
every address ten times, of a store of its own; so what one request leaves behind meets the others,
and never more than a round's.  FOLDER keeps how many rounds are done, how they were answered and
what was found (``described-SEED.json``); the same call goes on from there, and ends after the last
round.
"""

from __future__ import annotations

import argparse
import collections
import json
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings

ROOT = Path(__file__).resolve().parents[2]
sys.path += [str(Path(__file__).parent), str(ROOT / "tests" / "property")]

from strapwright.service.compiler_cache import load_loops, prepare_cache  # noqa: E402

prepare_cache()

import judging  # noqa: E402
import test_described_answers as described  # noqa: E402

EACH = 10  # requests of an address in a round
PATIENCE = 60.0  # s for an answer to come to its end; many streams have none by themselves
Request = tuple[str, str, bytes, bytes]  # method, address, query, body


def main() -> int:
    """Ask, and say how many requests were answered how, and what was wrong."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("folder", type=Path)
    words.add_argument("--rounds", type=int, default=30, help="in all, with those that are done")
    words.add_argument("--minutes", type=float, default=10.0)
    words.add_argument("--seed", type=int, default=1)
    asked = words.parse_args()
    asked.folder.mkdir(parents=True, exist_ok=True)
    kept = asked.folder / f"described-{asked.seed}.json"
    state: dict[str, Any] = {"rounds": 0, "answers": {}, "found": []}
    if kept.exists():
        state = json.loads(kept.read_text())
    operations = [
        found.ok()
        for found in schemathesis.openapi.from_dict(described.WRITTEN).get_all_operations()
    ]
    load_loops()  # the compiler's work is nobody's hang
    until = time.monotonic() + 60 * asked.minutes
    try:
        while state["rounds"] < asked.rounds and time.monotonic() < until:
            ask_round(operations, asked.seed, state)
            fresh = kept.with_suffix(".new")
            fresh.write_text(json.dumps(state, indent=1) + "\n")
            fresh.replace(kept)  # never half written, however this ends
            print(f"{state['rounds']} of {asked.rounds} rounds", flush=True)
    except KeyboardInterrupt:
        print("stopped; the same call goes on from the last whole round")
    print(json.dumps(state["answers"]))
    print(f"{sum(state['answers'].values()):,} requests, found: {len(state['found'])}")
    return 1 if state["found"] else 0


def ask_round(operations: list[Any], number: int, state: dict[str, Any]) -> None:
    """Ask every address, and add to the state what came of it once all are asked."""
    answers: collections.Counter[str] = collections.Counter(state["answers"])
    found = list(state["found"])
    bench = judging.Bench()
    try:
        for operation in operations:
            method, path = operation.method.lower(), operation.path
            if (method, path) in described.LEFT_OUT:
                continue
            own = described.WRITTEN["paths"][path][method]
            begun = f"{number} {state['rounds']} {method} {path}"
            for request in requests_of(operation, bench.job, begun):
                status, wrong = judged(bench, own, request)
                answers[str(status or "no answer")] += 1
                if wrong:
                    one = {
                        "round": state["rounds"], "wrong": wrong, "asked": " ".join(request[:2]),
                        "query": request[2].decode(), "body": request[3].decode(),
                    }  # fmt: skip
                    found.append(one)
                    print(json.dumps(one), flush=True)
                if status is None:  # it may still be at work on the store
                    bench.close()
                    bench = judging.Bench()
    finally:
        bench.close()
    state |= {"rounds": state["rounds"] + 1, "answers": answers, "found": found}


def judged(bench: judging.Bench, own: dict[str, Any], request: Request) -> tuple[int | None, str]:
    """Ask, and give the status, where it was answered, and what is wrong with the answer."""
    method, address, query, body = request
    status = None

    def ask() -> str:
        nonlocal status
        status, headers, answer = bench.answer(method, address, body, query, patience=PATIENCE)
        described.assert_as_described(own, status, headers, answer)
        return ""

    wrong = judging.caught(ask)
    return status, wrong


def requests_of(operation: Any, job: str, begun: str) -> Iterator[Request]:
    """Make the requests of an address that is there, with what the description allows beside it."""
    method, path = operation.method.lower(), operation.path
    made: list[Request] = []

    @seed(begun)
    @settings(
        max_examples=EACH, deadline=None, database=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(case=operation.as_strategy(), drawn=described.requests(job, path, method))
    def make(case: schemathesis.Case, drawn: tuple[str | None, bytes, bytes]) -> None:
        address, query, body = drawn
        if address is None:
            return
        if method == "post" and isinstance(case.body, dict) and case.body:
            body = urlencode(case.body, errors="replace").encode()
        if case.query:
            query = urlencode(case.query, doseq=True, errors="replace").encode()
        made.append((method.upper(), address, query, body))

    make()
    yield from made


if __name__ == "__main__":
    sys.exit(main())
