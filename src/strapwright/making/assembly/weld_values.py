"""A joint to weld: its facts and its steps."""

from __future__ import annotations

from attrs import frozen


@frozen(kw_only=True)
class Welding:
    """One joint to weld.

    Attributes
    ----------
    name
        What is welded to what.
    facts
        Leg, runs, weld metal and preheat, each with its name.
    steps
        In order.
    cautions
        To mind.
    """

    name: str
    facts: tuple[tuple[str, str], ...]
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
