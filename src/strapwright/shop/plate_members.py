"""Nose and shoulders as members, and what carries them: carriers, push plate, die body."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.keys import key
from strapwright.shop.steel_names import UNKNOWN_STEEL

ShoulderKind = Literal["shaft", "block"]

UNDER_NOSE = 0.5  # nose diameters of metal below the nose's bore; common practice, no source


@frozen(kw_only=True)
class NoseMember:
    """The nose as a beam.

    Attributes
    ----------
    material
        Steel of the nose.
    between
        From the middle of one carrier to the middle of the other, or from the carrier to the
        farther edge of the bar where it is held at one end [mm].
    sag
        Most the nose may sag [mm]; ``between`` / 500 where not stated.
    web_material
        Steel of the web; the nose's where not stated.
    """

    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the nose", hint="")
    web_material: str | None = key(
        "steel", label="Steel of the web", blank="as the nose", place=1, hint=""
    )
    between: float | None = key(
        "length",
        label="Carriers, centre to centre",
        inch="2-1/2 in",
        metric="65 mm",
        hint="centre to centre",
    )
    sag: float | None = key(
        "length",
        label="Allowed deflection",
        inch="0.005 in",
        metric="0.1 mm",
        hint="default: that span divided by 500",
    )


@frozen(kw_only=True)
class Carriers:
    """The plates that hold the nose, one at each end, or one where it is held at one end.

    Attributes
    ----------
    thickness, width
        Along the nose, and across it [mm].
    height
        Free height of a carrier between push plate and nose [mm].
    below
        Metal under the hole of the nose, from the hole down to the carrier's end [mm]; half a nose
        diameter where not stated, which is what is drawn.
    pin, pin_material, cheek
        Pin through each carrier, and the thickness of each of the two cheeks beside it [mm].
    """

    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the carriers", hint="")
    thickness: float | None = key(
        "length", label="Thickness", inch="3/4 in", metric="20 mm", hint="along the nose"
    )
    width: float | None = key(
        "length", label="Width", inch="2 in", metric="50 mm", hint="across the nose"
    )
    height: float | None = key(
        "length", label="Free height", inch="3 in", metric="75 mm", hint="push plate to nose"
    )
    below: float | None = key(
        "length",
        label="Metal under the nose",
        inch="1/2 in",
        metric="12 mm",
        hint="hole to lower end; default: half a nose",
    )
    pin: float | None = key(
        "length",
        label="Pin diameter, if the nose hangs on a pin",
        inch="1/2 in",
        metric="12 mm",
        hint="",
    )
    pin_material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the pin", hint="")
    cheek: float | None = key(
        "length",
        label="Cheek beside the pin",
        inch="3/8 in",
        metric="10 mm",
        hint="thickness of each",
    )


def metal_under_nose(stated: Carriers | None, diameter: float) -> float:
    """Return the metal of a carrier under the hole of a nose [mm] of a diameter [mm].

    As stated, else half the diameter, which is what is drawn.
    """
    if stated is None or stated.below is None:
        return UNDER_NOSE * diameter
    return stated.below


@frozen(kw_only=True)
class PushPlate:
    """The plate between ram and carriers.

    Attributes
    ----------
    thickness, width, length
        [mm]; ``width`` is across the nose, ``length`` along it.
    pad
        How much of its length the ram's face backs [mm]; the piston rod's diameter if left out.
    """

    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the push plate", hint="")
    thickness: float | None = key(
        "length", label="Thickness", inch="3/4 in", metric="20 mm", hint=""
    )
    width: float | None = key(
        "length", label="Width", inch="4 in", metric="100 mm", hint="across the nose"
    )
    length: float | None = key(
        "length",
        label="Length",
        inch="6 in",
        metric="150 mm",
        hint="along the nose; default: no longer than what it carries",
    )
    pad: float | None = key(
        "length",
        label="Length backed by the ram face",
        inch="1-3/4 in",
        metric="45 mm",
        hint="default: rod diameter",
    )


@frozen(kw_only=True)
class ShoulderMember:
    """The two shoulders as beams and as rounds on their seats.

    Attributes
    ----------
    kind
        A ``shaft`` lies on its seat along a line; a ``block`` on a face.
    backed
        Whether the seat carries the shoulder all along; else it is a beam.
    between
        Between the middles of its supports, where it is not backed [mm].
    seat_material
        What it lies on.
    """

    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the shoulders", hint="")
    kind: ShoulderKind = key(
        "choice",
        default="shaft",
        label="What they are",
        place=-1,
        blank="not entered",
        words={"shaft": "shafts on a seat", "block": "blocks, or in a half round"},
        hint="",
    )
    backed: bool = key("flag", default=True, label="Backed all along", hint="")
    between: float | None = key(
        "length",
        label="Between their supports",
        inch="3 in",
        metric="75 mm",
        hint="where not backed",
    )
    seat_material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of their seats", hint="")


@frozen(kw_only=True)
class DieBody:
    """Cheeks that keep the shoulders from spreading, on a floor or tied by side plates.

    Attributes
    ----------
    cheek, floor
        Thickness of each [mm].
    length
        Of cheek and floor along the nose [mm].
    height
        From the floor's upper face to where the shoulder pushes [mm]; the shoulders' height if
        left out.
    side_plate, between, tall
        Thickness of each of two plates bolted across the ends of the cheeks, which tie them, the
        distance between the middles of the two, and how tall cheeks and plates are [mm]; with
        them the floor carries nothing.
    """

    material: str = key("steel", default=UNKNOWN_STEEL, label="Steel of the body", hint="")
    cheek: float | None = key(
        "length",
        label="Cheek thickness",
        inch="1 in",
        metric="25 mm",
        hint="the cheek that keeps a shoulder from spreading",
    )
    floor: float | None = key(
        "length", label="Floor thickness", inch="1 in", metric="25 mm", hint=""
    )
    length: float | None = key(
        "length", label="Length", inch="4 in", metric="100 mm", hint="along the nose"
    )
    height: float | None = key(
        "length",
        label="Height from floor to the load line",
        inch="1-1/2 in",
        metric="40 mm",
        hint="default: the shoulder height",
    )
    side_plate: float | None = key(
        "length",
        label="Side plates, thickness",
        inch="3/4 in",
        metric="20 mm",
        hint="bolted, no floor",
    )
    between: float | None = key(
        "length", label="Side plate spacing", inch="5 in", metric="125 mm", hint="centre to centre"
    )
    tall: float | None = key(
        "length", label="Side plate height", inch="3 in", metric="75 mm", hint="same as the cheeks"
    )
