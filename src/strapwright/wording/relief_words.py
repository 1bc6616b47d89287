"""Words for what the relief valve may stand at, the same on page, command and paper."""

from __future__ import annotations

from attrs import frozen

from strapwright.planning.plan_values import ReliefSetting, Step
from strapwright.wording.caution_words import ESTIMATE, NEVER_ABOVE
from strapwright.wording.figures import Figures
from strapwright.wording.steps.gauge_words import ease_off_words

_HEADS = {
    "set": "Set the relief valve to",
    "never above": "Never set the relief valve above",
}
_REASONS = {
    "band": "a sound bar needs no more for this bend",
    "member": "the weakest member of the tooling can carry no more",
    "relief": "that is the setting entered for the press",
}


@frozen(kw_only=True)
class ReliefWords:
    """A relief setting in words.

    Attributes
    ----------
    head, pressure, reason
        What to do, with which figure, and why that one.
    """

    head: str
    pressure: str
    reason: str

    @property
    def sentence(self) -> str:
        """The whole of it."""
        return f"{self.head} {self.pressure}: {self.reason}."


def relief_words(relief: ReliefSetting | None, show: Figures) -> ReliefWords | None:
    """Put a relief setting into words; ``None`` where no limit is known.

    Parameters
    ----------
    relief
        Of a step.
    show
        Prints figures; the pressure is rounded down.
    """
    if relief is None:
        return None
    return ReliefWords(
        head=_HEADS[relief.kind],
        pressure=show.pressure_down(relief.pressure),
        reason=_REASONS[relief.by],
    )


def push_limits(step: Step, show: Figures) -> str:
    """Say how far a bend may be pushed, whatever it measures.

    Parameters
    ----------
    step
        Of a plan.
    show
        Figures of the reader.
    """
    said = []
    if step.gauge is not None:
        said.append(ease_off_words(step.gauge, show))
    relief = relief_words(step.relief, show)
    if relief is not None:
        said.append(relief.sentence)
    return " ".join([*said, NEVER_ABOVE, ESTIMATE])
