"""Whether anybody still waits for an answer: the edge knows, and the work asks."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar


class AbandonedError(Exception):
    """Nobody waits for this answer any more; it is no fault of what was asked."""


Gone = Callable[[], bool]


def _nobody_left() -> bool:
    return False


_gone: ContextVar[Gone] = ContextVar("gone", default=_nobody_left)


def gone() -> Gone:
    """Return the question whether the one who asks now has left."""
    return _gone.get()


def somebody_waits() -> bool:
    """Answer that the one who asks still waits.

    Raises
    ------
    AbandonedError
        If they have left.
    """
    if gone()():
        raise AbandonedError
    return True


@contextmanager
def attended_by(left: Gone) -> Iterator[None]:
    """Work for somebody who may leave.

    Parameters
    ----------
    left
        Says whether they have.
    """
    before = _gone.set(left)
    try:
        yield
    finally:
        _gone.reset(before)
