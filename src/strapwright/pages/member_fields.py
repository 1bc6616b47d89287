"""The fields of the members that carry nose and shoulders: a line of a tooling file each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any, get_args

from attrs import Attribute
from attrs import fields as attributes

from strapwright.catalog.steels import steels
from strapwright.pages.form_fields import Field, Kind
from strapwright.shop.members import SEVERAL, SINGLE, UNKNOWN_STEEL, Holds

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
MOST_FASTENINGS = 20  # welds or bolts a page shows; more is no small tooling
_NOT_SAID = ("", "not stated")
_YES, _NO = ("yes", "yes"), ("no", "no")
_HOLDS = tuple((one, one) for one in get_args(Holds))

# Heading, key, label, kind, example in inches, in metric, hint.
_Row = tuple[str, str, Kind, str, str, str]
_ROWS: Mapping[str, Sequence[_Row]] = {
    "nose": (
        ("material", "Steel of the nose", "text", "", "", "steel"),
        ("between", "Carrier to carrier", "length", "2-1/2 in", "65 mm", "middle to middle"),
        ("sag", "May sag by", "length", "0.005 in", "0.1 mm", "a 500th of that, where left out"),
        ("web_material", "Steel of the web", "text", "", "", "web steel"),
    ),
    "carriers": (
        ("material", "Steel of the carriers", "text", "", "", "steel"),
        ("thickness", "Thickness", "length", "3/4 in", "20 mm", "along the nose"),
        ("width", "Width", "length", "2 in", "50 mm", "across the nose"),
        ("height", "Free height", "length", "3 in", "75 mm", "push plate to nose"),
        ("pin", "Pin, where it hangs on one", "length", "1/2 in", "12 mm", ""),
        ("pin_material", "Steel of the pin", "text", "", "", "steel"),
        ("cheek", "Cheek beside the pin", "length", "3/8 in", "10 mm", "thickness of each"),
    ),
    "push_plate": (
        ("material", "Steel of the push plate", "text", "", "", "steel"),
        ("thickness", "Thickness", "length", "3/4 in", "20 mm", ""),
        ("width", "Width", "length", "4 in", "100 mm", "across the nose"),
        ("pad", "Backed by the ram over", "length", "1-3/4 in", "45 mm", "rod, where left out"),
    ),
    "shoulders": (
        ("kind", "What they are", "text", "", "", "kind"),
        ("material", "Steel of the shoulders", "text", "", "", "steel"),
        ("backed", "Backed all along", "text", "", "", "yes"),
        ("between", "Between their supports", "length", "3 in", "75 mm", "where not backed"),
        ("seat_material", "Steel of their seats", "text", "", "", "steel"),
    ),
    "body": (
        ("material", "Steel of the body", "text", "", "", "steel"),
        ("cheek", "Cheek thickness", "length", "1 in", "25 mm", "what keeps a shoulder from going"),
        ("floor", "Floor thickness", "length", "1 in", "25 mm", ""),
        ("length", "Length", "length", "4 in", "100 mm", "along the nose"),
        ("height", "Floor to the push", "length", "1-1/2 in", "40 mm", "height, where left out"),
        ("side_plate", "Side plates, thickness", "length", "3/4 in", "20 mm", "bolted, no floor"),
        ("between", "Side plates, apart", "length", "5 in", "125 mm", "middle to middle"),
        ("tall", "Side plates, how tall", "length", "3 in", "75 mm", "as the cheeks"),
    ),
    "guides": (
        ("count", "How many", "count", "2", "2", ""),
        ("diameter", "Diameter", "length", "1 in", "25 mm", ""),
        ("length", "Free length", "length", "10 in", "250 mm", "between what holds it"),
        ("spacing", "Apart", "length", "8 in", "200 mm", ""),
        ("bush", "Length of a bush", "length", "3 in", "75 mm", ""),
        ("clearance", "Bush on rod", "length", "0.004 in", "0.1 mm", "on the diameter"),
        ("friction", "Friction", "share", "0.25", "0.25", "static"),
        ("material", "Steel of the rods", "text", "", "", "steel"),
    ),
    "coupling": (
        ("kind", "Ram and push plate are", "text", "", "", "joint"),
        ("play", "Play", "length", "0.04 in", "1 mm", "floating only"),
        ("length", "across", "length", "2 in", "50 mm", "floating only"),
        ("pin", "Pin that pulls back", "length", "1/2 in", "12 mm", ""),
        ("pin_material", "Steel of that pin", "text", "", "", "steel"),
    ),
    "rod": (
        ("material", "Steel of the rod", "text", "", "", "steel"),
        ("free_length", "Out by", "length", "10 in", "250 mm", "gland to push plate, ram out"),
        ("guided", "Held sideways by guide rods", "text", "", "", "no"),
    ),
    "frame": (("rating", "The frame stands", "force", "12 tons (US)", "110 kN", "as stated"),),
    "circuit": (
        ("hose", "Hose rated to", "pressure", "3000 psi", "210 bar", ""),
        ("fitting", "Fittings rated to", "pressure", "3000 psi", "210 bar", ""),
        ("valve", "Valve rated to", "pressure", "3000 psi", "210 bar", ""),
        ("cylinder", "Cylinder rated to", "pressure", "2500 psi", "170 bar", ""),
        ("rod_side", "Rod side rated to", "pressure", "2500 psi", "170 bar", "its lowest"),
        ("gauge", "Gauge reads to", "pressure", "3000 psi", "250 bar", ""),
        ("holds_load", "Load held with the pump off", "text", "", "", "maybe"),
    ),
}
_WELD: Sequence[_Row] = (
    ("holds", "holds the", "text", "", "", "holds"),
    ("size", "Leg of the fillet", "length", "1/4 in", "6 mm", ""),
    ("length", "Length of all runs", "length", "8 in", "200 mm", "one side or one carrier"),
    ("thinner", "Thinner part", "length", "3/4 in", "20 mm", ""),
    ("spacing", "Rows apart", "length", "3 in", "75 mm", "what stands against tilting"),
    ("height", "Weld to the push", "length", "1-1/2 in", "40 mm", ""),
    ("electrode", "Weld metal", "strength", "70 ksi", "480 MPa", "tensile"),
)
_BOLT: Sequence[_Row] = (
    ("holds", "holds the", "text", "", "", "holds"),
    ("size", "Thread", "text", "1/2-13", "M12", ""),
    ("grade", "Grade", "text", "5", "8.8", "on its head"),
    ("count", "How many", "count", "4", "4", "of one side or one carrier"),
    ("length", "Length", "length", "1-3/4 in", "45 mm", "under the head"),
    ("grip", "Passes", "length", "3/4 in", "20 mm", "before its thread takes hold"),
    ("into", "Screwed into", "text", "", "", "steel"),
    ("spacing", "Rows apart", "length", "3 in", "75 mm", "what stands against tilting"),
    ("height", "Bolted face to the push", "length", "1-1/2 in", "40 mm", ""),
    ("circle", "Bolt circle", "length", "3 in", "75 mm", "of a round flange"),
)


_MADE: Mapping[str, type[Any]] = {**SINGLE, **SEVERAL}
# Kind of a value in the file -> kind of its field, and examples.
_EXAMPLES: Mapping[str, tuple[Kind, str, str]] = {
    "length": ("length", "1 in", "25 mm"),
    "force": ("force", "5 tons (US)", "50 kN"),
    "pressure": ("pressure", "3000 psi", "210 bar"),
    "strength": ("strength", "44 ksi", "300 MPa"),
    "friction": ("share", "0.25", "0.25"),
    "count": ("count", "2", "2"),
}


@cache
def steel_choices() -> tuple[tuple[str, str], ...]:
    """Names of the steels, the one nothing is known of first."""
    names = (UNKNOWN_STEEL, *(one.name for one in steels() if one.name != UNKNOWN_STEEL))
    return tuple((name, name) for name in names)


@cache
def _choices(hint: str) -> tuple[tuple[str, str], ...]:
    if hint == "steel":
        return steel_choices()
    if hint == "web steel":
        return (("", "as the nose"), *steel_choices())
    if hint.startswith("one of "):
        words = hint.removeprefix("one of ").split(", ")
        return (_NOT_SAID, *((word, word) for word in words))
    return {
        "kind": (_NOT_SAID, ("shaft", "shafts on a seat"), ("block", "blocks, or in a half round")),
        "joint": (
            _NOT_SAID,
            ("rigid", "rigid"),
            ("pinned", "pinned"),
            ("floating", "floating"),
        ),
        "yes": (_YES, _NO),
        "no": (_NO, _YES),
        "maybe": (_NOT_SAID, _YES, _NO),
        "holds": _HOLDS,
    }.get(hint, ())


def _field(path: str, row: _Row, group: str) -> Field:
    key, label, kind, inch, metric, hint = row
    choices = _choices(hint) if kind == "text" else ()
    return Field(
        name=f"{path}.{key}",
        label=label,
        kind=kind,
        inch=inch,
        metric=metric,
        choices=choices,
        hint="" if choices else hint,
        group=group,
    )


def member_fields(raw: Mapping[str, Any]) -> tuple[Field, ...]:
    """Fields of every member, welds and bolts as many as the file has.

    Parameters
    ----------
    raw
        The job file's plain values.
    """
    fields = [
        Field(
            name=f"{ROOT}.off_centre",
            label="Bar may lie off the middle by",
            kind="length",
            inch="1/8 in",
            metric="3 mm",
            hint="along the nose",
            group="Frame and load",
        )
    ]
    headings = {table: heading for heading, table in GROUPS.items()}
    for table in SINGLE:
        heading = headings.get(table, _plain(table))
        fields += [_field(f"{ROOT}.{table}", row, heading) for row in _rows(table)]
    for key in SEVERAL:
        for number in range(1, count_of(raw, key) + 1):
            path = f"{ROOT}.{key}[{number}]"
            fields += [_field(path, row, f"{_plain(key)} {number}") for row in _rows(key)]
    return tuple(fields)


@cache
def _rows(table: str) -> tuple[_Row, ...]:
    """Rows of a member, and after them what the file knows and no row names."""
    rows = {"weld": _WELD, "bolt": _BOLT, **_ROWS}.get(table, ())
    named = {key for key, *_ in rows}
    return (*rows, *(_told(one) for one in attributes(_MADE[table]) if one.name not in named))


def _told(one: Attribute[Any]) -> _Row:
    """Make a row of what a member's own value says of a key."""
    kind: str = one.metadata["kind"].removeprefix("needed ")
    label = _plain(one.name)
    if kind in _EXAMPLES:
        return (one.name, label, *_EXAMPLES[kind], "")
    if kind == "flag":
        return (one.name, label, "text", "", "", "yes" if one.default is True else "maybe")
    if kind == "choice":
        return (one.name, label, "text", "", "", "one of " + ", ".join(one.metadata["options"]))
    return (one.name, label, "text", "", "", "steel" if kind == "steel" else "")


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
