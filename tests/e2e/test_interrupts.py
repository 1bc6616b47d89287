"""Ctrl-C, closed pipes and full devices: one line and an exit code, wherever the program is."""

from __future__ import annotations

import contextlib
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
JOB = ROOT / "docs" / "examples" / "rail-stay.toml"
STOPPED = (130, "stopped\n")
pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals of this kind are of POSIX")


@contextlib.contextmanager
def held_back() -> Iterator[None]:
    """Start programs as start.py hands over: the signal waits until they can answer it."""
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def interrupted(*words: str, after: float, env: dict[str, str] | None = None) -> tuple[int, str]:
    """Run Python with these words, press Ctrl-C after so many seconds, give code and words."""
    with subprocess.Popen(
        [sys.executable, *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, **(env or {})},
    ) as process:
        time.sleep(after)
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=120)
    return process.returncode, said


def test_ctrl_c_while_it_loads() -> None:
    """From the first instruction on: whatever has been loaded by then, one line and 130."""
    for after in (0.0, 0.1, 0.2, 0.3, 0.45):
        with held_back():
            found = interrupted("-m", "strapwright", "plan", str(JOB), after=after)
        assert found == STOPPED, after


def test_ctrl_c_while_the_compiler_works(tmp_path: Path) -> None:
    env = {"NUMBA_CACHE_DIR": str(tmp_path)}
    for after in (2.5,):
        assert interrupted("-m", "strapwright", "plan", str(JOB), after=after, env=env) == STOPPED


def test_ctrl_c_in_a_call_back_out_of_the_compiler() -> None:
    """Nobody can catch it there; the compiler misses the answer a moment later."""
    program = """
import ctypes, signal, sys
from strapwright import __main__ as started
from strapwright.cli import main as cli
class HalfMade:
    def __del__(self):
        print(self.number)
answers = []
@ctypes.CFUNCTYPE(None)
def keep():
    signal.raise_signal(signal.SIGINT)
    answers.append("machine code")
def compile_all():
    left = HalfMade()
    keep()
    return answers[0]
cli.prepare_cache = compile_all
sys.argv[1:] = ["force", "--help"]
sys.exit(started.run())
"""
    done = subprocess.run(
        [sys.executable, "-c", program], check=False, capture_output=True, text=True
    )
    assert (done.returncode, done.stderr) == STOPPED


def test_ctrl_c_in_a_compiled_loop_that_would_go_on_for_hours(tmp_path: Path) -> None:
    began = tmp_path / "began"
    program = f"""
from pathlib import Path
from strapwright.cli.interrupts import heed_interrupts
heed_interrupts()
import numba
@numba.njit(nogil=True)
def loop(n):
    found = 0
    for one in range(n):
        found += one * one % 7
    return found
loop(3)
Path({str(began)!r}).touch()
loop(10**15)
"""
    with subprocess.Popen(
        [sys.executable, "-c", program], stderr=subprocess.PIPE, text=True
    ) as process:
        while not began.exists():
            assert process.poll() is None
            time.sleep(0.05)
        time.sleep(0.2)
        process.send_signal(signal.SIGINT)
        try:
            _, said = process.communicate(timeout=120)
        finally:
            process.kill()  # it would go on for hours
    assert (process.returncode, said) == STOPPED


def test_ctrl_c_while_python_runs_a_piece_of_text(tmp_path: Path) -> None:
    """Python ends by the signal then, whatever code it is told to end with, unless it forgets."""
    program = """
import sys, types
import click
from strapwright.cli.main import main
@click.command()
def command():
    exec("import os, signal, time; os.kill(os.getpid(), signal.SIGINT); time.sleep(60)")
sys.modules["strapwright.cli.drill"] = types.SimpleNamespace(command=command)
import strapwright.__main__
sys.argv = ["strapwright", "drill"]
sys.exit(strapwright.__main__.run())
"""
    assert _ended(program, tmp_path) == STOPPED


def _ended(program: str, folder: Path) -> tuple[int, str]:
    """Run it as a module and return its exit code and what it said."""
    (folder / "pressed.py").write_text(program, encoding="utf-8")
    path = os.pathsep.join([str(folder), str(ROOT / "src")])
    done = subprocess.run(
        [sys.executable, "-m", "pressed"], capture_output=True, check=False, text=True,
        env=os.environ | {"PYTHONPATH": path},
    )  # fmt: skip
    return done.returncode, done.stderr


