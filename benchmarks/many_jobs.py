"""How a study gains from more processes, and from workers on an engine for several machines.

Run by ``python3 start.py bench many_jobs [--plans N]``.  All runs plan the same study, afresh, one
after the other; every figure is also a share of the run with one process.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

EXAMPLES = Path(__file__).resolve().parent.parent / "docs" / "examples"
SHORT = 5  # a run of so many times fewer plans shows what the start takes
PYTHON = [sys.executable, "-m"]
STUDY = """format = 1
units = "inch"
job = "shelf-bracket.toml"
draws = {plans}

[[vary]]
key = "lot.thickness"
between = ["0.245 in", "0.257 in"]
"""


def run(folder: Path, name: str, *flags: str) -> float:
    out = folder / name
    begun = time.perf_counter()
    subprocess.run(
        [*PYTHON, "strapwright", "study", folder / "study.toml", "--out", out, *flags],
        check=True, stdout=subprocess.DEVNULL,
    )  # fmt: skip
    return time.perf_counter() - begun


def write_study(folder: Path, plans: int) -> None:
    (folder / "study.toml").write_text(STUDY.format(plans=plans), encoding="utf-8")


def on_engine(folder: Path, workers: int) -> float:
    said = folder / f"scheduler-{workers}.json"
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    begun = [
        subprocess.Popen(
            [*PYTHON, "distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", "0",
             "--no-dashboard", "--scheduler-file", said], **quiet,
        )
    ]  # fmt: skip
    try:
        while not (said.exists() and said.stat().st_size):
            time.sleep(0.1)
        address = json.loads(said.read_text(encoding="utf-8"))["address"]
        begun += [
            subprocess.Popen(
                [*PYTHON, "distributed.cli.dask_worker", address, "--nthreads", "1", "--no-nanny",
                 "--no-dashboard", "--local-directory", folder / f"worker-{workers}-{number}"],
                **quiet,
            )
            for number in range(workers)
        ]  # fmt: skip
        return run(folder, f"engine-{workers}", "--scheduler", address)
    finally:
        for one in begun:
            one.kill()
            one.wait()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--plans", type=int, default=200, help="how many plans the study has")
    plans = parser.parse_args().plans
    with tempfile.TemporaryDirectory() as there:
        folder = Path(there)
        (folder / "shelf-bracket.toml").write_bytes((EXAMPLES / "shelf-bracket.toml").read_bytes())
        few = max(1, plans // SHORT)
        short = {}
        for count in (1, 2):
            write_study(folder, few)
            short[count] = run(folder, f"short-{count}", "--processes", str(count))
        write_study(folder, plans)
        local = {
            count: run(folder, f"local-{count}", "--processes", str(count)) for count in (1, 2)
        }
        taken = {f"{count} process{'es' if count > 1 else ''}": local[count] for count in (1, 2)}
        for count in (1, 2):
            name = f"engine, {count} worker{'s' if count > 1 else ''}"
            taken[name] = on_engine(folder, count)
        taken["going on with all kept"] = run(folder, "local-2", "--processes", "2")
    alone = taken["1 process"]
    print(f"{plans} plans of one bend, start of the processes included")
    for name, seconds in taken.items():
        each = seconds / plans
        print(f"  {name:<24} {seconds:7.1f} s {1e3 * each:7.0f} ms a plan {seconds / alone:6.2f}")
    further = {count: (local[count] - short[count]) / (plans - few) for count in (1, 2)}
    print(f"each plan after the first {few}, without the start of the processes")
    for count, each in further.items():
        name = f"{count} process{'es' if count > 1 else ''}"
        print(f"  {name:<24} {1e3 * each:17.0f} ms a plan {each / further[1]:6.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
