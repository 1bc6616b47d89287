"""Who reads: in which units, on which medium, and what keys of the job file are called there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from attrs import frozen

from strapwright.quantities import Units
from strapwright.shop.job import Job
from strapwright.wording.figures import Figures, figures_for

Medium = Literal["command", "paper", "page"]


def _as_written(path: str) -> str:
    return path


def _as_table(name: str) -> str:
    return f"[{name}]"


@frozen(kw_only=True)
class Reader:
    """One reader.

    Attributes
    ----------
    figures
        Prints figures in the reader's units.
    medium
        Terminal and files, paper, or a page.
    key
        Names a key of the job file by its path, e.g. ``press.relief``; a page names the field.
    table
        Names a table of the job file, e.g. ``press``.
    """

    figures: Figures
    medium: Medium = "command"
    key: Callable[[str], str] = _as_written
    table: Callable[[str], str] = _as_table


def at_command(job: Job) -> Reader:
    """Return who reads the plan of a job on a terminal, or in a file that a program reads."""
    return Reader(figures=figures_for(job))


def in_units(units: Units) -> Reader:
    """Return who reads on a terminal what belongs to no one job."""
    return Reader(figures=Figures(units=units, reading="1/64" if units == "inch" else "mm"))


def on_paper(job: Job) -> Reader:
    """Return who reads the plan of a job on a printed sheet."""
    return Reader(figures=figures_for(job), medium="paper")
