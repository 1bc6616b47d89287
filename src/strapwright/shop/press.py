"""The press: cylinder, pump, relief and what the machine gives."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.by_hand.hand_pump import HandPump
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.keys import Key, key, keys

Axis = Literal["down", "up", "level"]
Stop = Literal["in stages", "on a block", "by eye"]

EFFICIENCY = 0.95  # packing and rod seals of a small cylinder; common practice, no source
# Taken where the press does not say it, and said so in the plan; common practice, no source.
DAYLIGHT = 150.0  # mm


@frozen(kw_only=True)
class Press:
    """A double-acting hydraulic cylinder and what feeds it; ``None`` where not stated.

    Attributes
    ----------
    bore, rod, stroke
        [mm]
    relief
        Relief valve setting [MPa].
    flow
        Pump delivery, powered or by hand; of a hand pump that of its high stage [mm3/s].
    hand_pump
        The hand pump, or ``None`` of a powered one.
    efficiency
        Share of the hydraulic force that reaches the nose [-].
    no_load
        What the gauge reads while the ram moves against nothing [MPa].
    give
        Travel the machine loses per newton [mm/N].
    gauge_step
        Smallest division of the gauge [MPa].
    axis
        Which way the ram pushes.
    stop
        What the person at the press stops the ram by.
    daylight
        How far the nose stands above the bar when it is laid in [mm].
    columns_apart, column_width, column_length
        Clear distance between the columns of the frame across the bar, their width and their
        length along the nose [mm].
    bed_width
        Of the bed that the shoulders stand on, across the bar [mm].
    push_plate, bed_plate, bed
        Plates that stay when the tooling is changed: on the ram, on the bed, and the bed itself.
    """

    bore: float | None = key(
        "length",
        help="inside diameter of the cylinder",
        lacking="no gauge without a bore",
        inch="3-1/2 in",
        metric="80 mm",
        label="Bore",
        group="cylinder",
        given=True,
    )
    rod: float | None = key(
        "length",
        help="diameter of the rod, below the bore",
        inch="1-3/4 in",
        metric="45 mm",
        label="Rod",
        hint="",
        group="cylinder",
        given=True,
    )
    relief: float | None = key(
        "pressure",
        help="setting of the relief valve",
        lacking="not checked what the press can do",
        inch="2000 psi",
        metric="140 bar",
        label="Relief setting",
        hint="highest gauge reading with the ram stalled at the end of its stroke; no tooling in "
        "the press, hands clear",
        group="gauge",
        given=True,
    )
    stroke: float | None = key(
        "length",
        help="how far the ram goes from end to end",
        lacking="not checked whether the stroke is long enough",
        inch="8 in",
        metric="200 mm",
        label="Full stroke of the cylinder",
        hint="",
        group="cylinder",
        given=True,
    )
    flow: float | None = keys(
        Key(
            kind="flow",
            name="pump",
            help="what the pump delivers",
            lacking="no speed",
            inch="3.5 gpm",
            metric="13 L/min",
            label="or enter the pump flow",
            hint="",
            group="pump",
            given=True,
        ),
        default=None,
    )
    hand_pump: HandPump | None = keys(
        Key(
            kind="table",
            name="hand_pump",
            help="a hand pump with the volume of one stroke",
            instead_of="pump",
        ),
        Key(
            kind="volume",
            name="hand_pump.volume",
            help="of one stroke",
            inch="0.5 in3",
            metric="8 cm3",
            needed=True,
            label="or, for a hand pump: volume per stroke",
            hint="",
            group="pump",
        ),
        Key(
            kind="per minute",
            name="hand_pump.strokes_per_minute",
            inch="30",
            needed=True,
            label="strokes per minute",
            hint="",
            group="pump",
        ),
        Key(
            kind="volume",
            name="hand_pump.low_volume",
            help="of one stroke of the low-pressure stage, where it has two",
            inch="2 in3",
            metric="33 cm3",
            label="volume per stroke of the low-pressure stage",
            hint="",
            group="pump",
            later=True,
        ),
        Key(
            kind="pressure",
            name="hand_pump.changes_at",
            help="pressure at which it changes to the high stage",
            inch="500 psi",
            metric="35 bar",
            label="pressure at which it changes over",
            hint="",
            group="pump",
            later=True,
        ),
        Key(
            kind="length",
            name="hand_pump.piston",
            help="diameter of its piston",
            inch="1/2 in",
            metric="12 mm",
            label="diameter of the pump piston",
            hint="",
            group="pump",
            later=True,
        ),
        Key(
            kind="length",
            name="hand_pump.lever",
            help="from the pivot to the hand",
            inch="24 in",
            metric="600 mm",
            label="lever, pivot to hand",
            hint="",
            group="pump",
            later=True,
        ),
        Key(
            kind="length",
            name="hand_pump.arm",
            help="from the pivot to the pin of the piston",
            inch="1-1/2 in",
            metric="40 mm",
            label="lever, pivot to piston pin",
            hint="",
            group="pump",
            later=True,
        ),
        default=None,
    )
    efficiency: float = key(
        "share",
        default=EFFICIENCY,
        help="share of the hydraulic force that reaches the nose",
        inch="0.93",
        label="Share of the force that reaches the nose",
        hint="the rest is lost at the seals",
        group="gauge",
        place=1,
        later=True,
    )
    no_load: float = key(
        "pressure",
        default=0.0,
        zero=True,
        help="gauge reading while the ram moves with no load",
        inch="60 psi",
        metric="4 bar",
        label="Gauge reading with no load",
        hint="",
        group="gauge",
    )
    give: float = keys(
        Key(
            kind="table",
            name="give",
            help="travel the machine loses under load, measured once against a block",
            left_out="none",
        ),
        Key(
            kind="length",
            name="give.travel",
            help="how far the ram moves",
            inch="0.02 in",
            metric="0.5 mm",
            zero=True,
            needed=True,
            label="Flex of the press",
            hint="press on a solid steel block, from behind a shield: ram movement from the first "
            "pressure up to the force below",
            group="give",
        ),
        Key(
            kind="force",
            name="give.at",
            help="a force",
            inch="5 tons (US)",
            metric="50 kN",
            needed=True,
            label="measured at a force of",
            hint="",
            group="give",
        ),
        default=0.0,
    )
    gauge_step: float | None = key(
        "pressure",
        help="smallest division of the gauge",
        inch="50 psi",
        metric="5 bar",
        label="Smallest division on the gauge",
        hint="",
        group="gauge",
    )
    axis: Axis = key(
        "choice",
        default="down",
        help="the ram pushes {options}",
        label="The ram pushes",
        hint="",
        group="cylinder",
        place=1,
        given=True,
    )
    stop: Stop = key(
        "choice",
        default="in stages",
        help="how you stop the ram: {options}",
        label="Stop the ram",
        hint="",
        group="cylinder",
    )
    daylight: float | None = key(
        "length",
        help="gap between nose and bar, ram fully back",
        left_out=f"{{{DAYLIGHT / INCH_MM:.1f} in|{DAYLIGHT:.0f} mm}}",
        inch="6 in",
        metric="160 mm",
        label="Gap between nose and bar",
        hint="ram fully back, bar in place",
        group="cylinder",
    )
    columns_apart: float | None = keys(
        Key(
            kind="table",
            name="columns",
            help="columns of the frame to both sides of the bar: clear distance, width, length",
            left_out="none",
        ),
        Key(
            kind="length",
            name="columns.apart",
            help="clear, across the bar",
            inch="20 in",
            metric="500 mm",
            needed=True,
            label="Columns of the frame, clear between",
            hint="across the bar",
            group="cylinder",
            place=2,
            later=True,
        ),
        default=None,
        own=False,
    )
    column_width: float | None = key(
        "length",
        name="columns.width",
        help="of each, across the bar",
        left_out="{2.36 in|60 mm}, shown as assumed",
        inch="2 in",
        metric="50 mm",
        label="Column width",
        hint="of each, across the bar",
        group="cylinder",
        place=2,
        later=True,
    )
    column_length: float | None = key(
        "length",
        name="columns.length",
        help="of each, along the nose",
        left_out="{7.87 in|200 mm}, shown as assumed",
        inch="6 in",
        metric="150 mm",
        label="Column length",
        hint="of each, along the nose",
        group="cylinder",
        place=2,
        later=True,
    )
    bed_width: float | None = key(
        "length",
        help="width across the bar of the bed that the shoulders sit on",
        left_out="past the ends of the bar",
        inch="16 in",
        metric="420 mm",
        label="Bed width",
        hint="across the bar; the face the shoulders sit on",
        group="cylinder",
    )
    push_plate: KeptPlate | None = keys(
        Key(
            kind="table",
            name="push_plate",
            help="push plate on the ram that stays when the tooling is changed; new tooling is "
            "made to its holes",
            left_out="each tooling has its own",
        ),
        default=None,
    )
    bed_plate: KeptPlate | None = keys(
        Key(
            kind="table",
            name="bed_plate",
            help="plate on the bed that stays when the tooling is changed",
            left_out="none",
            new=(
                '{ length = "8", width = "8", thickness = "1", holes = "4 of tap 1/2-13 at 2, 3" }',
                '{ length = "200", width = "200", thickness = "25", holes = "4 of 14 at 50, 75" }',
            ),
        ),
        default=None,
    )
    bed: KeptPlate | None = keys(
        Key(
            kind="table",
            name="bed",
            help="bed of the frame with its holes, where no plate lies on it",
            left_out="no holes known",
            new=(
                '{ length = "12", width = "16", thickness = "1", holes = "4 of 9/16 at 2, 5" }',
                '{ length = "300", width = "400", thickness = "25", holes = "4 of 14 at 50, 125" }',
            ),
        ),
        default=None,
    )
