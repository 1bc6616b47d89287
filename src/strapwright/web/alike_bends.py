"""Bends that are set alike, on the page of the bends: what they share is shown once."""

from __future__ import annotations

from attrs import frozen

from strapwright.pages import plan_page
from strapwright.planning.plan_values import Plan


@frozen(kw_only=True)
class Alike:
    """Bends that every number is the same for.

    Attributes
    ----------
    bends
        1-based, rising.
    turn, travel
        Angle under load and travel, in words.
    """

    bends: tuple[int, ...]
    turn: str
    travel: str

    @property
    def name(self) -> str:
        """The bends in words, e.g. ``Bends 1, 2``."""
        return f"Bends {', '.join(map(str, self.bends))}"


def alike_bends(made: Plan) -> tuple[Alike, ...]:
    """Group the bends that show the same angle, stops, readings and stages; two or more each."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for step in made.steps:
        numbers = ((one.name, one.value, one.beneath) for one in plan_page.step_numbers(made, step))
        turn, staged = plan_page.loaded_angle(made, step), plan_page.staged(made, step)
        groups.setdefault((turn, staged, *numbers), []).append(step.bend)
    return tuple(_shared(made, bends) for bends in groups.values() if len(bends) > 1)


def _shared(made: Plan, bends: list[int]) -> Alike:
    (step,) = [one for one in made.steps if one.bend == bends[0]]
    return Alike(
        bends=tuple(sorted(bends)),
        turn=plan_page.loaded_angle(made, step),
        travel=plan_page.step_numbers(made, step)[0].value,
    )