def test_a_thread_that_ctrl_c_takes_the_ground_from_is_not_heard(tmp_path: Path) -> None:
    """Python aborts where it ends while a thread writes its complaint to standard error."""
    program = """
import os, signal, sys, threading, types
import click
from strapwright.cli import interrupts
@click.command()
def command():
    def fail():
        while not interrupts.was_pressed():
            pass
        raise OSError("the store is closed")
    thread = threading.Thread(target=fail, daemon=True)
    thread.start()
    try:
        os.kill(os.getpid(), signal.SIGINT)
    finally:
        thread.join()
sys.modules["strapwright.cli.drill"] = types.SimpleNamespace(command=command)
import strapwright.__main__
sys.argv = ["strapwright", "drill"]
sys.exit(strapwright.__main__.run())
"""
    assert _ended(program, tmp_path) == STOPPED


def test_ctrl_c_while_the_pages_are_served(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "strapwright", "serve", "--port", "0"]
    with subprocess.Popen(
        [*command, "--store", str(tmp_path)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        assert "Ctrl-C stops" in process.stdout.readline()
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=120)
    assert (process.returncode, said) == STOPPED


def test_ctrl_c_is_ignored_where_the_program_was_started_so() -> None:
    """As a shell starts what goes on in the background."""
    held = "import signal, os, sys; signal.signal(signal.SIGINT, signal.SIG_IGN); "
    held += "os.execv(sys.executable, [sys.executable, *sys.argv[1:]])"
    code, said = interrupted("-c", held, "-m", "strapwright", "drill", "1/4", after=0.25)
    assert (code, said) == (0, "")


def test_ctrl_c_in_start_py_itself(tmp_path: Path) -> None:
    """The interpreter's own start is not ours; from start.py's first line on it is one line."""
    reached = tmp_path / "reached"
    # Stopped at a module that start.py loads, so that the moment is met.
    program = f"""
import pathlib, runpy, sys, time, types
def find(name, path=None, target=None):
    if name == "subprocess":
        pathlib.Path({str(reached)!r}).touch()
        time.sleep(60)
sys.meta_path.insert(0, types.SimpleNamespace(find_spec=find))
sys.argv = [sys.argv[1], "--help"]
runpy.run_path(sys.argv[0], run_name="__main__")
"""
    with subprocess.Popen(
        [sys.executable, "-c", program, str(ROOT / "start.py")], stderr=subprocess.PIPE, text=True
    ) as process:
        while not reached.exists():
            assert process.poll() is None
            time.sleep(0.02)
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=120)
    assert process.returncode == 130
    assert re.fullmatch(r"Stopped\. [^\n]+\n", said)


@pytest.fixture(autouse=True)
def _as_on_a_machine_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """A stream that holds words back fails only when they are pressed out, at the very end."""
    monkeypatch.delenv("PYTHONUNBUFFERED", raising=False)


@pytest.mark.parametrize("words", [("drill", "1/4"), ("--help",)], ids=["drill", "help"])
def test_a_full_device_and_a_closed_pipe(words: tuple[str, ...]) -> None:
    command = [sys.executable, "-m", "strapwright", *words]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr == "There is no room left to write the answer; free some and ask again.\n"
    for closing in (b"x", b""):  # a reader that saw enough, and one that never read
        reading, writing = os.pipe()
        with subprocess.Popen(command, stdout=writing, stderr=subprocess.PIPE) as process:
            os.close(writing)
            if closing:
                os.read(reading, 1)
            os.close(reading)
            _, said = process.communicate(timeout=120)
        assert (process.returncode in (0, 3), said) == (True, b"")


def test_a_command_that_speaks_in_several_steps_may_lose_its_reader() -> None:
    program = """
import sys, types, click
from strapwright.cli.main import main
@click.command()
def command():
    for _ in range(2000):
        click.echo("x" * 100)
sys.modules["strapwright.cli.drill"] = types.SimpleNamespace(command=command)
sys.exit(main(["drill"]))
"""
    with subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        process.stdout.readline()
        process.stdout.close()
        _, said = process.communicate(timeout=120)
    assert (process.returncode, said) == (0, b"")


@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize("program", [("-m", "strapwright"), (str(ROOT / "start.py"),)])
def test_what_nobody_can_be_told_is_in_the_exit_code(
    program: tuple[str, ...], unbuffered: str
) -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, *program, "nonsense"], stdout=full, stderr=full, check=False,
            env=os.environ | {"PYTHONUNBUFFERED": unbuffered},
        )  # fmt: skip
    assert done.returncode == 2


def test_start_py_on_a_full_device() -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, str(ROOT / "start.py"), "--help"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
