"""The fields of other tooling: a nose, shoulders or both that some bends of a part are made on."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from attrs import evolve

from strapwright.pages.fields.form_fields import Field, typed
from strapwright.pages.fields.key_fields import Raw, fields_under, key_field
from strapwright.shop.keys import keys_of
from strapwright.shop.nose_and_shoulders import Nose, Shoulders
from strapwright.shop.other_tooling import OtherTooling

OTHER = "part.other_tooling"
MOST_OTHERS = 10  # more than a part has bends that differ; common practice, no source
_KEYS = keys_of(OtherTooling)
_BELOW: Mapping[str, type[Any]] = {"nose": Nose, "shoulders": Shoulders}
# What makes it that tooling; the rest is folded away.
_FIRST = ("nose.shaft", "nose.radius", "shoulders.radius", "shoulders.opening", "shoulders.gap")
_DIGITS = re.compile(r"\d{1,3}")


def others_of(raw: Raw) -> list[Raw]:
    """Return what a job file states of other tooling."""
    part = raw.get("part")
    found = part.get("other_tooling") if isinstance(part, Mapping) else None
    kept = [one for one in found if isinstance(one, Mapping)] if isinstance(found, list) else []
    return kept[:MOST_OTHERS]


def group_of(number: int) -> str:
    """Return the heading that other tooling stands under."""
    return f"Other tooling {number}"


def other_tooling_fields(raw: Raw) -> tuple[Field, ...]:
    """Fields of each other tooling that the file has.

    Parameters
    ----------
    raw
        The job file's plain values.
    """
    found: list[Field] = []
    for number in range(1, len(others_of(raw)) + 1):
        at, group = f"{OTHER}[{number}]", group_of(number)
        name, bends = (key_field(_KEYS[one], at, group) for one in ("name", "bends"))
        found += [name, evolve(bends, inch="2, 3", hint="empty: it is only at hand")]
        inside = fields_under(
            {"nose": group, "shoulders": group},
            {f"{at}.{below}": made for below, made in _BELOW.items()},
            raw,
        )
        first = [f"{at}.{one}" for one in _FIRST]
        found += [
            evolve(field, needed=False, later=field.name not in first, hint=_hint(field))
            for field in inside
        ]
        found.append(evolve(key_field(_KEYS["rating"], at, group), later=True))
    return tuple(found)


def other_tooling_labels() -> dict[str, str]:
    """Label of every field of other tooling by its key path without a number."""
    raw: dict[str, Any] = {"part": {"other_tooling": [{}]}}
    return {one.name.replace("[1]", ""): one.label for one in other_tooling_fields(raw)}


def _hint(field: Field) -> str:
    if field.name.endswith((".shaft", "nose.radius")):
        return "default: the nose of the main tooling"
    if field.name.endswith("shoulders.radius"):
        return "default: the shoulders of the main tooling"
    return field.hint


def other_tooling_values(raw: Raw) -> dict[str, str]:
    """Return the bends of each other tooling as they are typed, ``2, 3``."""
    return {
        f"{OTHER}[{number}].bends": _numbers(one.get("bends"))
        for number, one in enumerate(others_of(raw), start=1)
    }


def _numbers(bends: object) -> str:
    return ", ".join(map(typed, bends)) if isinstance(bends, list) else typed(bends)


def bends_typed(text: str) -> list[object] | None:
    """Return what the file says for bends as typed; what is no number stays as it is."""
    said = [one for one in re.split(r"[\s,;]+|\band\b", text.strip()) if one]
    return [int(one) if _DIGITS.fullmatch(one) else one for one in said] or None
