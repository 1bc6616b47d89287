"""A server that shares its pages at a second address of this machine, for tests over a network."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

# Two addresses of one machine: the one it serves itself at, and one that stands for the network.
OWN, NETWORK = "127.0.0.1", "127.0.0.2"


@contextmanager
def shared(folder: Path, *words: str) -> Iterator[tuple[subprocess.Popen[str], str, str]]:
    """The server, the address at this machine, and the one that lets a device in."""
    command = (sys.executable, "-m", "strapwright", "serve", "--port", "0", "--store", str(folder))
    process = subprocess.Popen(
        [*command, "--share", "--address", NETWORK, *words],
        stdout=subprocess.PIPE, text=True, env=dict(os.environ),
    )  # fmt: skip
    assert process.stdout is not None
    own = link = ""
    try:
        while not (own and link):
            said = process.stdout.readline()
            assert said, "the server ended"
            own = own or next(iter(re.findall(rf"http://{OWN}:\d+/", said)), "")
            link = link or next(iter(re.findall(rf"https?://{NETWORK}:\d+/join\S+", said)), "")
        yield process, own, link
    finally:
        process.kill()
        process.wait()
        process.stdout.close()


def memory(process: subprocess.Popen[str]) -> int:
    said = Path(f"/proc/{process.pid}/status").read_text("ascii")
    return int(re.findall(r"VmRSS:\s+(\d+)", said)[0]) // 1024  # MB
