"""The fields of the part: legs and bends in turn, and holes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any, Literal

from attrs import evolve, frozen

from strapwright.pages.fields.form_fields import Field, typed
from strapwright.pages.fields.key_fields import fields_under, key_field
from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop.job import BlankSettings, HitSettings
from strapwright.shop.keys import Key, keys_of
from strapwright.shop.overall_sizes import Overall
from strapwright.shop.part import Hole, Part
from strapwright.shop.part_limits import Tolerance

_ITEM = re.compile(
    r"\s*(?P<word>up|down|roll|joggle|twist)\b\s*(?P<rest>.*)", re.IGNORECASE | re.DOTALL
)
_RADIUS = re.compile(r"\bradius\b", re.IGNORECASE)
_WAYS = (("up", "up"), ("down", "down"))
_HOLE = keys_of(Hole)
_MINUTES = {
    "turn_over": "Turning the bar over",
    "swap_ends": "Swapping its ends",
    "half_turn": "Both in one move",
    "move_stop": "Moving the end stop",
    "take_again": "Taking a part again",
    "change_tooling": "Changing the tooling",
}
_EITHER_SIDE = "degrees, to either side"
_BLANK_HINTS = {
    "factor": "share of the thickness at which the neutral axis lies, for that method",
    "reading": "",
}
EMPTY_SHAPE = ("", "up ", "")


@frozen(kw_only=True)
class ShapeRow:
    """One entry of the shape as it is typed.

    Attributes
    ----------
    at
        1-based place in the shape.
    kind
        ``leg``, ``bend``, ``roll``, ``twist`` or ``joggle``, which is two bends and the leg between
        them.
    number
        Of the leg, of the bend, of the bend that a roll comes before, or of the leg that a twist
        lies in; of a joggle its first.
    """

    at: int
    kind: Literal["leg", "bend", "roll", "joggle", "twist"]
    number: int


def shape_of(raw: Mapping[str, Any]) -> list[str]:
    """Return the entries of the shape as typed; three empty ones where there is none."""
    part = raw.get("part")
    shape = part.get("shape") if isinstance(part, Mapping) else None
    if not isinstance(shape, list) or not shape:
        return list(EMPTY_SHAPE)
    return [typed(item) for item in shape]


def shape_rows(shape: list[str]) -> tuple[ShapeRow, ...]:
    """Tell what each entry of the shape is."""
    rows: list[ShapeRow] = []
    legs = bends = 0
    for at, item in enumerate(shape, start=1):
        found = _ITEM.fullmatch(item)
        word = found["word"].lower() if found else ""
        if word == "roll":
            rows.append(ShapeRow(at=at, kind="roll", number=bends + 1))
        elif word == "twist":
            rows.append(ShapeRow(at=at, kind="twist", number=legs))
        elif word == "joggle":
            rows.append(ShapeRow(at=at, kind="joggle", number=bends + 1))
            bends += 2
            legs += 1
        elif word:
            bends += 1
            rows.append(ShapeRow(at=at, kind="bend", number=bends))
        else:
            # A length behind a roll or a twist goes on the leg that was begun before it.
            legs += not (rows and rows[-1].kind in ("roll", "twist"))
            rows.append(ShapeRow(at=at, kind="leg", number=legs))
    return tuple(rows)


def shape_fields(shape: list[str]) -> tuple[Field, ...]:
    """Fields of the legs and bends."""
    fields: list[Field] = []
    rows = shape_rows(shape)
    twists = {row.at for row in rows if row.kind == "twist"}
    for row in rows:
        name = f"part.shape[{row.at}]"
        if row.kind == "leg":
            to = " to the middle of its twist" if row.at + 1 in twists else ""
            to = to or (" from the middle of its twist" if row.at - 1 in twists else "")
            fields.append(
                Field(
                    name=name,
                    label=f"Leg {row.number}{to}",
                    kind="length",
                    inch="3-1/2 in",
                    metric="90 mm",
                    needed=True,
                )
            )
        elif row.kind == "joggle":
            fields.append(
                Field(
                    name=name,
                    label=f"Joggle, bends {row.number} and {row.number + 1}",
                    inch="up 1/2 over 2",
                    metric="up 12 over 50",
                    hint="which way, how far off, over which length",
                    needed=True,
                )
            )
        elif row.kind == "twist":
            fields.append(
                Field(
                    name=name,
                    label=f"Quarter twist in leg {row.number}",
                    inch="90 over 3",
                    metric="90 over 80",
                    hint="90 turns the top towards you, -90 away; how long the twisted run is",
                    needed=True,
                )
            )
        elif row.kind == "roll":
            fields.append(
                Field(
                    name=name,
                    label=f"Roll the bar before bend {row.number}",
                    kind="angle",
                    inch="90",
                    hint="degrees, top towards you",
                )
            )
        else:
            fields += [
                Field(
                    name=name,
                    label=f"Bend {row.number} angle",
                    kind="angle",
                    inch="90",
                    hint="degrees; 90 is a square corner",
                    needed=True,
                ),
                Field(name=f"{name}.way", label=f"Bend {row.number} direction", choices=_WAYS),
                Field(
                    name=f"{name}.radius",
                    label=f"Bend {row.number} large radius",
                    kind="length",
                    inch="6 in",
                    metric="150 mm",
                    hint=(
                        "inside radius, bumped in a series of hits; leave empty to take the radius "
                        "the nose gives"
                    ),
                ),
            ]
    return tuple(fields)


def shape_values(shape: list[str]) -> dict[str, str]:
    """Return what stands in the fields of a shape."""
    values: dict[str, str] = {}
    for at, item in enumerate(shape, start=1):
        name = f"part.shape[{at}]"
        found = _ITEM.fullmatch(item)
        if found is None:
            values[name] = item
            continue
        if found["word"].lower() in ("joggle", "twist"):
            values[name] = found["rest"].strip()
            continue
        angle, *radius = (one.strip() for one in _RADIUS.split(found["rest"], maxsplit=1))
        values[name] = angle
        if found["word"].lower() != "roll":
            values[f"{name}.way"] = found["word"].lower()
            values[f"{name}.radius"] = radius[0] if radius else ""
    return values


def shape_from(values: Mapping[str, str], shape: list[str]) -> list[str]:
    """Return the shape with what was typed into its fields."""
    fresh = []
    for at, item in enumerate(shape, start=1):
        name = f"part.shape[{at}]"
        text = values.get(name)
        found = _ITEM.fullmatch(item)
        if text is None:
            fresh.append(item)
        elif found is None:
            fresh.append(text.strip())
        elif found["word"].lower() in ("roll", "joggle", "twist"):
            fresh.append(f"{found['word'].lower()} {text.strip()}")
        else:
            way = values.get(f"{name}.way", found["word"]).lower()
            radius = values.get(f"{name}.radius", "").strip()
            end = f" radius {radius}" if radius else ""
            fresh.append(f"{'down' if way == 'down' else 'up'} {text.strip()}{end}")
    return fresh


def bends_of(shape: list[str]) -> int:
    """Return how many bends a shape has; a joggle has two."""
    kinds = [row.kind for row in shape_rows(shape)]
    return kinds.count("bend") + 2 * kinds.count("joggle")


def hole_fields(number: int, legs: int, bends: int) -> tuple[Field, ...]:
    """Fields of one hole.

    Parameters
    ----------
    number
        1-based.
    legs, bends
        How many the part has.
    """
    name = f"part.hole[{number}]"
    starts = [("end", "from the free end")]
    starts += [(str(bend), f"from bend {bend}") for bend in range(1, bends + 1)]
    size, at, across = (
        key_field(evolve(_HOLE[one], label=f"Hole {number} {_HOLE[one].label}"), name, "")
        for one in ("diameter", "from_end", "across")
    )
    on, start = (f"Hole {number} {_HOLE[one].label}" for one in ("leg", "from_bend"))
    more = (
        key_field(evolve(_HOLE[one], label=f"Hole {number} {_HOLE[one].label}"), name, "")
        for one in ("length", "open", "drilled")
    )
    return (
        size,
        Field(
            name=f"{name}.leg",
            label=on,
            choices=tuple((str(leg), f"on leg {leg}") for leg in range(1, legs + 1)),
        ),
        # Typed in one field, whichever of the two keys it is written under.
        evolve(at, name=f"{name}.distance"),
        Field(name=f"{name}.from", label=start, choices=tuple(starts)),
        across,
        *more,
    )


def hole_values(number: int, hole: Mapping[str, Any]) -> dict[str, str]:
    """Return what stands in the fields of a hole."""
    name = f"part.hole[{number}]"
    from_bend = hole.get("from_bend")
    return {
        f"{name}.diameter": typed(hole.get("diameter")),
        f"{name}.leg": typed(hole.get("leg", 1)),
        f"{name}.distance": typed(hole.get("from_end", hole.get("distance"))),
        f"{name}.from": "end" if from_bend is None else typed(from_bend),
        f"{name}.across": typed(hole.get("across")),
        **{f"{name}.{one}": typed(hole.get(one)) for one in ("length", "open", "drilled")},
    }


def _is_short_number(text: str) -> bool:
    return text.isdecimal() and len(text) < 4


def hole_changes(number: int, values: Mapping[str, str]) -> dict[str, object]:
    """Return the keys of a hole for what was typed."""
    name = f"part.hole[{number}]"
    start = values.get(f"{name}.from", "end")
    distance = values.get(f"{name}.distance", "").strip()
    leg = values.get(f"{name}.leg", "1")
    return {
        f"{name}.leg": int(leg) if _is_short_number(leg) else leg,
        f"{name}.from_end": distance if start == "end" else None,
        f"{name}.from_bend": int(start) if _is_short_number(start) else None,
        f"{name}.distance": None if start == "end" else distance,
        f"{name}.diameter": values.get(f"{name}.diameter", "").strip(),
        f"{name}.across": values.get(f"{name}.across", "").strip() or None,
        f"{name}.length": values.get(f"{name}.length", "").strip() or None,
        **{
            f"{name}.{one}": None if said in ("", _HOLE[one].default) else said
            for one in ("open", "drilled")
            for said in [values.get(f"{name}.{one}", "")]
        },
    }


def limit_fields() -> tuple[Field, ...]:
    """Fields of what legs and angles may be out by."""
    general, length = (keys_of(Tolerance)[name] for name in ("class", "length"))
    angle = keys_of(Part)["angle_tolerance"]
    words = {"f": "fine", "m": "medium", "c": "coarse", "v": "very coarse"}
    return (
        key_field(
            evolve(general, label="ISO 2768-1 class", blank="not entered", words=words, hint=""),
            "part.tolerance",
            "",
        ),
        key_field(evolve(length, label="Legs may be off by"), "part.tolerance", ""),
        evolve(
            key_field(evolve(angle, label="Angles may be off by", hint=_EITHER_SIDE), "part", ""),
            alone=True,
        ),
        key_field(keys_of(HitSettings)["tolerance"], "hits", ""),
    )


def blank_fields() -> tuple[Field, ...]:
    """Fields of how the blank is worked out and read."""
    return tuple(
        evolve(key_field(key, "blank", ""), hint="" if name == "method" else _BLANK_HINTS[name])
        for name, key in keys_of(BlankSettings).items()
    )


def _minutes_hint(key: Key) -> str:
    return f"minutes; {key.left_out or f'{key.default:g}'} where empty"


def handling_fields() -> tuple[Field, ...]:
    """Fields of the minutes that handling takes in this shop."""
    return tuple(
        evolve(
            key_field(evolve(key, label=_MINUTES[name], hint=_minutes_hint(key)), "handling", ""),
            kind="count",
        )
        for name, key in keys_of(HandlingMinutes).items()
    )


@cache
def part_fields() -> tuple[Field, ...]:
    """Fields of the part beside its shape."""
    fields = fields_under({"part": ""}, {"part": Part, "part.overall": Overall}, {})
    fields = (*fields, *limit_fields(), *handling_fields(), *blank_fields())
    # A file may leave the name out; on the page it is how the job is found again.
    return tuple(evolve(field, needed=field.name == "part.name") for field in fields)
