"""Of which steel each piece is, as its member states it, and what to buy where none is."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from attrs import evolve

from strapwright.making.plate_metals import MEDIUM, MILD
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.quantities import Units
from strapwright.shop.members import UNKNOWN_STEEL, Members

# Name of a piece -> the member and its key that state its steel.
_STEELS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "push plate": ("push_plate", "material"),
        "nose carrier": ("carriers", "material"),
        "nose web": ("nose", "web_material"),
        "nose shaft": ("nose", "material"),
        "shoulder block": ("shoulders", "material"),
        "shoulder round": ("shoulders", "material"),
        "guide rod": ("guides", "material"),
        **dict.fromkeys(
            ("cheek", "pair of cheeks", "floor", "die base", "side plate"), ("body", "material")
        ),
    }
)
# Metal of the speed table -> what a dealer has of it; common practice, no source.
_USUAL: Mapping[tuple[str, Units], str] = MappingProxyType(
    {
        (MILD, "inch"): "A36 or 1018",
        (MILD, "metric"): "S235 or S355",
        (MEDIUM, "inch"): "1045",
        (MEDIUM, "metric"): "C45",
    }
)


def steel_of(piece: str, members: Members | None) -> str:
    """Return the steel that is stated for a piece, or an empty string."""
    if members is None or piece not in _STEELS:
        return ""
    member, key = _STEELS[piece]
    stated = getattr(members, member)
    found = None if stated is None else getattr(stated, key)
    return "" if not found or found == UNKNOWN_STEEL else str(found)


def plate_with_steel(plate: PlateDrawing, members: Members | None) -> PlateDrawing:
    """Return a plate that knows its steel."""
    return evolve(plate, steel=steel_of(plate.piece or plate.name, members))


def shaft_with_steel(shaft: ShaftDrawing, members: Members | None) -> ShaftDrawing:
    """Return a shaft that knows its steel."""
    return evolve(shaft, steel=steel_of(shaft.name, members))


def metal_words(piece: PlateDrawing | ShaftDrawing, units: Units) -> str:
    """Say of what a piece is: the steel as stated, else the metal and what is usual for it."""
    if piece.steel:
        return piece.steel
    usual = _USUAL.get((piece.metal, units))
    return piece.metal if usual is None else f"{piece.metal}, for example {usual}"
