"""Kill a program while it saves, over and over, and look for anything lost or half written.

    python benchmarks/store_kills.py [--kills 200] [--backups 10] [--seed 1]

Each round a fresh process opens the store and saves as fast as it can: versions, drafts, new items,
lines of the shop log.
It says on a pipe what was acknowledged to it and is ended by SIGKILL at a random moment, some of
them while it still opens the store.  Then the store is opened again, and all that was acknowledged
must be there.  Every text follows from its item and number alone, so one that is half written is
seen.  SIGKILL leaves the operating system alive: this says nothing about a power cut, for which the
store asks the disk to keep each saving before it is acknowledged.

Needs fork, so no Windows.  Prints one JSON object; exit code 1 where something is wrong.
"""

from __future__ import annotations

import argparse
import gc
import itertools
import json
import os
import random
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from strapwright.store import (
    LogEntry,
    Store,
    StoreError,
    backup_store,
    new_id,
    open_store,
    restore_store,
    verify_file,
)
from strapwright.store.database import FILE

BEGIN = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)  # the store has no clock, any moment will do
BROWSER = "kitchen"
ROUNDS_A_STORE = 20  # then a new one, so that looking at everything stays quick
OPENING = 0.25  # share of kills aimed at the opening
NOBODY = "there are versions that nobody saved"
LONGEST_SAVING = 0.3  # s from the opening to the kill, at most

JOB = """# Made for this trial.
format = 1
units = "metric"
[part]
name = "fender hanger {item}"
quantity = {number}
bar = "flat 6 x 40"
material = "S235JR"
shape = ["70", "up 90", "120"]
"""


def text_for(item: str, number: int) -> str:
    """Return the one right text of a version, from a few hundred bytes to 12 kB."""
    filler = random.Random(f"{item} {number}")  # noqa: S311 - nothing secret
    lines = filler.randrange(200) if filler.random() < 0.2 else 0  # reading long ones is slow
    return JOB.format(item=item[:8], number=number) + "".join(
        f"# {filler.getrandbits(200):050x}\n" for _ in range(lines)
    )


def draft_for(number: int) -> dict[str, str]:
    """Return the one right content of a draft."""
    return {"number": str(number), "leg": f"{number} 1/2 in" * (number % 40)}


def line_for(item: str, number: int) -> LogEntry:
    """Return the one right line of the log of this number."""
    return LogEntry(
        line=number,
        revision=1,
        item=item,
        version=1,
        part=number,
        bend=1,
        lot="lot",
        press="press",
        tooling="tooling",
        mounting=1,
        typed={"angle": f"{number} deg", "note": "x" * (number % 400)},
        figures={"free": number / 1000.0},
        counted=True,
        why="",
        kept_at=BEGIN,
    )


class Known:
    """What was acknowledged: item -> last version, and for each draft its last content."""

    def __init__(self) -> None:
        self.versions: dict[str, int] = {}
        self.drafts: dict[str, int] = {}
        self.lines = 0
        self.saved = 0
        self.unheard = 0  # savings that a kill let through, but not their acknowledgement

    def take(self, line: str) -> None:
        """Take in one acknowledgement."""
        what, item, number = line.split()
        if what == "opened":
            return
        self.saved += 1
        if what == "version":
            self.versions[item] = int(number)
        elif what == "log":
            self.lines = int(number)
        elif what == "draft":
            self.drafts[item] = int(number)
        elif what == "new":
            self.versions[item] = 1
            self.drafts.pop(item, None)


def worker(folder: Path, pipe: int, seed: str) -> None:
    """Save for ever."""
    save(folder, seed, lambda line: os.write(pipe, f"{line}\n".encode()) and None, None)


