"""Where the ram stops in words: the travel, the distance between two faces, a stop block."""

from __future__ import annotations

from strapwright.bending.bend_values import Band
from strapwright.planning.plan_values import Step
from strapwright.wording.reader import Reader
from strapwright.wording.steps.step_figure import Labels, StepFigure

TRAVEL: Labels = {"command": "Travel", "paper": "Travel", "page": "Travel from first contact"}
_DISTANCE: Labels = {"command": "Distance", "paper": "Distance", "page": "or stop at"}
_BLOCK: Labels = {"command": "Block", "paper": "Stop block", "page": "or on a stop block"}
FROM_CONTACT = "from first contact"


def travel_figure(step: Step, reader: Reader) -> StepFigure:
    """Return how far the ram is pushed; the label of a page says from where."""
    return _figure(
        TRAVEL,
        step,
        step.setting.travel,
        "" if reader.medium == "page" else FROM_CONTACT,
        reader,
    )


def distance_figure(step: Step, reader: Reader) -> StepFigure:
    """Return what to measure between two faces at full stroke; no value where none is known."""
    first, second = step.setting.faces_between
    how = {
        "command": f"between the {first} and the {second}",
        "paper": f"from the {first} to the {second}",
        "page": f"from the {first} to the {second}",
    }
    return _figure(_DISTANCE, step, step.setting.faces, how[reader.medium], reader)


def block_figure(step: Step, reader: Reader) -> StepFigure:
    """Return how high a stop block is and what meets it; no value where none is known."""
    stands, meets = step.setting.block_between
    high = "" if reader.medium == "paper" else "high: "
    how = f"{high}it sits on the {stands}, and the {meets} meets it"
    return _figure(_BLOCK, step, step.setting.block, how, reader)


def _figure(
    labels: Labels, step: Step, value: float | None, how: str, reader: Reader
) -> StepFigure:
    """Print one of the three with its band."""
    label, show = labels[reader.medium], reader.figures
    if value is None:
        return StepFigure(label=label, value="", how=how)
    band, travel = step.bands.travel, step.setting.travel
    if labels is not TRAVEL:
        # Faces and block close as the travel grows, so their band is the travel's mirrored.
        middle = value + travel
        band = Band(low=middle - band.high, high=middle - band.low)
    return StepFigure(
        label=label, value=show.setting(value), how=how, between=show.between(band, "mm")
    )
