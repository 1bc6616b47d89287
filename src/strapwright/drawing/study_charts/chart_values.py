"""What a chart of a study shows, in the units that it is read in."""

from __future__ import annotations

from attrs import frozen


@frozen(kw_only=True)
class Point:
    """A figure at one value of what varies.

    Attributes
    ----------
    place
        0-based among the values along the foot.
    low, middle, high
        Least, median and greatest of the draws; all the same without any.  ``None`` where no part
        can be made.
    refused, of
        How many of how many cannot be made.
    """

    place: int
    low: float | None
    middle: float | None
    high: float | None
    refused: int
    of: int


@frozen(kw_only=True)
class Series:
    """One line of a chart.

    Attributes
    ----------
    name
        What it holds for, as typed; empty where it is the only one.
    points
        In the order of their places.
    """

    name: str
    points: tuple[Point, ...]


@frozen(kw_only=True)
class StudyChart:
    """A chart.

    Attributes
    ----------
    title
        Of the study.
    head
        What the figure is, with its unit.
    foot
        What varies along the foot, as a key.
    labels
        Its values as typed.
    series
        The lines.
    from_zero
        Whether the figure is measured from zero.
    """

    title: str
    head: str
    foot: str
    labels: tuple[str, ...]
    series: tuple[Series, ...]
    from_zero: bool
