"""Servers and searches that start at once: copies of one process that has loaded the program.

Each is a process of its own, to be stopped, killed and started again; a server has a store of its
own.  What ``strapwright serve`` does from nothing, and how the program itself starts a search, is
left to the tests that start them so.

Run as a program, it binds the address that it is given and takes one request at each connection:
what to become, as JSON, and the files to do it on; it answers with the number of the process.
"""

from __future__ import annotations

import contextlib
import json
import os
import select
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import uuid
from collections.abc import Sequence
from functools import cache, partial
from pathlib import Path
from typing import IO, Any, TextIO

_LONGEST = 65_536  # bytes of a request


class _Copy:
    """A copy as its own process, that is no child of this one."""

    def __init__(self, pid: int) -> None:
        self.pid = pid
        self._ended = os.pidfd_open(pid)

    def __del__(self) -> None:
        os.close(self._ended)

    def send_signal(self, which: signal.Signals) -> None:
        with contextlib.suppress(ProcessLookupError):
            signal.pidfd_send_signal(self._ended, which)

    def wait(self) -> None:
        select.select([self._ended], [], [])


class Started(_Copy):
    """A server."""

    def __init__(self, pid: int, stdout: TextIO) -> None:
        super().__init__(pid)
        self.stdout = stdout

    def kill(self) -> None:
        """End it as a power cut would, and wait until it is gone."""
        self.send_signal(signal.SIGKILL)
        self.wait()
        self.stdout.close()


class Search(_Copy):
    """A search beside the pages, with what the pages use of a process."""

    def __init__(self, pid: int, stdin: IO[Any], stdout: IO[Any]) -> None:
        super().__init__(pid)
        self.stdin, self.stdout = stdin, stdout

    def kill(self) -> None:
        self.send_signal(signal.SIGKILL)


_one_at_a_time = threading.Lock()  # searches are asked for by threads


def _kept() -> tuple[subprocess.Popen[bytes], str]:
    with _one_at_a_time:
        return _started()


@cache
def _started() -> tuple[subprocess.Popen[bytes], str]:
    """One process to copy, for all tests of a worker, and its address; it ends with its input."""
    address = f"\0strapwright-{uuid.uuid4()}"
    process = subprocess.Popen(
        [sys.executable, str(Path(__file__)), address[1:]],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == b"ready\n", "the process to be copied did not load"
    return process, address


def start_server(words: list[str]) -> Started:
    """Run ``strapwright`` with these words in a copy of the loaded process."""
    read, write = os.pipe()
    pid = _ask(_kept()[1], ["command", *words], [write])
    return Started(pid, os.fdopen(read, encoding="utf-8"))


def start_search(worker: str, *, text: bool) -> Search:
    """Run a search worker in a copy of the loaded process, in place of one that loads it all."""
    return _start_search(_kept()[1], worker, text=text)


def _start_search(address: str, worker: str, *, text: bool) -> Search:
    its_in, our_out = os.pipe()
    our_in, its_out = os.pipe()
    pid = _ask(address, ["search", worker], [its_in, its_out])
    if text:
        return Search(pid, os.fdopen(our_out, "w", encoding="utf-8"), os.fdopen(our_in))
    return Search(pid, os.fdopen(our_out, "wb"), os.fdopen(our_in, "rb"))


def _ask(address: str, what: Sequence[str], files: list[int]) -> int:
    """Ask for a copy that goes on with these files, which are closed here."""
    with socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET) as asked:
        asked.connect(address)
        socket.send_fds(asked, [json.dumps(what).encode()], files)
        for one in files:
            os.close(one)
        said = asked.recv(_LONGEST)
    assert said, "the process that is copied has ended"
    return int(said)


def forget() -> None:
    """End the process that is copied, where there is one."""
    if _started.cache_info().currsize:
        process, _ = _started()
        process.communicate()
        _started.cache_clear()


def _load(address: str) -> None:
    """Do all that a server does once, whatever is asked of it."""
    from strapwright.service.compiler_cache import load_loops, prepare_cache  # noqa: PLC0415

    prepare_cache()
    load_loops()
    import strapwright.pages.search_results  # noqa: PLC0415
    import strapwright.remedies.search_figures  # noqa: PLC0415
    import strapwright.serving  # noqa: PLC0415
    import strapwright.sheets.typeset  # noqa: PLC0415
    import strapwright.web.app  # noqa: PLC0415
    from strapwright.pages.long_work import running_searches, searching_on  # noqa: PLC0415
    from strapwright.store import open_store  # noqa: PLC0415
    from strapwright.web import assets, rendering  # noqa: PLC0415

    strapwright.serving._warm = repr  # it would load the loops once more
    searching_on._started = partial(_start_search, address, "order_worker", text=False)
    running_searches._started = partial(_start_search, address, "search_worker", text=True)
    for name in assets._FACES:
        assets.face(name)
    for name in rendering._templates.list_templates():
        rendering._templates.get_template(name)
    with tempfile.TemporaryDirectory() as folder, open_store(Path(folder) / "store"):
        pass


def _serve_requests(address: str) -> None:
    """Copy this process for every request until the input is closed."""
    _load(address)
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the copies here
    with socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET) as listening:
        listening.bind(address)
        listening.listen(64)
        os.write(1, b"ready\n")
        while True:
            ready, _, _ = select.select([0, listening], [], [])
            if 0 in ready:
                return
            with listening.accept()[0] as asked:
                request, given, _, _ = socket.recv_fds(asked, _LONGEST, 2)
                if not request:
                    continue
                pid = os.fork()
                if pid == 0:
                    asked.close()
                    listening.close()
                    _become(json.loads(request), given)
                for one in given:
                    os.close(one)
                asked.send(str(pid).encode())


def _become(what: list[str], given: list[int]) -> None:
    """Run the command or the search in this copy, and end with it."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    code = 1
    try:
        kind, *words = what
        code = _run_command(words, *given) if kind == "command" else _run_search(*words, *given)
    finally:
        sys.stdout.flush()
        os._exit(code)


def _run_command(words: list[str], printed: int) -> int:
    from strapwright.cli.main import main  # noqa: PLC0415

    _take(os.open(os.devnull, os.O_RDONLY), printed)
    return main(words)


def _run_search(worker: str, said: int, printed: int) -> int:
    from importlib import import_module  # noqa: PLC0415

    _take(said, printed)
    code: int = import_module(f"strapwright.pages.long_work.{worker}").main()
    return code


def _take(said: int, printed: int) -> None:
    """Let these files take the places of standard input and output."""
    for place, one in enumerate((said, printed)):
        os.dup2(one, place)
        os.close(one)
    # The streams that were there may hold their place in a file, which a pipe has not.
    sys.stdin = os.fdopen(0, encoding="utf-8", closefd=False)
    sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)


if __name__ == "__main__":
    _serve_requests("\0" + sys.argv[1])
