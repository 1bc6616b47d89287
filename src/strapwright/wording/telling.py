"""Findings as sentences: one sentence for all places that it is true of."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import evolve, frozen

from strapwright.findings import BendAt, Finding, Place, Severity
from strapwright.wording.finding_words import WORDS
from strapwright.wording.places import where
from strapwright.wording.reader import Reader


@frozen(kw_only=True)
class Told:
    """A finding in words.

    Attributes
    ----------
    code, severity, about
        As found; ``about`` holds all bends that the same sentence is true of.
    where
        ``about`` in words, e.g. ``bends 1 and 3``.
    text, remedy
        What is the case, and what would mend it.
    """

    code: str
    severity: Severity
    about: tuple[Place, ...]
    where: str
    text: str
    remedy: str

    @property
    def sentence(self) -> str:
        """Both as one run of text."""
        return f"{self.text} {self.remedy}".strip()


def tell(finding: Finding, reader: Reader) -> Told:
    """Put a finding into words.

    Parameters
    ----------
    finding
        As found.
    reader
        Who reads it.
    """
    words = WORDS[finding.code](finding, reader)
    return Told(
        code=finding.code,
        severity=finding.severity,
        about=finding.about,
        where=where(finding.about, reader.medium),
        text=words.text,
        remedy=words.remedy,
    )


def tell_all(findings: Iterable[Finding], reader: Reader) -> tuple[Told, ...]:
    """Put findings into words; bends of which the same is said are named together.

    Facts of two bends that differ only past what is printed read alike, so it is the words that
    are told once.

    Parameters
    ----------
    findings
        In the order in which they are to be read.
    reader
        Who reads them.
    """
    groups: dict[tuple[str, str, str], list[Told]] = {}
    for one in (tell(finding, reader) for finding in findings):
        groups.setdefault((one.code, one.text, one.remedy), []).append(one)
    merged: list[Told] = []
    for group in groups.values():
        places = list(dict.fromkeys(place for one in group for place in one.about))
        if all(isinstance(place, BendAt) for place in places):
            about = tuple(sorted((p for p in places if isinstance(p, BendAt)), key=_number))
            merged.append(evolve(group[0], about=about, where=where(about, reader.medium)))
        else:
            merged += {one.about: evolve(group[0], about=one.about, where=one.where)
                       for one in group}.values()  # fmt: skip
    return tuple(merged)


def _number(bend: BendAt) -> int:
    return bend.number
