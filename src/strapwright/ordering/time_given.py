"""Work that stops where it stands once nobody waits for it any longer."""

from __future__ import annotations

from collections.abc import Callable

KeepGoing = Callable[[], bool]


class OutOfTimeError(Exception):
    """The time ran out within a piece of work, which so is neither one thing nor the other."""


def ask(keep_going: KeepGoing) -> None:
    """Ask whether somebody still waits.

    Raises
    ------
    OutOfTimeError
        Where nobody does.
    """
    if not keep_going():
        raise OutOfTimeError


def always() -> bool:
    """Somebody waits for as long as it takes."""
    return True
