"""Servers that start at once: copies of one process that has loaded the program and its loops.

Each is a process of its own with a store of its own, to be stopped, killed and started again.  What
``strapwright serve`` does from nothing is left to the tests that start it so.

Run as a program by :func:`start_server`, it takes the words of a command and what to print on, by
the socket on its standard input, and answers with the number of the process.
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
from functools import cache
from pathlib import Path
from typing import TextIO

_LONGEST = 65_536  # bytes of a request


class Started:
    """A server as its own process, that is no child of this one."""

    def __init__(self, pid: int, stdout: TextIO) -> None:
        self.pid = pid
        self.stdout = stdout
        self._ended = os.pidfd_open(pid)

    def send_signal(self, which: signal.Signals) -> None:
        with contextlib.suppress(ProcessLookupError):
            signal.pidfd_send_signal(self._ended, which)

    def kill(self) -> None:
        """End it as a power cut would, and wait until it is gone."""
        self.send_signal(signal.SIGKILL)
        select.select([self._ended], [], [])
        os.close(self._ended)
        self.stdout.close()


@cache
def _kept() -> tuple[subprocess.Popen[bytes], socket.socket]:
    """One process to copy, for all tests of a worker; it ends with the socket."""
    ours, its = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
    with its:
        process = subprocess.Popen([sys.executable, str(Path(__file__))], stdin=its)
    return process, ours


def start_server(words: list[str]) -> Started:
    """Run ``strapwright`` with these words in a copy of the loaded process."""
    _, socket_ = _kept()
    read, write = os.pipe()
    socket.send_fds(socket_, [json.dumps(words).encode()], [write])
    os.close(write)
    said = socket_.recv(_LONGEST)
    assert said, "the process that is copied has ended"
    return Started(int(said), os.fdopen(read, encoding="utf-8"))


def forget() -> None:
    """End the process that is copied, where there is one."""
    if _kept.cache_info().currsize:
        process, socket_ = _kept()
        socket_.close()
        process.wait()
        _kept.cache_clear()


def _load() -> None:
    """Do all that a server does once, whatever is asked of it."""
    from strapwright.service.compiler_cache import load_loops, prepare_cache  # noqa: PLC0415

    prepare_cache()
    load_loops()
    import strapwright.serving  # noqa: PLC0415
    import strapwright.sheets.typeset  # noqa: PLC0415
    import strapwright.web.app  # noqa: PLC0415
    from strapwright.store import open_store  # noqa: PLC0415
    from strapwright.web import assets, rendering  # noqa: PLC0415

    strapwright.serving._warm = repr  # it would load the loops once more
    for name in assets._FACES:
        assets.face(name)
    for name in rendering._templates.list_templates():
        rendering._templates.get_template(name)
    with tempfile.TemporaryDirectory() as folder, open_store(Path(folder) / "store"):
        pass


def _serve_requests() -> None:
    """Copy this process for every request until the socket is closed."""
    _load()
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the copies here
    asked = socket.socket(fileno=os.dup(0))
    while True:
        request, given, _, _ = socket.recv_fds(asked, _LONGEST, 1)
        if not request:
            return
        pid = os.fork()
        if pid == 0:
            asked.close()
            _become(json.loads(request), given[0])
        os.close(given[0])
        asked.send(str(pid).encode())


def _become(words: list[str], printed: int) -> None:
    """Run the command in this copy, and end with it."""
    from strapwright.cli.main import main  # noqa: PLC0415

    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    nothing = os.open(os.devnull, os.O_RDONLY)
    os.dup2(nothing, 0)
    os.dup2(printed, 1)
    os.close(nothing)
    os.close(printed)
    # The stream that was there may hold its place in a file, which a pipe has not.
    sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)
    code = 1
    try:
        code = main(words)
    finally:
        sys.stdout.flush()
        os._exit(code)


if __name__ == "__main__":
    _serve_requests()
