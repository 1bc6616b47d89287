"""What a study says: which keys of a job take which values."""

from __future__ import annotations

from attrs import frozen

Value = str | int | float | bool


@frozen(kw_only=True)
class Varied:
    """One key of the job and what it takes in turn.

    Attributes
    ----------
    key
        As in the job file, e.g. ``press.relief`` or ``part.shape[2]``.
    values
        In turn; empty where the key is drawn.
    drawn
        The ends between which it is drawn, as typed; ``None`` where it takes ``values``.
    """

    key: str
    values: tuple[Value, ...] = ()
    drawn: tuple[Value, Value] | None = None


@frozen(kw_only=True)
class Study:
    """A whole study.

    Attributes
    ----------
    job
        Name of the job file beside it.
    name
        Of the study.
    varied
        In the order of the file; the first changes slowest.
    draws
        How often all drawn keys are drawn for each set of the others; 1 without any.
    seed
        That the draws begin from, so that a study can be repeated.
    """

    job: str
    name: str
    varied: tuple[Varied, ...]
    draws: int = 1
    seed: int = 0

    @property
    def count(self) -> int:
        """How many jobs there are to plan."""
        total = self.draws
        for one in self.varied:
            total *= max(len(one.values), 1)
        return total


@frozen(kw_only=True)
class StudyCase:
    """One job of a study.

    Attributes
    ----------
    name
        Its number, with leading zeros so that names sort.
    text
        Of the job file.
    varied
        Key -> value, in the order of the study.
    """

    name: str
    text: str
    varied: dict[str, Value]
