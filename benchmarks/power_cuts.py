"""Cut the power at every moment of savings, on paper, and look for anything lost or half written.

    python benchmarks/power_cuts.py [--cuts 2000] [--seed 1]

What a process asks of the disk is recorded once (``recorded_disk``).  For each of so many moments
the files are then made as a power cut may leave them: what was written through is there, and any
part of the rest in any order.  What was acknowledged before the cut must be there, whole, and the
store must open.  Five things are tried: savings into a new store through several openings, a
backup, a restored backup over a store that was killed, files that commands write, and results of
many jobs.

Linux alone.  Prints one JSON object; exit code 1 where something is wrong.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import recorded_disk
import store_kills
from strapwright.errors import InputError
from strapwright.service.backups import bring_back
from strapwright.service.file_access import write_files, write_new_file
from strapwright.service.many_jobs.case_values import Case, CaseResult
from strapwright.service.many_jobs.kept_results import KeptResults
from strapwright.store import StoreError, backup_store, open_store, verify_file

SAVINGS = 14  # of each opening
OPENINGS = 3
Wrong = Callable[[Path, list[str]], list[str]]
Trial = tuple[Callable[[Path], None], Callable[[Path, Callable[[str], None]], None], Wrong]
_OLD, _NEW = b"old\n" * 700, b"new\n" * 900


def _nothing(folder: Path) -> None:
    del folder


def _saves(folder: Path, say: Callable[[str], None]) -> None:
    for number in range(OPENINGS):
        store_kills.save(folder / "shop" / "store", f"power {number}", say, SAVINGS)


def _store_wrong(folder: Path, said: list[str]) -> list[str]:
    known = store_kills.Known()
    for line in said:
        known.take(line)
    if not said and not (folder / "shop" / "store").exists():
        return []
    return store_kills.faults(folder / "shop" / "store", known)


def _shop_with_savings(folder: Path) -> None:
    store_kills.save(folder / "shop" / "store", "before", lambda _: None, SAVINGS)


def _backs_up(folder: Path, say: Callable[[str], None]) -> None:
    backup_store(folder / "shop" / "store", folder / "whole.db")
    say("backup")


def _backup_wrong(folder: Path, said: list[str]) -> list[str]:
    if not (folder / "whole.db").exists():
        return ["the backup is lost"] if said else []
    return _refusals(lambda: verify_file(folder / "whole.db", sealed=True))


def _backup_and_killed_store(folder: Path) -> None:
    """A backup of one store, and another that was killed with savings not yet taken in."""
    _shop_with_savings(folder)
    backup_store(folder / "shop" / "store", folder / "whole.db")
    child = os.fork()
    if child == 0:
        store_kills.save(folder / "live", "live", _killed_by_a_version, None)
    os.waitpid(child, 0)


def _killed_by_a_version(line: str) -> None:
    if line.startswith("version"):
        os.kill(os.getpid(), signal.SIGKILL)


def _restores(folder: Path, say: Callable[[str], None]) -> None:
    bring_back(folder / "whole.db", folder / "live", aside=True)
    say("restored")


def _restored_wrong(folder: Path, said: list[str]) -> list[str]:
    with tempfile.TemporaryDirectory() as place:
        wanted = Path(place) / "wanted"
        bring_back(folder / "whole.db", wanted)
        came = _items(wanted)
    wrong = _refusals(lambda: open_store(folder / "live").close())
    if wrong:
        return wrong
    found = _items(folder / "live")
    if found == came:
        return []
    if said:
        return ["the restored store is not the backup's"]
    # Not acknowledged: the old one, to its last version.
    return [] if 2 in found.values() else ["neither the old store nor the backup's is there"]


def _items(folder: Path) -> dict[str, int]:
    with open_store(folder) as store:
        return {one.id: one.current for one in store.list()}


def _old_files(folder: Path) -> None:
    write_files(folder / "out", {"rack.toml": _OLD, "cuts.csv": _OLD})


def _writes(folder: Path, say: Callable[[str], None]) -> None:
    write_files(folder / "out", {"rack.toml": _NEW, "cuts.csv": _NEW})
    say("out/rack.toml")
    say("out/cuts.csv")
    write_new_file(folder / "job.toml", _NEW)
    say("job.toml")
    write_files(folder / "new" / "deep", {"plan.json": _NEW})
    say("new/deep/plan.json")


def _files_wrong(folder: Path, said: list[str]) -> list[str]:
    wrong = []
    for name in ("out/rack.toml", "out/cuts.csv", "job.toml", "new/deep/plan.json"):
        path = folder / name
        found = path.read_bytes() if path.exists() else b""
        if found != _NEW and (name in said or found != (_OLD if name.startswith("out") else b"")):
            wrong.append(f"{name} is lost or half written")
        if path.exists() and not found:
            wrong.append(f"{name} is empty")
    return wrong


def _cases() -> Iterator[tuple[Case, CaseResult]]:
    for number in range(6):
        case = Case(name=f"job {number}", text=f"# {number}")
        yield (
            case,
            CaseResult(name=case.name, varied={}, outcome="planned", said="x" * 400 * number),
        )


def _keeps(folder: Path, say: Callable[[str], None]) -> None:
    for half in (0, 1):  # a run, and one that goes on from it
        with KeptResults(folder / "results", "digest") as kept:
            for case, result in list(_cases())[3 * half : 3 * half + 3]:
                kept.keep(case, result)
                say(case.name)


def _results_wrong(folder: Path, said: list[str]) -> list[str]:
    if not said and not (folder / "results").exists():
        return []
    with KeptResults(folder / "results", "digest") as kept:
        found = {case.name: kept.of(case) for case, _ in _cases()}
    wrong = [f"{name} is lost" for name in said if found[name] is None]
    for case, result in _cases():
        there = found[case.name]
        if there is not None and there["said"] != result.said:
            wrong.append(f"{case.name} is half written")
    return wrong


TRIALS: dict[str, Trial] = {
    "savings": (_nothing, _saves, _store_wrong),
    "backup": (_shop_with_savings, _backs_up, _backup_wrong),
    "restoring": (_backup_and_killed_store, _restores, _restored_wrong),
    "files of commands": (_old_files, _writes, _files_wrong),
    "results of many jobs": (_nothing, _keeps, _results_wrong),
}


def _refusals(work: Callable[[], object]) -> list[str]:
    try:
        work()
    except (StoreError, InputError) as error:
        return [str(error)]
    return []


def cut(name: str, cuts: int, seed: int) -> dict[str, Any]:
    """Record one trial, cut the power so many times, and return the figures."""
    prepare, work, wrong_of = TRIALS[name]
    chance = random.Random(f"{name} {seed}")  # noqa: S311 - nothing secret
    wrong: list[str] = []
    with tempfile.TemporaryDirectory() as place:
        root = Path(place).resolve() / "disk"
        root.mkdir()
        prepare(root)
        recorded = recorded_disk.record(root, lambda say: work(root, say))
        if recorded.status != 0:
            raise SystemExit(f"{name}: the work itself ended with {recorded.status}")
        moments = [len(recorded.events), *_moments(recorded, cuts - 1, chance)]
        for number, moment in enumerate(moments):
            left = Path(place) / f"cut {number}"
            left.mkdir()
            recorded_disk.left_by_a_cut(recorded, left, moment, chance)
            said = recorded_disk.said_before(recorded, moment)
            wrong += [f"cut {number} after {moment}: {one}" for one in wrong_of(left, said)]
    return {
        "events": len(recorded.events),
        "acknowledged": len(recorded_disk.said_before(recorded, len(recorded.events))),
        "cuts": len(moments),
        "wrong": wrong,
    }


def _moments(recorded: recorded_disk.Recorded, cuts: int, chance: random.Random) -> list[int]:
    """Every moment in turn where there are cuts enough, else any of them."""
    count = len(recorded.events)
    rounds, rest = divmod(cuts, count)
    return [*(list(range(count)) * rounds), *chance.sample(range(count), rest)]


def main() -> int:
    """Run all trials and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--cuts", type=int, default=2000, help="of each trial")
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    store_kills.warm_up()
    figures = {name: cut(name, given.cuts, given.seed) for name in TRIALS}
    print(json.dumps(figures, indent=1))
    return 1 if any(one["wrong"] for one in figures.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