def save(folder: Path, seed: str, tell: Callable[[str], None], most: int | None) -> None:
    """Save at most so many times, or for ever, and tell each saving that was acknowledged."""
    chance = random.Random(seed)  # noqa: S311

    def say(what: str, item: str = "-", number: int = 0) -> None:
        tell(f"{what} {item} {number}")

    with open_store(folder) as store:
        current = {item.id: item.current for item in store.list()}
        lines = len(store.log.lines())
        say("opened")
        for _ in itertools.count() if most is None else range(most):
            kind = chance.random()
            if not current or kind < 0.1:
                fresh = new_id()
                store.drafts.put(fresh, BROWSER, "job", None, draft_for(1), BEGIN)
                say("draft", fresh, 1)
                text = text_for(fresh, 1)
                store.create("job", "hanger", text, BEGIN, item_id=fresh, who=BROWSER)
                current[fresh] = 1
                say("new", fresh)
                continue
            item = chance.choice(sorted(current))
            if kind > 0.8:
                lines = store.log.add(line_for(item, lines + 1)).line
                say("log", item, lines)
                continue
            if kind < 0.3:
                number = chance.randrange(10_000)
                store.drafts.put(item, BROWSER, "job", current[item], draft_for(number), BEGIN)
                say("draft", item, number)
                continue
            number = current[item] + 1
            at = BEGIN + timedelta(seconds=number)
            store.save(item, text_for(item, number), number - 1, at)
            current[item] = number
            say("version", item, number)


def faults(folder: Path, known: Known) -> list[str]:
    """Open the store after a kill, return what is wrong with it, and go on from what is there.

    The one action that was under way may be there as a whole, though nobody heard of it.
    """
    wrong: list[str] = []
    try:
        with open_store(folder) as store:
            found = {item.id: item.current for item in store.list()}
            wrong += _wrong_versions(store, found, known)
            wrong += _wrong_drafts(store, found, known)
            wrong += _wrong_lines(store, known)
            known.versions = found
            known.drafts = {
                draft.item: int(draft.fields["number"]) for draft in store.drafts.of(BROWSER)
            }
        verify_file(folder / FILE)
    except StoreError as error:
        wrong.append(str(error))
    return wrong


def _wrong_versions(store: Store, found: dict[str, int], known: Known) -> list[str]:
    wrong = [f"item {item} is lost" for item in known.versions.keys() - found.keys()]
    for item, current in found.items():
        if current < known.versions.get(item, 0):
            wrong.append(f"version {known.versions[item]} of {item} is lost")
        wrong += [
            f"version {number} of {item} is half written"
            for number in range(1, current + 1)
            if store.text_of(item, number) != text_for(item, number)
        ]
    more = sum(found.values()) - sum(known.versions.values())
    if more > 1:
        wrong.append(NOBODY)
    known.unheard += more == 1
    return wrong


def _wrong_lines(store: Store, known: Known) -> list[str]:
    found = store.log.lines()
    wrong = [
        f"line {number} of the log is lost" for number in range(len(found) + 1, known.lines + 1)
    ]
    wrong += [
        f"line {one.line} of the log is half written"
        for number, one in enumerate(found, start=1)
        if one != line_for(one.item, number)
    ]
    if len(found) > known.lines + 1:
        wrong.append("there are lines of the log that nobody kept")
    known.unheard += len(found) == known.lines + 1
    known.lines = len(found)
    return wrong


def _wrong_drafts(store: Store, found: dict[str, int], known: Known) -> list[str]:
    drafts = {draft.item: draft for draft in store.drafts.of(BROWSER)}
    just_made = found.keys() - known.versions.keys()  # its first draft went with its making
    wrong = [
        f"the draft of {item} is lost" for item in known.drafts.keys() - drafts.keys() - just_made
    ]
    unheard = 0
    for item, draft in drafts.items():
        number = int(draft.fields["number"])
        unheard += number != known.drafts.get(item)
        if dict(draft.fields) != draft_for(number):
            wrong.append(f"the draft of {item} is half written")
        if item in found and draft.base is None:
            wrong.append(f"{item} is half made: its first draft is still there")
    if unheard > 1:
        wrong.append("there are drafts that nobody typed")
    return wrong


class Killed:
    """A process that saves into a store, until it is killed."""

    def __init__(self, folder: Path, seed: str) -> None:
        self._pipe, ours = os.pipe()
        self._rest = b""
        gc.collect()  # nothing of an earlier store is closed in the fork
        self._pid = os.fork()
        if self._pid == 0:
            try:
                worker(folder, ours, seed)
            finally:
                traceback.print_exc()
                os._exit(3)
        os.close(ours)

    def heard(self, *, until_end: bool = False) -> list[str]:
        """Return what was acknowledged since; waits for a first line, or for the end."""
        while until_end or b"\n" not in self._rest:
            piece = os.read(self._pipe, 1 << 16)
            if not piece:
                break
            self._rest += piece
        *lines, self._rest = self._rest.split(b"\n")
        return [line.decode() for line in lines]

    def kill(self) -> list[str]:
        """Kill it and return the rest of what it said."""
        os.kill(self._pid, signal.SIGKILL)
        lines = self.heard(until_end=True)
        os.close(self._pipe)
        _, status = os.waitpid(self._pid, 0)
        if not os.WIFSIGNALED(status):
            raise SystemExit("the process that saves ended by itself, see above")
        return lines


