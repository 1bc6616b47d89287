"""The fields of the members that carry nose and shoulders: a line of a tooling file each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import evolve

from strapwright.pages.fields.form_fields import Field
from strapwright.pages.fields.key_fields import key_field
from strapwright.shop.keys import keys_of
from strapwright.shop.members import SEVERAL, SINGLE, Members

ROOT = "tooling.members"
# Heading on the page -> its table in the file.
GROUPS = {
    "Nose (punch)": "nose",
    "Carriers": "carriers",
    "Push plate": "push_plate",
    "Shoulders (die)": "shoulders",
    "Die body": "body",
    "Guide rods": "guides",
    "Coupling": "coupling",
    "Piston rod": "rod",
    "Frame and load": "frame",
    "Hoses, valve and gauge": "circuit",
}
_LOADS = ("off_centre", "side_load", "bends_a_year")
MOST_FASTENINGS = 20  # welds or bolts a page shows; more is no small tooling


def member_fields(raw: Mapping[str, Any]) -> tuple[Field, ...]:
    """Fields of every member, welds and bolts as many as the file has.

    Parameters
    ----------
    raw
        The job file's plain values.
    """
    stated = keys_of(Members)
    fields = [key_field(stated[key], ROOT, "Frame and load") for key in _LOADS]
    headings = {table: heading for heading, table in GROUPS.items()}
    for table, made in SINGLE.items():
        heading = headings.get(table, _plain(table))
        fields += _fields(f"{ROOT}.{table}", made, heading)
    for key, made in SEVERAL.items():
        for number in range(1, count_of(raw, key) + 1):
            fields += _fields(f"{ROOT}.{key}[{number}]", made, f"{_plain(key)} {number}")
    return tuple(fields)


def _fields(path: str, made: type[Any], heading: str) -> list[Field]:
    keys = sorted(keys_of(made).values(), key=lambda key: key.place)
    # What a member needs is told by its check, not by a mark on the page.
    return [evolve(key_field(key, path, heading), needed=False) for key in keys]


def _plain(key: str) -> str:
    return key.replace("_", " ").capitalize()


def count_of(raw: Mapping[str, Any], key: str) -> int:
    """Return how many welds or bolts a job file states."""
    tooling = raw.get("tooling")
    members = tooling.get("members") if isinstance(tooling, Mapping) else None
    several = members.get(key) if isinstance(members, Mapping) else None
    return min(len(several), MOST_FASTENINGS) if isinstance(several, list) else 0


def member_labels() -> dict[str, str]:
    """Label of every member's field by its key path without numbers, with what it belongs to."""
    raw: dict[str, Any] = {"tooling": {"members": {"weld": [{}], "bolt": [{}]}}}
    found = {ROOT: "The members"}
    for field in member_fields(raw):
        bare = field.name.replace("[1]", "")
        group = field.group.removesuffix(" 1")
        found[bare] = f"{group}: {field.label[:1].lower()}{field.label[1:]}"
        found[bare.rpartition(".")[0]] = group
    found[ROOT] = "The members"
    return found
