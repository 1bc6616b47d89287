"""The members that are checked, by their codes; what a reader calls them stands in the words."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from attrs import frozen

from strapwright.findings import Fact
from strapwright.shop.members import Holds

MemberName = Literal[
    "every member",
    "nose",
    "carriers",
    "carrier pins",
    "push plate",
    "shoulders",
    "die body",
    "guide rods",
    "coupling",
    "coupling pin",
    "piston rod",
    "frame",
    "hose",
    "fitting",
    "valve",
    "cylinder",
    "rod side",
    "gauge",
    "circuit",
    "weld of the shoulders",
    "weld of the cheeks",
    "weld of the carriers",
    "weld of the push plate",
    "weld of the nose",
    "weld of the web",
    "weld of the side plates",
    "weld of the base",
    "bolts of the shoulders",
    "bolts of the cheeks",
    "bolts of the carriers",
    "bolts of the push plate",
    "bolts of the nose",
    "bolts of the web",
    "bolts of the side plates",
    "bolts of the base",
]

# What a weld or bolts hold -> them as a member.
WELDS: Mapping[Holds, MemberName] = MappingProxyType(
    {
        "shoulders": "weld of the shoulders",
        "cheeks": "weld of the cheeks",
        "carriers": "weld of the carriers",
        "push plate": "weld of the push plate",
        "nose": "weld of the nose",
        "web": "weld of the web",
        "side plates": "weld of the side plates",
        "base": "weld of the base",
    }
)
BOLTS: Mapping[Holds, MemberName] = MappingProxyType(
    {
        "shoulders": "bolts of the shoulders",
        "cheeks": "bolts of the cheeks",
        "carriers": "bolts of the carriers",
        "push plate": "bolts of the push plate",
        "nose": "bolts of the nose",
        "web": "bolts of the web",
        "side plates": "bolts of the side plates",
        "base": "bolts of the base",
    }
)


@frozen
class Member(Fact):
    """A member, as a finding states it."""

    name: MemberName
