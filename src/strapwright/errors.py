"""What goes wrong with what a person gave us, as one clear sentence.

Every error names the place (a key path such as ``press.bore``, or a flag), the value as typed,
the range that would do, and the remedy.  What a sound job *implies* is not an error but a
finding, see :mod:`strapwright.findings`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import wraps
from typing import Concatenate, Literal, ParamSpec, Protocol, TypeVar

from attrs import frozen

# Stand in a problem or remedy before and after what a reader may call by another name; nobody can
# type them.
_KEY, _TABLE, _END, _FILE = "\ue000", "\ue001", "\ue002", "\ue003"
# A figure in both unit systems; who knows the job's keeps one of them.
_METRIC, _INCH = "\ue004", "\ue005"
_EITHER = re.compile(f"{_METRIC}([^{_INCH}]*){_INCH}([^{_END}]*){_END}")


class _OfUnits(Protocol):
    """A job, as far as it is known here."""

    @property
    def units(self) -> Literal["inch", "metric"]: ...


_Job = TypeVar("_Job", bound=_OfUnits)
_Rest = ParamSpec("_Rest")
_Made = TypeVar("_Made")


def key_of(path: str) -> str:
    """Name a key of the job file in a problem or remedy, e.g. ``press.bore``."""
    return f"{_KEY}{path}{_END}"


def table_of(name: str) -> str:
    """Name a table of the job file in a problem or remedy, e.g. ``press``."""
    return f"{_TABLE}{name}{_END}"


def in_file(remedy: str) -> str:
    """Mark a remedy that tells what to write into the file, which a page has no place for."""
    return f"{_FILE}{remedy}"


def either_unit(metric: str, inch: str) -> str:
    """State a figure in a problem or remedy, of which a reader sees the job's own units.

    Parameters
    ----------
    metric, inch
        As printed, e.g. ``6.35 mm`` and ``0.250 in``.
    """
    return f"{_METRIC}{metric}{_INCH}{inch}{_END}"


class told_in:  # noqa: N801  reads as what it does: with told_in(units)
    """Let what goes wrong within speak in these units alone."""

    def __init__(self, units: Literal["inch", "metric"]) -> None:
        self._units = units

    def __enter__(self) -> None:
        """Nothing to get ready."""

    def __exit__(self, _: object, error: BaseException | None, __: object) -> None:
        """Keep one of the two unit systems of what is refused."""
        if isinstance(error, InputError):
            error.keep_units(self._units)


def told_in_units_of(
    work: Callable[Concatenate[_Job, _Rest], _Made],
) -> Callable[Concatenate[_Job, _Rest], _Made]:
    """Let what goes wrong in a function of a job speak in the units of that job alone."""

    @wraps(work)
    def within(job: _Job, /, *rest: _Rest.args, **named: _Rest.kwargs) -> _Made:
        with told_in(job.units):
            return work(job, *rest, **named)

    return within


def named(text: str, key_name: Callable[[str], str], table_name: Callable[[str], str]) -> str:
    """Put a reader's names for keys and tables into a marked problem or remedy.

    Parameters
    ----------
    text
        With marks, or without any.
    key_name, table_name
        Name a key by its path, and a table.
    """
    found = []
    text = _EITHER.sub(r"\1 (\2)", text)
    for part in text.replace(_FILE, "").split(_END):
        before, of_key, path = part.partition(_KEY)
        if of_key:
            found += [before, key_name(path)]
            continue
        before, of_table, name = part.partition(_TABLE)
        found += [before, table_name(name)] if of_table else [before]
    return "".join(found)


def as_written(text: str) -> str:
    """Return a marked problem or remedy with keys and tables as a file has them."""
    return named(text, str, "[{}]".format)


class StrapwrightError(Exception):
    """Root of everything this package raises on purpose."""


class Place:
    """What an error or a finding is about; as text it is what a command prints."""

    __slots__ = ()


@frozen
class BendAt(Place):
    """A bend by its 1-based number."""

    number: int

    def __str__(self) -> str:
        return f"bend {self.number}"


@frozen
class HoleAt(Place):
    """A hole by its 1-based number."""

    number: int

    def __str__(self) -> str:
        return f"part.hole[{self.number}]"


@frozen
class KeyAt(Place):
    """What a key of a file, a flag or a field states, e.g. ``press.relief``."""

    path: str

    def __str__(self) -> str:
        return self.path


class InputError(StrapwrightError):
    """Something a person wrote cannot be used.

    Parameters
    ----------
    where
        Key path, flag or field, e.g. ``part.shape[2]``, or a place of another kind.
    problem
        What is wrong, without a full stop, e.g. ``thickness is 0``.
    remedy
        What to do, as an order, e.g. ``give the thickness, for example 1/4 in``.  Keys in both
        stand in :func:`key_of` and :func:`table_of`.
    value
        The text as typed, where there is one; it is shown in quotes.
    line
        1-based line in the file, where known.
    """

    def __init__(
        self,
        where: str | Place,
        problem: str,
        remedy: str,
        *,
        value: str | None = None,
        line: int | None = None,
    ) -> None:
        self.place = where if isinstance(where, Place) else KeyAt(where)
        self.where = str(where)
        self.marked = (problem, remedy)
        self.value = value
        self.line = line
        super().__init__(self.sentence)

    @property
    def problem(self) -> str:
        """What is wrong, with keys as a file has them."""
        return as_written(self.marked[0])

    @property
    def remedy(self) -> str:
        """What to do, with keys as a file has them."""
        return as_written(self.marked[1])

    @property
    def speaks_of_file(self) -> bool:
        """Whether the remedy tells what to write into the file."""
        return any(mark in self.marked[1] for mark in (_KEY, _TABLE, _FILE))

    def keep_units(self, units: Literal["inch", "metric"]) -> None:
        """Drop the other of two unit systems from problem and remedy."""
        kept = r"\2" if units == "inch" else r"\1"
        problem, remedy = (_EITHER.sub(kept, one) for one in self.marked)
        self.marked = (problem, remedy)
        self.args = (self.sentence,)

    @property
    def sentence(self) -> str:
        """The whole error as one sentence."""
        where = short_place(self.where)
        place = where if self.line is None else f"{where} (line {self.line})"
        # A megabyte pasted into a field must not come back as a megabyte of message.
        shown = "" if self.value is None else f" {_short(self.value)!r}"
        return f"{place}{shown}: {joined(self.problem, self.remedy)}"

    def told(
        self, key_name: Callable[[str], str], table_name: Callable[[str], str], instead: str = ""
    ) -> str:
        """Return problem and remedy as a sentence, with a reader's names for keys and tables.

        Parameters
        ----------
        key_name, table_name
            Name a key by its path, and a table.
        instead
            What to do, for a reader who has no file to write a remedy into; what stands before
            that goes before it.  Empty where the file is at hand.
        """
        problem, remedy = self.marked
        if instead and _FILE in remedy:
            remedy = remedy.partition(_FILE)[0] or instead
        problem, remedy = (named(one, key_name, table_name) for one in (problem, remedy))
        return joined(f"{problem[:1].upper()}{problem[1:]}", remedy)


# What ends a line, moves a terminal's cursor, or cannot be written as UTF-8.
_UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")


_LONGEST_PLACE = 240  # characters; a path is told from others by its beginning and its end


def short_place(where: str) -> str:
    """Return what an error is about as it is printed: one line, and not a page of a long name."""
    plain = _UNSEEN.sub("\ufffd", where)
    half = _LONGEST_PLACE // 2
    return plain if len(plain) <= _LONGEST_PLACE else f"{plain[:half]}...{plain[-half:]}"


def joined(problem: str, remedy: str) -> str:
    """Join problem and remedy to one line.

    A question is a sentence of its own, and a remedy may end in one.
    """
    problem, remedy = (_UNSEEN.sub("\ufffd", one) for one in (problem, remedy))
    end = "" if remedy.endswith("?") else "."
    if problem.endswith("?"):
        return f"{problem} {remedy[:1].upper()}{remedy[1:]}{end}"
    return f"{problem}; {remedy}{end}"


class SolverError(StrapwrightError):
    """A solver did not reach an answer; an unconverged state is never returned.

    A person reads that no answer was found and what to look at; ``detail``, which speaks of the
    inside of a solver, stands in a traceback alone.
    """

    SENTENCE = (
        "No answer was found for this bar on this tooling, so nothing is said of it; check the "
        "sizes of bar, nose and shoulders for a slip of units, or change the opening a little."
    )

    def __init__(self, detail: str) -> None:
        self.detail = detail
        super().__init__(self.SENTENCE)
        self.add_note(detail)


def _short(text: str, limit: int = 60) -> str:
    return text if len(text) <= limit else text[: limit - 3] + "..."
