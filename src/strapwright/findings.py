"""Coded statements about a sound job: what it implies and what would mend it."""

from __future__ import annotations

from enum import StrEnum

from attrs import frozen


class Severity(StrEnum):
    """How much a finding matters to the person at the press."""

    NOTE = "note"  # good to know
    WARNING = "warning"  # can spoil the part or hurt somebody
    REFUSAL = "refusal"  # this bend cannot be made as stated


class Fact:
    """Anything that a finding may state; packages above add values of their own."""

    __slots__ = ()


@frozen(kw_only=True)
class Finding:
    """One statement about a job.

    Attributes
    ----------
    code
        Stable identifier in kebab case, listed in ``docs/findings.md``.
    severity
        See :class:`Severity`.
    where
        What it is about: ``bend 2``, ``press.relief``, ``part.hole[1]``.
    text
        What is the case, one sentence with the figures that matter.
    remedy
        What would mend it, one sentence; empty where there is nothing to do.
    """

    code: str
    severity: Severity
    where: str
    text: str
    remedy: str = ""
