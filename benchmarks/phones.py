"""Twenty phones at one server: how long answers take, what memory it needs, whether readings stay.

``python3 start.py bench phones [--phones 20] [--minutes 10] [--pace 60]`` starts a server of its
own that shares a store in a temporary folder at one loopback address.  Each phone comes from a
loopback address of its own, joins by the printed code, keeps a page of a job open, looks at its
bends, and logs a reading every ``--pace`` seconds; two phones share a job.  At the end the server
is killed as a power cut would, and every reading that was acknowledged is looked for in the store.
Nothing is sent to another machine.  Prints one JSON object; the exit code is 1 where one is lost.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import numpy as np

from strapwright.service.demo import JOBS, NAMES
from strapwright.store import open_store

OWN, NETWORK = "127.0.0.1", "127.0.0.2"
BEAT = 3.0  # s; as follow.js asks
PATIENCE = 120.0  # s for one answer
FIRST = 900.0  # s for the very first plan, which may wait for the compiler
BENDS = 2  # bends of a part that are logged; every job of the demonstration has them


class Served:
    """A server that shares its pages at two loopback addresses."""

    def __init__(self, folder: Path) -> None:
        self.process = subprocess.Popen(
            [
                *(sys.executable, "-m", "strapwright", "serve", "--port", "0"),
                *("--store", str(folder), "--share", "--address", NETWORK),
            ],
            stdout=subprocess.PIPE,
            text=True,
            env=dict(os.environ),
        )
        self.own = self.link = ""
        while not (self.own and self.link):
            said = "" if self.process.stdout is None else self.process.stdout.readline()
            if not said:
                raise SystemExit("the server ended before it listened")
            self.own = self.own or next(iter(re.findall(rf"http://{OWN}:\d+", said)), "")
            self.link = self.link or next(
                iter(re.findall(rf"http://{NETWORK}:\d+/join\S+", said)), ""
            )

    @property
    def memory(self) -> float:
        """Resident memory [MB]."""
        said = Path(f"/proc/{self.process.pid}/status").read_text("ascii")
        return int(re.findall(r"VmRSS:\s+(\d+)", said)[0]) / 1024

    def kill(self) -> None:
        """End it as a power cut would."""
        self.process.kill()
        self.process.communicate()


@contextmanager
def served(folder: Path) -> Iterator[Served]:
    server = Served(folder)
    try:
        yield server
    finally:
        server.kill()


class Taken:
    """Times of answers by kind; safe to use from several threads."""

    def __init__(self) -> None:
        self.times: dict[str, list[float]] = defaultdict(list)
        self.failed: list[str] = []
        self._lock = threading.Lock()

    def ask(self, kind: str, what: Callable[[], httpx.Response]) -> httpx.Response | None:
        begun = time.perf_counter()
        try:
            answer = what()
        except httpx.HTTPError as error:
            with self._lock:
                self.failed.append(f"{kind}: {type(error).__name__}")
            return None
        with self._lock:
            self.times[kind].append(time.perf_counter() - begun)
            if answer.status_code not in (200, 303):
                self.failed.append(f"{kind}: {answer.status_code}")
        return answer

    def summary(self) -> dict[str, dict[str, float]]:
        return {
            kind: {
                "answers": len(times),
                "p50_ms": round(1000 * statistics.median(times), 1),
                "p95_ms": round(1000 * percentile(times, 0.95), 1),
                "longest_ms": round(1000 * max(times), 1),
            }
            for kind, times in sorted(self.times.items())
        }


def percentile(times: list[float], share: float) -> float:
    """By the nearest rank."""
    return sorted(times)[math.ceil(share * len(times)) - 1]


class Phone(threading.Thread):
    """One device at the press, with an address of its own."""

    def __init__(
        self, number: int, job: str, link: str, taken: Taken, options: argparse.Namespace
    ) -> None:
        super().__init__(daemon=True)
        self.number, self.job, self.taken, self.options = number, job, taken, options
        self.link, self.origin = link, link.partition("/join")[0]
        self.kept: list[str] = []
        self.random = np.random.default_rng(number)
        self.tab = f"{number:032x}"
        self.client = httpx.Client(
            transport=httpx.HTTPTransport(local_address=f"127.0.1.{number}"),
            base_url=self.origin, headers={"origin": self.origin}, timeout=PATIENCE,
        )  # fmt: skip

    def run(self) -> None:
        with self.client:
            self.taken.ask("join", lambda: self.client.get(self.link))
            end = time.monotonic() + 60 * self.options.minutes
            # Each begins at another moment of its first minute.
            due = time.monotonic() + self.random.random() * self.options.pace
            while time.monotonic() < end:
                self.taken.ask(
                    "who looks", lambda: self.client.get(f"/live/{self.job}/now?tab={self.tab}")
                )
                if time.monotonic() >= due:
                    due += self.options.pace
                    self.bend_one()
                time.sleep(BEAT * self.random.uniform(0.8, 1.2))

    def bend_one(self) -> None:
        """Look at a bend, play it, and log what it measures."""
        count = len(self.kept)
        part, bend = 1 + count // BENDS + 100 * self.number, 1 + count % BENDS
        root = f"/jobs/{self.job}"
        self.taken.ask("bend page", lambda: self.client.get(f"{root}/bends/{bend}"))
        self.taken.ask("frames", lambda: self.client.get(f"{root}/bends/{bend}/frames.json"))
        self.taken.ask("log page", lambda: self.client.get(f"{root}/log?part={part}&bend={bend}"))
        note = f"phone {self.number} reading {count}"
        typed = {
            "part": str(part), "bend": str(bend), "note": note, "sure": "yes",
            "angle": f"{self.random.normal(80.0, 1.0):.1f}",
        }  # fmt: skip
        answer = self.taken.ask(
            "keep a reading", lambda: self.client.post(f"{root}/log", data=typed)
        )
        if answer is not None and answer.status_code == 303:
            self.kept.append(note)


def main() -> int:
    parser = argparse.ArgumentParser(description="Twenty phones at one server.")
    parser.add_argument("--phones", type=int, default=20, help="how many (20, at most 50)")
    parser.add_argument("--minutes", type=float, default=10.0, help="how long (10, at most 30)")
    parser.add_argument("--pace", type=float, default=60.0, help="s between readings (60)")
    options = parser.parse_args()
    if not (0 < options.phones <= 50 and 0 < options.minutes <= 30 and options.pace >= 1):
        parser.error("1 to 50 phones, up to 30 minutes, 1 s or more between readings")
    taken, memory = Taken(), list[float]()
    with tempfile.TemporaryDirectory() as folder:
        store = Path(folder) / "store"
        with served(store) as server:
            phones = begun(server, taken, options)
            for one in phones:
                one.start()
            while any(one.is_alive() for one in phones):
                memory.append(server.memory)
                time.sleep(2.0)
            load = os.getloadavg()[0]
        acknowledged = sorted(note for one in phones for note in one.kept)
        with open_store(store) as again:
            there = sorted(line.typed["note"] for line in again.log.lines())
    lost = [one for one in acknowledged if one not in set(there)]
    found = {
        "phones": options.phones,
        "minutes": options.minutes,
        "answers": taken.summary(),
        "failed": taken.failed[:20],
        "memory_MB": {
            "first": round(memory[0]),
            "most": round(max(memory)),
            "last": round(memory[-1]),
        },
        "readings_acknowledged": len(acknowledged),
        "readings_in_the_store": len(there),
        "kept_twice": len(there) - len(set(there)),
        "lost": lost,
        "load_of_the_machine": round(load, 1),
    }
    print(json.dumps(found, indent=2))
    return 1 if lost or not acknowledged else 0


def begun(server: Served, taken: Taken, options: argparse.Namespace) -> list[Phone]:
    """Keep a job for every two phones and make the phones."""
    with httpx.Client(
        base_url=server.own, headers={"origin": server.own}, timeout=PATIENCE
    ) as desk:
        jobs = []
        for number in range((options.phones + 1) // 2):
            name = NAMES[number % len(NAMES)]
            text = (JOBS / f"{name}.toml").read_bytes()
            answer = desk.post("/bring", files={"file": (f"{name}-{number}.toml", text)})
            jobs.append(answer.headers["location"].split("/")[2])
        for job in jobs:  # planned once, as a person does before the press
            desk.get(f"/jobs/{job}/bends").raise_for_status()
    return [
        Phone(number, jobs[(number - 1) // 2], server.link, taken, options)
        for number in range(1, options.phones + 1)
    ]


if __name__ == "__main__":
    sys.exit(main())
