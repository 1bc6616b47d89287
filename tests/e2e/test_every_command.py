"""Each command on a closed pipe, on a full device, and on a disk that takes no more."""

from __future__ import annotations

import io
import os
import shutil
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

import click
import pytest

from strapwright.cli.main import group, main
from strapwright.service.demo import JOBS

if os.name != "posix":
    pytest.skip("limits and devices of POSIX", allow_module_level=True)
import resource

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "docs" / "examples"
DIE = ROOT / "tests" / "unit" / "data" / "thin-cheek-die.toml"
PLATES = EXAMPLES / "shared-plate"
RATES = """\
format = 1
units = "inch"
[money]
currency = "NOK"
labour = 450
[[price]]
price = 12
by = "kg"
"""
NO_ROOM = "There is no room left to write the answer; free some and ask again.\n"
MOST_BYTES = 60  # of a file on a disk that takes no more
# Locks, and results of which each has its line: half a line is read over.
MAY_STAY = {"store.lock", ".results.lock", "results-so-far.jsonl"}
# Answers a request at a time until it is stopped; what it says once is tried beside Ctrl-C.
NEVER_ENDS = {"serve"}
# Say it as the others do, after 30 s, with processes of their own, or of a lot that has lines.
SLOW = {"tooling propose", "batch", "study", "lot split"}


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shop")
    due = (JOBS / "fender-hanger.toml").read_text("utf-8")
    due = due.replace("quantity =", 'due = "2099-12-04"\nquantity =')
    (folder / "job.toml").write_text(due, "utf-8")
    (folder / "rates.toml").write_text(RATES, "utf-8")
    (folder / "many").mkdir()
    shutil.copy(folder / "job.toml", folder / "many")
    study = 'format = 1\nunits = "inch"\njob = "job.toml"\n[[vary]]\nkey = "part.quantity"\n'
    (folder / "study.toml").write_text(f"{study}values = [1]\n", "utf-8")
    for name in ("first", "other", "third", "fourth"):
        assert main(["lot", "new", name, "--store", str(folder / "store")]) == 0
    job, store = str(folder / "job.toml"), ("--store", str(folder / "store"))
    for _ in range(2):
        add = ["log", "add", job, "--bend", "1", "--angle", "91", "--sure", *store]
        assert main(add) == 0
    (folder / "pushes.csv").write_text("part,bend,angle\n9,1,90.5\n", "utf-8")
    assert main(["backup", str(folder / "whole.db"), *store]) == 0
    return folder


def words_of(shop: Path, out: Path) -> dict[str, tuple[str, ...]]:
    """Return how each command is called; what it writes goes to ``out`` or the store."""
    job, store = str(shop / "job.toml"), ("--store", str(shop / "store"))
    rates, to = ("--rates", str(shop / "rates.toml")), ("--out", str(out))
    dies = sorted(str(path) for path in PLATES.glob("*.toml"))
    return {
        "plan": (job, *to), "check": (job,),
        "stroke": ("--bar", "flat 1/4 x 2", "--material", "A36", "--opening", "2-1/2",
                   "--nose-radius", "1/2", "--shoulder-radius", "3/8", "--units", "inch"),
        "more": (job, "--bend", "1", "--stands", "84"),
        "log add": (job, "--bend", "1", "--angle", "91", "--sure", *store),
        "log list": (job, *store),
        "log correct": (job, "--line", "1", "--angle", "90.5", "--sure", *store),
        "log import": (job, str(shop / "pushes.csv"), "--sure", *store),
        "log csv": (job, str(out), *store),
        "log chart": (job, "--bend", "1", *store),
        "learned": (job, *store),
        "lot list": store,
        "lot new": (f"lot {out.name}", *store),
        "lot merge": ("third.toml", "fourth.toml", *store),
        "lot split": ("other.toml", f"half {out.name}", "--lines", "1", *store),
        "lot trial": (job, "--bend", "1", *store),
        "lot grade": (job, "--magnet", "yes", *store),
        "lot retire": ("first.toml", *store),
        "force": ("--bore", "2 in", "--pressure", "2000 psi"),
        "materials": (),
        "holes": (str(DIE), *to),
        "fit": ("25", "H7/g6"), "tap": ("3/8-16",), "drill": ("1/4",),
        "angles": ("90", "--out", f"{out}.pdf"),
        "new": (f"{out}.toml",), "demo": to,
        "tooling check": (str(DIE),), "tooling make": (str(DIE), *to),
        "tooling change": (dies[0], dies[1], *to),
        "cut": (job, *to),
        "quote": (job, *rates, "--out", f"{out}.pdf"),
        "payback": (job, *rates, "--minutes", "12", "--tooling-cost", "900", *to),
        "week": (job, *rates, *to),
        "batch": (str(shop / "many"), *to, "--processes", "1"),
        "study": (str(shop / "study.toml"), *to, "--processes", "1"),
        "backup": (f"{out}.db", *store),
        "restore": (str(shop / "whole.db"), "--store", str(out)),
    }  # fmt: skip


