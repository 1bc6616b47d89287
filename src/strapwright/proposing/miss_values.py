"""Why a candidate falls out, as values: what is in its way, with the figures of one of them."""

from __future__ import annotations

from collections.abc import Hashable

from attrs import frozen

from strapwright.errors import InputError
from strapwright.findings import Finding
from strapwright.proposing.proposal_values import Choice, Shoulder
from strapwright.strength.check_values import Check, Unchecked


class Lack:
    """What a candidate lacks; those of one kind are counted together."""

    __slots__ = ()

    @property
    def kind(self) -> Hashable:
        """What it is counted with."""
        return (type(self),)


@frozen(kw_only=True)
class NoseTooSharp(Lack):
    """A nose under the smallest radius of a bar.

    Attributes
    ----------
    nose, part
        Names of the shaft and of the part.
    radius, least
        Of the nose, and of the bar [mm].
    source
        Of the smallest radius.
    """

    nose: str
    part: str
    radius: float
    least: float
    source: str


@frozen(kw_only=True)
class NoseOffRadius(Lack):
    """A nose that does not make the inside radius asked for; lengths in mm."""

    nose: str
    part: str
    radius: float
    wanted: float


@frozen(kw_only=True)
class NoOpening(Lack):
    """No opening is wide enough to pass and narrow enough for the legs; lengths in mm."""

    nose: str
    shoulders: Shoulder
    least: float
    most: float


@frozen(kw_only=True)
class BendJams(Lack):
    """A bend jams or the nose does not pass; ``error`` is what the solver refuses."""

    nose: str
    shoulders: Shoulder
    part: str
    error: InputError


@frozen(kw_only=True)
class PressTooWeak(Lack):
    """The press gives less than a bend asks for.

    Attributes
    ----------
    nose, shoulders
        Name of the shaft, and what it bends over.
    opening
        Centre to centre [mm].
    force, most
        Asked for, and what the ram gives at relief [N].
    """

    nose: str
    shoulders: Shoulder
    opening: float
    force: float
    most: float


@frozen(kw_only=True)
class NoPlate(Lack):
    """No plate of the rack is large enough for some member, whatever plates are chosen."""

    choice: Choice

    @property
    def kind(self) -> Hashable:
        """With every other lack of stock."""
        return ("stock",)


@frozen(kw_only=True)
class TooFewPieces(Lack):
    """The pieces that lie there do not give every cut of a choice."""

    choice: Choice

    @property
    def kind(self) -> Hashable:
        """With every other lack of stock."""
        return ("stock",)


@frozen(kw_only=True)
class MemberUnchecked(Lack):
    """A member that the proposal makes cannot be checked."""

    unchecked: Unchecked


@frozen(kw_only=True)
class MemberTooWeak(Lack):
    """A member does not hold."""

    choice: Choice
    check: Check

    @property
    def kind(self) -> Hashable:
        """By the member and its way of failing."""
        return (type(self), self.check.member, self.check.what)


@frozen(kw_only=True)
class CheckRefuses(Lack):
    """The check of the members finds what forbids it."""

    choice: Choice
    finding: Finding

    @property
    def kind(self) -> Hashable:
        """By the code of the finding."""
        return (type(self), self.finding.code)


@frozen(kw_only=True)
class NotDrawn(Lack):
    """A member of it cannot be laid out; the finding names it."""

    choice: Choice
    finding: Finding

    @property
    def kind(self) -> Hashable:
        """By the member."""
        return (type(self), self.finding.facts["member"])


@frozen(kw_only=True)
class WeldsToKept(Lack):
    """A way of holding the nose that welds it to the push plate that stays on the press."""

    choice: Choice


@frozen(kw_only=True)
class NotPlanned(Lack):
    """A part cannot be planned on it; ``error`` says why."""

    choice: Choice
    part: str
    error: InputError


@frozen(kw_only=True)
class PlanForbids(Lack):
    """The plan of a part finds what a proposed tooling may not have."""

    choice: Choice
    part: str
    finding: Finding

    @property
    def kind(self) -> Hashable:
        """By the code of the finding."""
        return (type(self), self.finding.code)


@frozen(kw_only=True)
class Miss:
    """Something that falls out.

    Attributes
    ----------
    lack
        Why.
    over
        Asked over had, above 1; ``None`` where that is no number [-].
    """

    lack: Lack
    over: float | None = None
