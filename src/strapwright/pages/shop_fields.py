"""The fields of the bar and of the press."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from strapwright.catalog import materials
from strapwright.pages.form_fields import Field


def bar_fields(raw: Mapping[str, Any]) -> tuple[Field, ...]:
    """Bar and what is known of this batch of it."""
    del raw
    bar, lot = "The bar", "This batch, where you know it"
    return (
        Field(
            name="bar.section",
            label="Section",
            choices=(("flat", "flat"), ("square", "square"), ("round", "round")),
            group=bar,
        ),
        Field(
            name="bar.thickness",
            label="Thickness",
            kind="length",
            inch="1/4 in",
            metric="6 mm",
            hint="side of a square, diameter of a round",
            needed=True,
            group=bar,
        ),
        Field(
            name="bar.width",
            label="Width",
            kind="length",
            inch="2 in",
            metric="50 mm",
            hint="flat bar only",
            group=bar,
        ),
        Field(
            name="part.material",
            label="Metal",
            choices=tuple((one, one) for one in metal_names()),
            needed=True,
            group=bar,
        ),
        Field(
            name="part.edges",
            label="Edges",
            choices=(("mill", "as rolled"), ("sheared", "sheared"), ("flame cut", "flame cut")),
            group=bar,
        ),
        Field(
            name="part.grain",
            label="Bend lines run",
            choices=(
                ("across", "across the rolling"),
                ("along", "along the rolling"),
                ("unknown", "not known"),
            ),
            group=bar,
        ),
        Field(
            name="part.at_once",
            label="Bars side by side",
            kind="count",
            inch="1",
            hint="under the nose at one time",
            group=bar,
        ),
        Field(
            name="lot.thickness",
            label="Measured thickness",
            kind="length",
            inch="0.252 in",
            metric="6.1 mm",
            hint="by caliper; narrows every figure",
            group=lot,
        ),
        Field(
            name="lot.yield",
            label="Yield strength",
            kind="strength",
            inch="44 ksi",
            metric="300 MPa",
            hint="from the certificate",
            group=lot,
        ),
        Field(
            name="lot.tensile",
            label="Tensile strength",
            kind="strength",
            inch="66 ksi",
            metric="450 MPa",
            hint="from the certificate",
            group=lot,
        ),
    )


def metal_names() -> list[str]:
    """Names of the metals that the catalog knows, in its order."""
    return [metal.name for metal in materials()]


def press_fields(raw: Mapping[str, Any]) -> tuple[Field, ...]:
    """Press: what is read off it, what is timed, what is measured against a block."""
    del raw
    cylinder, gauge = "1  Measure the cylinder", "2  Read the gauge"
    pump, block = "3  How fast it closes", "4  How much it gives"
    return (
        Field(
            name="press.bore",
            label="Bore",
            kind="length",
            inch="3-1/2 in",
            metric="80 mm",
            hint="inside diameter of the cylinder",
            group=cylinder,
        ),
        Field(
            name="press.rod",
            label="Rod",
            kind="length",
            inch="1-3/4 in",
            metric="45 mm",
            group=cylinder,
        ),
        Field(
            name="press.stroke",
            label="Longest stroke",
            kind="length",
            inch="8 in",
            metric="200 mm",
            group=cylinder,
        ),
        Field(
            name="press.daylight",
            label="Nose clear above the bar",
            kind="length",
            inch="6 in",
            metric="160 mm",
            hint="ram all the way back, bar laid in",
            group=cylinder,
        ),
        Field(
            name="press.bed_width",
            label="Bed, across the bar",
            kind="length",
            inch="16 in",
            metric="400 mm",
            hint="what the shoulders stand on",
            group=cylinder,
        ),
        Field(
            name="press.axis",
            label="The ram pushes",
            choices=(("down", "down"), ("up", "up"), ("level", "level")),
            group=cylinder,
        ),
        Field(
            name="press.relief",
            label="Relief valve opens at",
            kind="pressure",
            inch="2000 psi",
            metric="140 bar",
            hint="gauge with the ram run out to its end",
            group=gauge,
        ),
        Field(
            name="press.no_load",
            label="Gauge while running free",
            kind="pressure",
            inch="60 psi",
            metric="4 bar",
            group=gauge,
        ),
        Field(
            name="press.gauge_step",
            label="Smallest division",
            kind="pressure",
            inch="50 psi",
            metric="5 bar",
            hint="of the gauge",
            group=gauge,
        ),
        *_pump_fields(pump),
        Field(
            name="press.give.travel",
            label="Travel lost",
            kind="length",
            inch="0.02 in",
            metric="0.5 mm",
            hint="press on a solid block: ram movement from first pressure to the force below",
            group=block,
        ),
        Field(
            name="press.give.at",
            label="at a force of",
            kind="force",
            inch="5 tons (US)",
            metric="50 kN",
            group=block,
        ),
    )


def _pump_fields(group: str) -> tuple[Field, ...]:
    return (
        Field(
            name="timed.distance",
            label="Ram moved",
            kind="length",
            inch="4 in",
            metric="100 mm",
            hint="running free; fills in the pump's delivery",
            group=group,
        ),
        Field(
            name="timed.seconds",
            label="in seconds",
            kind="share",
            inch="9.5",
            group=group,
        ),
        Field(
            name="press.pump",
            label="or: pump delivers",
            kind="flow",
            inch="3.5 gpm",
            metric="13 L/min",
            group=group,
        ),
        Field(
            name="press.hand_pump.volume",
            label="or, by hand: one stroke gives",
            kind="volume",
            inch="0.5 in3",
            metric="8 cm3",
            group=group,
        ),
        Field(
            name="press.hand_pump.strokes_per_minute",
            label="hand strokes a minute",
            kind="count",
            inch="30",
            group=group,
        ),
    )