def warm_up() -> None:
    """Load before the first fork what a first saving loads, so that kills meet saving."""
    with tempfile.TemporaryDirectory() as place, open_store(Path(place)) as store:
        item = store.create("job", "hanger", text_for(new_id(), 1), BEGIN)
        store.save(item.id, text_for(item.id, 2), 1, BEGIN)


def run_kills(kills: int, seed: int) -> dict[str, object]:
    """Kill so many times and return the figures."""
    chance = random.Random(seed)  # noqa: S311
    wrong: list[str] = []
    saved = opening = unheard = 0
    for begin in range(0, kills, ROUNDS_A_STORE):
        with tempfile.TemporaryDirectory() as place:
            folder, known = Path(place) / "store", Known()
            for number in range(begin, min(kills, begin + ROUNDS_A_STORE)):
                killed = Killed(folder, f"{seed} {number}")
                heard: list[str] = []
                if chance.random() < OPENING:
                    time.sleep(chance.uniform(0.0, 0.03))
                else:
                    heard = killed.heard()
                    time.sleep(chance.uniform(0.0, LONGEST_SAVING))
                heard += killed.kill()
                opening += not heard
                for line in heard:
                    known.take(line)
                wrong += [f"kill {number + 1}: {fault}" for fault in faults(folder, known)]
            saved += known.saved
            unheard += known.unheard
    return {
        "kills": kills,
        "kills_while_opening": opening,
        "acknowledged": saved,
        "kept_without_acknowledgement": unheard,
        "wrong": wrong,
    }


def run_backups(backups: int, seed: int) -> dict[str, object]:
    """Back up while another process saves, restore each, and return the figures."""
    chance = random.Random(seed)  # noqa: S311
    wrong: list[str] = []
    before = during = 0
    with tempfile.TemporaryDirectory() as place:
        folder, known = Path(place) / "store", Known()
        killed = Killed(folder, f"{seed} backup")
        for number in range(1, backups + 1):
            for line in killed.heard():
                known.take(line)
            time.sleep(chance.uniform(0.0, 0.1))
            for line in killed.heard():
                known.take(line)
            target = Path(place) / f"{number}.backup"
            backup_store(folder, target)
            before = known.saved
            wrong += _wrong_backup(target, Path(place) / f"restored {number}", known)
            for line in killed.heard():
                known.take(line)
            during += known.saved - before
        for line in killed.kill():
            known.take(line)
        # And over the store itself, which is kept aside.
        kept = restore_store(target, folder, BEGIN)
        if kept is None:
            wrong.append("nothing was kept aside")
        else:
            verify_file(kept)
    return {
        "backups": backups,
        "acknowledged": known.saved,
        "acknowledged_during_backups": during,
        "wrong": wrong,
    }


def _wrong_backup(target: Path, folder: Path, known: Known) -> list[str]:
    """Restore a backup and look for what had been acknowledged before it began."""
    restore_store(target, folder, BEGIN)
    with open_store(folder) as store:
        found = {item.id: item.current for item in store.list()}
        return [
            fault
            for fault in _wrong_versions(store, found, known)
            # What was saved between the last acknowledgement heard and the copy may be there.
            if fault != NOBODY
        ]


def main() -> int:
    """Run both and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--backups", type=int, default=10)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    begin = time.monotonic()
    warm_up()
    under_kill = run_kills(given.kills, given.seed)
    under_backup = run_backups(given.backups, given.seed)
    seconds = round(time.monotonic() - begin, 1)
    print(json.dumps({"kill": under_kill, "backup": under_backup, "seconds": seconds}, indent=1))
    return 1 if under_kill["wrong"] or under_backup["wrong"] else 0


if __name__ == "__main__":
    sys.exit(main())
