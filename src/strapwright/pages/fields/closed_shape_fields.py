"""The fields of a closed shape: how its ends meet, and which leg gives way."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import evolve

from strapwright.pages.fields.form_fields import Field
from strapwright.pages.fields.key_fields import key_field
from strapwright.shop.keys import keys_of
from strapwright.shop.part_holes import Closing

CLOSE = "part.close"
_KIND, _ABSORB = f"{CLOSE}.kind", f"{CLOSE}.absorb"


def closed_shape_fields(legs: int) -> tuple[Field, ...]:
    """Fields of how the ends meet.

    Parameters
    ----------
    legs
        How many the part has.
    """
    kind, size, absorb = (evolve(one, needed=False) for one in _fields())
    choices = tuple((str(leg), f"leg {leg}") for leg in range(1, legs + 1))
    return kind, size, evolve(absorb, kind="count", choices=choices, hint="")


def _fields() -> tuple[Field, ...]:
    return tuple(key_field(key, CLOSE, "") for key in keys_of(Closing).values())


def closed_shape_changes(
    changes: Mapping[str, object], values: Mapping[str, str], *, stated: bool
) -> dict[str, object]:
    """Return the changes of a form with those of a closed shape put right.

    Parameters
    ----------
    changes
        Key path -> value of every field.
    values
        As typed.
    stated
        Whether the file has it.
    """
    if values.get(_KIND, ""):  # a leg that was not chosen is the first one, as the page shows
        return {**changes, _ABSORB: changes.get(_ABSORB) or 1}
    others = {path: to for path, to in changes.items() if not path.startswith(f"{CLOSE}.")}
    if stated:
        return {**others, CLOSE: None}
    size = f"{CLOSE}.size"
    return {**others, size: changes.get(size)}
