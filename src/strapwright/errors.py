"""What goes wrong with what a person gave us, as one clear sentence.

Every error names the place (a key path such as ``press.bore``, or a flag), the value as typed,
the range that would do, and the remedy.  What a sound job *implies* is not an error but a
finding, see :mod:`strapwright.findings`.
"""

from __future__ import annotations


class StrapwrightError(Exception):
    """Root of everything this package raises on purpose."""


class InputError(StrapwrightError):
    """Something a person wrote cannot be used.

    Parameters
    ----------
    where
        Key path, flag or field, e.g. ``part.shape[2]``.
    problem
        What is wrong, without a full stop, e.g. ``thickness is 0``.
    remedy
        What to do, as an order, e.g. ``give the thickness, for example 1/4 in``.
    value
        The text as typed, where there is one; it is shown in quotes.
    line
        1-based line in the file, where known.
    """

    def __init__(
        self,
        where: str,
        problem: str,
        remedy: str,
        *,
        value: str | None = None,
        line: int | None = None,
    ) -> None:
        self.where = where
        self.problem = problem
        self.remedy = remedy
        self.value = value
        self.line = line
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """The whole error as one sentence."""
        place = self.where if self.line is None else f"{self.where} (line {self.line})"
        # A megabyte pasted into a field must not come back as a megabyte of message.
        shown = "" if self.value is None else f" {_short(self.value)!r}"
        return f"{place}{shown}: {self.problem}; {self.remedy}."


class SolverError(StrapwrightError):
    """A solver did not reach an answer; an unconverged state is never returned."""


def _short(text: str, limit: int = 60) -> str:
    return text if len(text) <= limit else text[: limit - 3] + "..."
