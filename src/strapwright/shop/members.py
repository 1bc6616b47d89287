"""The members of a tooling: what carries the nose and the shoulders, and what feeds the press.

Each value is one table of ``[tooling.members]``.  Whatever is ``None`` is not stated; a check that
needs it is listed as not made, with what to state.  The keys of its
table stand beside its attributes.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from attrs import frozen

from strapwright.shop.fastening_members import Bolt, Holds, Weld
from strapwright.shop.keys import Key, key, keys, keys_of
from strapwright.shop.plate_members import (
    Carriers,
    DieBody,
    NoseMember,
    PushPlate,
    ShoulderKind,
    ShoulderMember,
)
from strapwright.shop.press_members import (
    GUIDE_FRICTION,
    Circuit,
    Coupling,
    CouplingKind,
    Frame,
    Guides,
    PistonRod,
)
from strapwright.shop.steel_names import UNKNOWN_STEEL

__all__ = [
    "GUIDE_FRICTION",
    "MEMBER_KEYS",
    "OFF_CENTRE",
    "SEVERAL",
    "SIDE_LOAD",
    "SINGLE",
    "UNKNOWN_STEEL",
    "Bolt",
    "Carriers",
    "Circuit",
    "Coupling",
    "CouplingKind",
    "DieBody",
    "Frame",
    "Guides",
    "Holds",
    "Members",
    "NoseMember",
    "PistonRod",
    "PushPlate",
    "ShoulderKind",
    "ShoulderMember",
    "Weld",
]

SIDE_LOAD = 0.05  # of every push, across the nose; common practice, no source
OFF_CENTRE = 3.0  # mm; about 1/8 in, how far a bar is laid off by eye; common practice, no source
MOST_BENDS = 10_000_000  # a year, more than any hand can lay in
_TABLE, _LIST = Key(kind="table"), Key(kind="list")


@frozen(kw_only=True)
class Members:
    """Every member stated; ``None`` or empty where nothing is said of it.

    Attributes
    ----------
    off_centre
        How far the bar may lie off the ram's axis [mm].
    side_load
        Share of every push that is taken across the nose [-].
    bends_a_year
        How many bends the tooling makes a year; ``None`` where not stated.
    """

    off_centre: float = key(
        "length",
        default=OFF_CENTRE,
        zero=True,
        help="how far the bar may be off the ram's axis",
        inch="1/8 in",
        metric="3 mm",
        label="Largest off-centre position of the bar",
        hint="along the nose",
    )
    side_load: float = key(
        "share",
        default=SIDE_LOAD,
        zero=True,
        help="share of every push that is taken sideways, across the nose",
        inch="0.05",
        label="Share of the push taken sideways",
        hint="across the nose",
    )
    bends_a_year: int | None = key(
        "count",
        most=MOST_BENDS,
        help="how many bends the tooling makes a year, for its life",
        lacking="how long the members last",
        inch="5000",
        label="Bends a year",
        hint="of all parts together",
    )
    nose: NoseMember | None = keys(_TABLE, default=None)
    carriers: Carriers | None = keys(_TABLE, default=None)
    push_plate: PushPlate | None = keys(_TABLE, default=None)
    shoulders: ShoulderMember | None = keys(_TABLE, default=None)
    body: DieBody | None = keys(_TABLE, default=None)
    guides: Guides | None = keys(_TABLE, default=None)
    coupling: Coupling | None = keys(_TABLE, default=None)
    rod: PistonRod | None = keys(_TABLE, default=None)
    frame: Frame | None = keys(_TABLE, default=None)
    circuit: Circuit | None = keys(_TABLE, default=None)
    weld: tuple[Weld, ...] = keys(_LIST, default=())
    bolt: tuple[Bolt, ...] = keys(_LIST, default=())

    @property
    def held(self) -> tuple[Holds, ...]:
        """What welds and bolts hold, in their order."""
        return tuple(one.holds for one in self.weld) + tuple(one.holds for one in self.bolt)


# Key of [tooling.members] -> what its table makes.
SINGLE: Mapping[str, type[Any]] = MappingProxyType(
    {
        "nose": NoseMember,
        "carriers": Carriers,
        "push_plate": PushPlate,
        "shoulders": ShoulderMember,
        "body": DieBody,
        "guides": Guides,
        "coupling": Coupling,
        "rod": PistonRod,
        "frame": Frame,
        "circuit": Circuit,
    }
)
SEVERAL: Mapping[str, type[Any]] = MappingProxyType({"weld": Weld, "bolt": Bolt})
MEMBER_KEYS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "tooling.members": tuple(keys_of(Members)),
        **{
            f"tooling.members.{key}": tuple(keys_of(made))
            for key, made in {**SINGLE, **SEVERAL}.items()
        },
    }
)
