"""End what tests of this folder share: the browsers, and the process that servers are copies of."""

import signal
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent))

import browsing


@pytest.fixture(scope="session", autouse=True)
def ctrl_c_reaches_commands() -> None:
    """A shell lets what it starts in the background ignore Ctrl-C, and so would our commands."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(scope="session", autouse=True)
def shared_until_the_end() -> Iterator[None]:
    yield
    browsing.close_all()
