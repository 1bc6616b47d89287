"""One figure of a bend in words: what every medium sets in its own way."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.wording.reader import Medium

Labels = Mapping[Medium, str]


@frozen(kw_only=True)
class StepFigure:
    """One figure of a bend.

    Attributes
    ----------
    label
        What it is, as the medium heads it; empty where a sentence of the sheet does so itself.
    value
        With its unit; empty where it is not known.
    how
        From where it is measured, or what it is for; empty where the label says all.
    between
        Both ends of its band; empty where it has none.
    """

    label: str = ""
    value: str
    how: str = ""
    between: str = ""

    @property
    def banded(self) -> str:
        """The figure with its band on one line."""
        return f"{self.value} ({self.between})" if self.between else self.value
