"""The fields of the tooling."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from strapwright.pages.form_fields import Field

_YES_NO = (("no", "no"), ("yes", "yes"))


def tooling_fields(raw: Mapping[str, Any]) -> tuple[Field, ...]:
    """Nose and shoulders, each asked for the way the file states it."""
    tooling = raw.get("tooling")
    tooling = tooling if isinstance(tooling, Mapping) else {}
    nose, shoulders = tooling.get("nose"), tooling.get("shoulders")
    by_radius = isinstance(nose, Mapping) and "radius" in nose
    by_gap = isinstance(shoulders, Mapping) and "gap" in shoulders
    return (*_nose_fields(by_radius=by_radius), *_shoulder_fields(by_gap=by_gap))


def _nose_fields(*, by_radius: bool) -> tuple[Field, ...]:
    group = "Nose (punch)"
    return (
        Field(
            name="tooling.nose.radius" if by_radius else "tooling.nose.shaft",
            label="Nose radius" if by_radius else "Nose diameter",
            kind="length",
            inch="1/2 in" if by_radius else "1 in",
            metric="12.5 mm" if by_radius else "25 mm",
            needed=True,
            group=group,
        ),
        Field(
            name="tooling.nose.web.thick",
            label="Web thickness",
            kind="length",
            inch="1/2 in",
            metric="12 mm",
            hint="plate that carries the nose",
            group=group,
        ),
        Field(
            name="tooling.nose.web.height",
            label="Web height",
            kind="length",
            inch="3 in",
            metric="75 mm",
            group=group,
        ),
        Field(
            name="tooling.nose.span",
            label="Nose clear between its holders",
            kind="length",
            inch="4-1/2 in",
            metric="110 mm",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.nose.held",
            label="Nose held at",
            choices=(("both ends", "both ends"), ("one end", "one end"), ("web", "its web alone")),
            later=True,
            group=group,
        ),
        Field(
            name="tooling.nose.drawable",
            label="Nose can be drawn out",
            choices=_YES_NO,
            later=True,
            group=group,
        ),
        Field(
            name="tooling.nose.reach",
            label="Push plate to tip",
            kind="length",
            inch="4-1/8 in",
            metric="103 mm",
            hint="web and nose together, where left out",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.plate.width",
            label="Push plate, across the bar",
            kind="length",
            inch="6 in",
            metric="150 mm",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.plate.thick",
            label="Push plate thickness",
            kind="length",
            inch="3/4 in",
            metric="20 mm",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.ram_side",
            label="What moves",
            choices=(("nose", "the nose"), ("shoulders", "the shoulders")),
            later=True,
            group=group,
        ),
        Field(
            name="tooling.rating",
            label="Weakest member stands",
            kind="force",
            inch="6 tons (US)",
            metric="55 kN",
            hint="most force it may see",
            later=True,
            group=group,
        ),
    )


def _shoulder_fields(*, by_gap: bool) -> tuple[Field, ...]:
    group = "Shoulders (die)"
    return (
        Field(
            name="tooling.shoulders.radius",
            label="Shoulder radius",
            kind="length",
            inch="3/8 in",
            metric="10 mm",
            needed=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.gap" if by_gap else "tooling.shoulders.opening",
            label="Clear gap" if by_gap else "Opening",
            kind="length",
            inch="1-3/4 in" if by_gap else "2-1/2 in",
            metric="44 mm" if by_gap else "64 mm",
            hint="between the rounds" if by_gap else "centre to centre of the two rounds",
            needed=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.floor",
            label="Floor between them",
            choices=(
                ("open", "open"),
                ("flat", "flat"),
                ("vee", "vee"),
                ("channel", "channel (U)"),
            ),
            later=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.depth",
            label="Free depth",
            kind="length",
            inch="1-3/4 in",
            metric="45 mm",
            hint="below the shoulder tops; needed with a floor",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.vee_angle",
            label="Vee angle",
            kind="angle",
            inch="85",
            hint="with a vee floor only",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.channel_width",
            label="Channel, clear width",
            kind="length",
            inch="1-1/2 in",
            metric="38 mm",
            hint="with a channel narrower than the gap only",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.channel_walls",
            label="Channel, height of walls",
            kind="length",
            inch="1/2 in",
            metric="12 mm",
            hint="from its floor to their tops",
            later=True,
            group=group,
        ),
        Field(
            name="tooling.shoulders.height",
            label="Height above the bed",
            kind="length",
            inch="4 in",
            metric="100 mm",
            hint="to their tops; gives the stop block",
            group=group,
        ),
        Field(
            name="tooling.shoulders.outer_edge",
            label="Middle to outer edge",
            kind="length",
            inch="2 in",
            metric="56 mm",
            hint="the edge you sight the mark against",
            later=True,
            group=group,
        ),
    )
