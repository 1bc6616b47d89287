"""Words for what the gauge reads, for stopping and looking, and for a reading not given."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.bending.bend_values import Band
from strapwright.planning.plan_values import Gauge, NoGauge
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Medium, Reader
from strapwright.wording.steps.step_figure import Labels, StepFigure

_AS_WRITTEN: Mapping[NoGauge, str] = {
    "no press": "add bore and relief to [press]",
    "no bore": "add press.bore",
}
_ON_PAGE: Mapping[NoGauge, str] = {
    "no press": "enter bore and relief on the press page",
    "no bore": "enter the bore",
}

READING: Labels = {"command": "Gauge", "paper": "", "page": "Pressure gauge at full stroke"}
STOP_ABOVE = "stop and check above"
_EASE_OFF: Labels = {
    "command": STOP_ABOVE,
    "paper": "",
    "page": "Stop and check above",
}


def gauge_figure(gauge: Gauge, reader: Reader) -> StepFigure:
    """Return what the gauge reads at full stroke."""
    band = Band(low=gauge.low, high=gauge.high)
    said = reader.figures.banded(gauge.value, band, "MPa")
    return StepFigure(label=READING[reader.medium], value=said.shown, between=said.between)


def ease_off_figure(gauge: Gauge, reader: Reader) -> StepFigure:
    """Return the reading above which to stop and check, rounded down."""
    return StepFigure(
        label=_EASE_OFF[reader.medium],
        value=reader.figures.pressure_down(gauge.ease_off),
        how="the gauge only warns; it does not stop the ram",
    )


def ease_off_words(gauge: Gauge, show: Figures) -> str:
    """Say the same in a sentence."""
    return f"Stop and check above {show.pressure_down(gauge.ease_off)} on the gauge."


def peak_words(gauge: Gauge, show: Figures) -> str:
    """Say what the gauge rises to on the way; empty where it is highest at the end."""
    if gauge.peak <= gauge.value:
        return ""
    return f"On the way it may rise to {show.pressure_up(gauge.peak)}."


def no_gauge_words(why: NoGauge | None, medium: Medium = "command") -> str:
    """Say what to state for a gauge reading; empty where it is given.

    Parameters
    ----------
    why
        Of a step.
    medium
        A page names no keys.
    """
    if why is None:
        return ""
    return (_ON_PAGE if medium == "page" else _AS_WRITTEN)[why]
