"""Throw made-up inputs at the program for as long as it is let, and go on where it was stopped.

    python validation/fuzz/run.py FOLDER [--minutes 10] [--kinds quantities,jobs] [--seed 1]

FOLDER keeps how many of each kind are done (``state.json``) and each input that found something.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from pathlib import Path

sys.path.append(str(Path(__file__).parent))

from strapwright.service.compiler_cache import load_loops, prepare_cache

prepare_cache()

import inputs  # noqa: E402
import judging  # noqa: E402

# Inputs of a kind in one turn: about a second each, so that all kinds grow side by side.
TURN = {
    "quantities": 6000, "limits": 1200, "jobs": 250, "plans": 15,
    "json": 6000, "uploads": 150, "backups": 150, "forms": 25,
}  # fmt: skip


def main() -> int:
    """Run, and say how many inputs of each kind have been tried and what they found."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("folder", type=Path)
    words.add_argument("--minutes", type=float, default=10.0)
    words.add_argument("--kinds", default=",".join(inputs.KINDS))
    words.add_argument("--seed", type=int, default=1)
    asked = words.parse_args()
    asked.folder.mkdir(parents=True, exist_ok=True)
    state = asked.folder / f"state-{asked.seed}.json"
    done: dict[str, int] = json.loads(state.read_text()) if state.exists() else {}
    until = time.monotonic() + 60 * asked.minutes
    kinds = asked.kinds.split(",")
    load_loops()  # the compiler's work is nobody's hang
    bench = judging.Bench()
    found = 0
    try:
        while time.monotonic() < until:
            for kind in kinds:
                found += turn(bench, kind, asked.seed, done, asked.folder)
                fresh = state.with_suffix(".new")
                fresh.write_text(json.dumps(done, indent=1) + "\n")
                fresh.replace(state)  # never half written, however this ends
                if time.monotonic() >= until:
                    break
    except KeyboardInterrupt:
        print("stopped; the same call goes on from here")
    finally:
        bench.close()
    for kind, count in sorted(done.items()):
        print(f"{kind:12} {count:9,}")
    print(f"{'in all':12} {sum(done.values()):9,}   found now: {found}")
    return 1 if found else 0


def turn(bench: judging.Bench, kind: str, seed: int, done: dict[str, int], folder: Path) -> int:
    """Try one turn of a kind, keep what finds something, and return how many did."""
    found = 0
    first = done.get(kind, 0)
    for number in range(first, first + TURN[kind]):
        made, wrong = judging.judged(bench, kind, seed, number)
        if wrong:
            found += 1
            raw = made if isinstance(made, bytes) else made.encode("utf-8", "surrogatepass")
            (folder / f"{kind}-{seed}-{number}.input").write_bytes(raw)
            print(f"{kind} {number}: {wrong}", flush=True)
    done[kind] = first + TURN[kind]
    return found


if __name__ == "__main__":
    sys.exit(main())
