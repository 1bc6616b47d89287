"""Coded statements about a sound job, as facts: what is so, of what, with which quantities.

No sentence stands here.  :mod:`strapwright.wording` turns a finding into words for a reader.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum
from typing import TypeVar

from attrs import field, frozen

from strapwright.errors import BendAt, HoleAt, KeyAt, Place

__all__ = [
    "About",
    "Angle",
    "AngleRate",
    "BendAt",
    "Choice",
    "Count",
    "F",
    "Fact",
    "Finding",
    "Force",
    "HoleAt",
    "KeyAt",
    "Length",
    "Mass",
    "Name",
    "Place",
    "Seconds",
    "Severity",
    "Share",
    "Stated",
    "Temperature",
    "Yes",
    "by_severity",
]


class Severity(StrEnum):
    """How much a finding matters to the person at the press."""

    NOTE = "note"  # good to know
    WARNING = "warning"  # can spoil the part or hurt somebody
    REFUSAL = "refusal"  # this bend cannot be made as stated


class Fact:
    """Anything that a finding may state; packages above add values of their own."""

    __slots__ = ()


@frozen
class Length(Fact):
    """A length [mm]."""

    value: float


@frozen
class Angle(Fact):
    """An angle, or how far something turns [rad]."""

    value: float


@frozen
class AngleRate(Fact):
    """How fast something turns [rad/s]."""

    value: float


@frozen
class Seconds(Fact):
    """A time [s]."""

    value: float


@frozen
class Force(Fact):
    """A force [N]."""

    value: float


@frozen
class Mass(Fact):
    """A mass [kg]."""

    value: float


@frozen
class Pressure(Fact):
    """A pressure, as the gauge shows it [MPa]."""

    value: float


@frozen
class Temperature(Fact):
    """A temperature [deg F], as the lists of preheat state it."""

    value: float


@frozen
class Share(Fact):
    """Part of a whole, 1 for all of it [-]."""

    value: float


@frozen
class Count(Fact):
    """How many, or which number."""

    value: int


@frozen
class Yes(Fact):
    """Whether something is so."""

    value: bool


@frozen
class Name(Fact):
    """Name of a thing, or what a person typed; told as it is, whatever it looks like."""

    value: str


@frozen
class Choice(Fact):
    """A literal of the program that picks one of several ways to put it; never told as it is."""

    value: str


About = tuple[Place, ...]
Stated = Fact | Place
F = TypeVar("F", bound=Stated)


@frozen(kw_only=True)
class Finding:
    """One statement about a job.

    Attributes
    ----------
    code
        Stable identifier in kebab case, listed in ``docs/findings.md``.
    severity
        See :class:`Severity`.
    about
        What it is about.
    facts
        Name -> quantity or place, or several of them.
    """

    code: str
    severity: Severity
    about: About
    facts: Mapping[str, Stated | tuple[Stated, ...]] = field(factory=dict, hash=False)

    def one(self, kind: type[F], name: str) -> F:
        """Return a fact of a kind.

        Raises
        ------
        TypeError
            Where the fact is of another kind.
        """
        fact = self.facts[name]
        if not isinstance(fact, kind):
            raise TypeError(f"{self.code}: {name} is {fact!r} and no {kind.__name__}")
        return fact

    def several(self, kind: type[F], name: str) -> tuple[F, ...]:
        """Return facts of a kind.

        Raises
        ------
        TypeError
            Where they are of another kind, or a single one.
        """
        facts = self.facts[name]
        if not isinstance(facts, tuple):
            raise TypeError(f"{self.code}: {name} is a single fact")
        found = tuple(one for one in facts if isinstance(one, kind))
        if len(found) != len(facts):
            raise TypeError(f"{self.code}: {name} holds other than {kind.__name__}")
        return found


_RANK = {Severity.REFUSAL: 0, Severity.WARNING: 1, Severity.NOTE: 2}


def by_severity(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What forbids first, then what warns; else in the order found."""
    return tuple(sorted(findings, key=lambda one: _RANK[one.severity]))
