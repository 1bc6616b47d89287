"""What would make a refused part: changes with their figures, each planned before it is offered.

The values stand beside the plan, which carries them; :mod:`strapwright.remedies` finds them.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.job import Job

What = Literal[
    "opening",
    "shoulder radius",
    "shoulder height",
    "outer edge",
    "depth",
    "nose radius",
    "web thickness",
    "no web",
    "reach",
    "plate width",
    "leg",
    "trim",
    "part of the way",
    "tooling",
]
"""The quantity changed.  ``no web``: the web is taken away and the nose carried at both ends, its
reach being the figure.  ``trim``: what an end leg is left longer for bending and sawn off after;
``old`` is ``None`` where nothing is.  ``part of the way``: a bend is stopped at the figure and
finished off the tooling.  ``tooling``: bends are made on other tooling that the job names; the
figures are places as :meth:`~strapwright.shop.part.Part.tool_of` counts them."""


@frozen(kw_only=True)
class Named:
    """Tooling that a job names.

    Attributes
    ----------
    name
        What it is called.
    nose_radius, opening
        [mm]
    """

    name: str
    nose_radius: float
    opening: float


@frozen(kw_only=True)
class Change:
    """One quantity, changed.

    Attributes
    ----------
    what
        The quantity.
    numbers
        Of the legs or of the bends, 1-based; empty for a size of the tooling.
    old
        As the job states it; ``None`` where it does not [mm or rad].
    new
        Nearest to ``old`` that makes the part, in the shop's steps [mm or rad].
    furthest
        Most that was tried and still makes it, with all tried between [mm or rad].
    step
        Of the shop: one step from ``new`` towards ``old`` the part is refused [mm or rad].
    tooling
        That the bends are made on then; ``None`` for any other quantity.
    """

    what: What
    numbers: tuple[int, ...] = ()
    old: float | None
    new: float
    furthest: float
    step: float
    tooling: Named | None = None


@frozen(kw_only=True)
class Remedy:
    """Changes that together make the part.

    Attributes
    ----------
    changes
        One, or two where one alone makes nothing.
    job
        With the changes made; of a bend made part of the way as far as the press takes it.
    order
        1-based bends in the order of making, by the plan that checked it.
    blank
        Length of the blank by that plan [mm].
    """

    changes: tuple[Change, ...]
    job: Job
    order: tuple[int, ...]
    blank: float


@frozen(kw_only=True)
class Tried:
    """A quantity that was varied.

    Attributes
    ----------
    what, numbers
        As for a :class:`Change`.
    old, end
        From where to where [mm or rad].
    tooling
        As for a :class:`Change`.
    """

    what: What
    numbers: tuple[int, ...] = ()
    old: float | None
    end: float
    tooling: Named | None = None


@frozen(kw_only=True)
class Remedies:
    """What was found for a refused part.

    Attributes
    ----------
    found
        Each planned with exactly its figures.
    in_vain
        Quantities of which no value tried makes the part by itself.
    untried
        Those for which the time ran out.
    pairs
        Whether two changes at once were tried; not where one alone makes the part and lets it
        stay as it is.
    """

    found: tuple[Remedy, ...]
    in_vain: tuple[Tried, ...]
    untried: tuple[Tried, ...]
    pairs: Literal["not needed", "tried", "time ran out"] = "not needed"
