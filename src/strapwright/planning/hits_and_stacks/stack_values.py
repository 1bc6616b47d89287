"""One bar of a stack with the blank it needs."""

from __future__ import annotations

from attrs import frozen

from strapwright.blank.blank_values import Blank


@frozen(kw_only=True)
class StackBar:
    """One bar of a stack, with a blank of its own.

    Attributes
    ----------
    bar
        1-based number from the nose.
    blank
        Its length and marks.
    free
        Angle that each bend of it opens to, shape (bends,) [rad].
    radii
        That each bend of it is bent round, shape (bends,) [mm].
    """

    bar: int
    blank: Blank
    free: tuple[float, ...]
    radii: tuple[float, ...]

    @property
    def name(self) -> str:
        """What it is called on sheet and strip."""
        return "bar 1 (at the nose)" if self.bar == 1 else f"bar {self.bar}"