WRITES = {
    *("plan", "log add", "log correct", "log csv", "lot new", "holes", "angles"),
    *("new", "demo", "tooling make", "tooling change", "cut", "quote", "payback", "week"),
    *("batch", "backup", "restore"),
}
CALLED = sorted(set(words_of(Path("shop"), Path("out"))) - SLOW)
# Makes its files whether it is asked or not; the others answer without, in less time.
ALWAYS_WRITE = {"angles", "demo"}
# They go the way of 'plan' and of 'tooling make', for more parts.
LIKE_ANOTHER = {"demo", "holes"}


def with_long(names: Iterable[str]) -> list[Any]:
    """Mark as long the tests of those that another stands for."""
    long = pytest.mark.long
    return [pytest.param(one, marks=[long] * (one in LIKE_ANOTHER)) for one in names]


def leaves(command: click.Command, before: tuple[str, ...] = ()) -> Iterator[str]:
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            found = command.get_command(context, name)
            assert found is not None
            yield from leaves(found, (*before, name))
    else:
        yield " ".join(before)


def test_every_command_is_tried() -> None:
    assert sorted(leaves(group)) == sorted({*CALLED, *NEVER_ENDS, *SLOW})


@pytest.fixture
def call(shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., int]:
    monkeypatch.chdir(tmp_path)

    def run(name: str, screen: int | None = None, out: str = "out") -> int:
        words = list(words_of(shop, tmp_path / out)[name])
        if screen is None:
            return main([*name.split(), *words])
        if "--out" in words and name not in ALWAYS_WRITE:
            at = words.index("--out")
            del words[at : at + 2]
        with io.TextIOWrapper(os.fdopen(screen, "wb")) as stream, monkeypatch.context() as within:
            within.setattr(sys, "stdout", stream)
            return main([*name.split(), *words])

    return run


@pytest.mark.parametrize("name", with_long(CALLED))
def test_an_answer_that_finds_no_room_and_one_that_nobody_reads(
    name: str, call: Callable[..., int], capsys: pytest.CaptureFixture[str]
) -> None:
    assert call(name, os.open("/dev/full", os.O_WRONLY), "full") == 2
    assert capsys.readouterr().err == NO_ROOM
    if name in ("lot retire", "lot merge"):
        return  # there is nothing to do a second time
    reading, writing = os.pipe()
    os.close(reading)
    assert call(name, writing, "pipe") in (0, 3)
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("name", with_long(sorted(WRITES)))
def test_a_disk_that_takes_no_more_leaves_no_half_file(
    name: str,
    call: Callable[..., int],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Past the limit a write is cut short and the next refused, as on a disk that fills up."""
    # Of a module that is loaded for the first time, here or in a process of its own, Python would
    # keep half its code.
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (MOST_BYTES, before[1]))
    try:
        code = call(name)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    said = capsys.readouterr()
    assert code == 2
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert said.err.endswith(".\n")
    left = {path.name for path in tmp_path.rglob("*") if path.is_file()}
    assert left <= MAY_STAY
