"""What a kept answer takes while another job is planned, against its time alone.

``python benchmarks/side_by_side.py [--rounds 30]`` starts a server of its own, keeps one job's plan
and asks for its page again and again: alone, then while another browser asks for plans that nobody
has asked for yet.  Prints one JSON object; the goal is a ratio of medians of no more than 2.
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import tempfile
import threading
import time
from datetime import UTC, datetime
from pathlib import Path

import httpx

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "e2e"))

from browsing import served

from strapwright.service.demo import JOBS, NAMES
from strapwright.store import import_one, open_store


def main() -> int:
    parser = argparse.ArgumentParser(description="Time a kept plan beside one that is made.")
    parser.add_argument("--rounds", type=int, default=30, help="answers timed each way (30)")
    options = parser.parse_args()
    kept, planned = ((JOBS / f"{name}.toml").read_text(encoding="utf-8") for name in NAMES[:2])
    with tempfile.TemporaryDirectory() as folder:
        with open_store(Path(folder)) as store:
            now = datetime.now(UTC)
            one = import_one(store, "kept.toml", kept.encode(), now).id
            others = [
                import_one(store, f"other-{n}.toml", f"{planned}\n# {n}\n".encode(), now).id
                for n in range(options.rounds)
            ]
        with served(Path(folder)) as server, httpx.Client(base_url=server.address) as client:
            page = f"/jobs/{one}/bends"
            for _ in range(3):
                client.get(page, timeout=120).raise_for_status()
            alone = timed(client, page, options.rounds)
            done, plans = threading.Event(), []
            busy = threading.Thread(
                target=keep_planning, args=(server.address, others, done, plans), daemon=True
            )
            busy.start()
            beside = timed(client, page, options.rounds)
            done.set()
            busy.join()
    found = {
        "kept_alone_median_ms": round(1000 * statistics.median(alone), 1),
        "kept_beside_a_plan_median_ms": round(1000 * statistics.median(beside), 1),
        "ratio_of_medians": round(statistics.median(beside) / statistics.median(alone), 2),
        "longest_beside_ms": round(1000 * max(beside), 1),
        "plans_made_meanwhile": len(plans),
        "plan_median_ms": round(1000 * statistics.median(plans), 1),
    }
    print(json.dumps(found, indent=2))
    return 0


def timed(client: httpx.Client, page: str, rounds: int) -> list[float]:
    """Seconds of each answer, with the pause of a person who reads between them."""
    taken = []
    for _ in range(rounds):
        begun = time.perf_counter()
        client.get(page, timeout=120).raise_for_status()
        taken.append(time.perf_counter() - begun)
        time.sleep(0.02)
    return taken


def keep_planning(address: str, jobs: list[str], done: threading.Event, taken: list[float]) -> None:
    """Ask for plans that are not kept until told to stop; at least one."""
    with httpx.Client(base_url=address) as client:
        for job in jobs:
            begun = time.perf_counter()
            client.get(f"/jobs/{job}/bends", timeout=120).raise_for_status()
            taken.append(time.perf_counter() - begun)
            if done.is_set():
                return


if __name__ == "__main__":
    sys.exit(main())
