"""Fields of the part that a file keeps in lists: a bend finished at the bench, single limits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from attrs import evolve, frozen

from strapwright.pages.fields.form_fields import Field, stored, typed
from strapwright.pages.fields.key_fields import Raw, key_field
from strapwright.shop.keys import keys_of
from strapwright.shop.part_finish import Finish
from strapwright.shop.part_limits import Limit, Tolerance

FINISH, LIMIT = "part.finish", "part.limit"
_FINISH = keys_of(Finish)
_LIMIT = keys_of(Limit)
_OF_LEG, _OF_BEND = "leg", "bend"
# What an entry is for -> the key of its figure.
_FIGURES = {_OF_LEG: "length", _OF_BEND: "angle"}
# Keys of a finish beside the bend it is for and the angle to stop at.
_MORE = tuple(name for name in _FINISH if name not in ("bend", "at"))


@frozen(kw_only=True)
class Entry:
    """One entry of a list in the file, and the fields it stands in.

    Attributes
    ----------
    field
        Name of its first field; the others have theirs behind it.
    head
        Keys that say what it is for.
    figures
        Key -> field.
    """

    field: str
    head: Mapping[str, object]
    figures: Mapping[str, str]


def finish_fields(bend: int, toolings: Sequence[str]) -> tuple[Field, ...]:
    """Fields of a bend that the press makes part of the way.

    Parameters
    ----------
    bend
        1-based number along the bar.
    toolings
        Names of the tooling that it may be finished on.
    """
    on = (("", "no tooling"), *((one, one) for one in toolings))
    name = f"{FINISH}.bend[{bend}]"
    at = key_field(_FINISH["at"], FINISH, "")
    first = evolve(at, name=name, label=f"Bend {bend}: {at.label}", needed=False)
    rest = (key_field(_FINISH[one], FINISH, "") for one in _MORE)
    return (
        first,
        *(
            evolve(
                one,
                name=f"{name}.{one.name.removeprefix(f'{FINISH}.')}",
                label=f"Bend {bend}: {one.label}",
                choices=on if one.name == f"{FINISH}.tooling" else one.choices,
                needed=False,
            )
            for one in rest
        ),
    )


def limit_fields(legs: int, bends: int) -> tuple[Field, ...]:
    """Fields of which leg takes the error, and of what single legs and bends may be off by.

    Parameters
    ----------
    legs, bends
        How many the part has.
    """
    takes = key_field(keys_of(Tolerance)["takes"], "part.tolerance", "")
    takes = evolve(
        takes,
        kind="count",
        hint="",
        choices=(
            ("", "the last, or the one that closes"),
            *((str(leg), f"leg {leg}") for leg in range(1, legs + 1)),
        ),
    )
    of = [(_OF_LEG, leg) for leg in range(1, legs + 1)]
    of += [(_OF_BEND, bend) for bend in range(1, bends + 1)]
    return (
        takes,
        *(
            evolve(
                key_field(_LIMIT[_FIGURES[what]], LIMIT, ""),
                name=f"{LIMIT}.{what}[{number}]",
                label=f"{what.capitalize()} {number} may be off by",
                hint="degrees" if what == _OF_BEND else "",
                needed=False,
                alone=True,
            )
            for what, number in of
        ),
    )


def _entries(what: str, legs: int, bends: int) -> tuple[Entry, ...]:
    """Entries that a part may have, in the order in which new ones are written."""
    if what == FINISH:
        return tuple(
            Entry(
                field=f"{FINISH}.bend[{bend}]",
                head={"bend": bend},
                figures={
                    "at": f"{FINISH}.bend[{bend}]",
                    **{one: f"{FINISH}.bend[{bend}].{one}" for one in _MORE},
                },
            )
            for bend in range(1, bends + 1)
        )
    counts = ((_OF_LEG, legs), (_OF_BEND, bends))
    return tuple(
        Entry(
            field=f"{LIMIT}.{of}[{number}]",
            head={of: number},
            figures={_FIGURES[of]: f"{LIMIT}.{of}[{number}]"},
        )
        for of, count in counts
        for number in range(1, count + 1)
    )


def _listed(raw: Raw, what: str) -> list[Any]:
    part = raw.get("part")
    found = part.get(what.removeprefix("part.")) if isinstance(part, Mapping) else None
    return found if isinstance(found, list) else []


def _found(entry: Entry, listed: Sequence[Any]) -> int | None:
    """Return where an entry stands in the file, counted from 0."""
    for at, one in enumerate(listed):
        if isinstance(one, Mapping) and all(one.get(key) == to for key, to in entry.head.items()):
            return at
    return None


def _as_read(said: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return an entry as the file is read: a finish that names a tooling alone is made on it."""
    if said.get("tooling") and "by" not in said:
        return {**said, "by": "tooling"}
    return said


def way_values(raw: Raw, legs: int, bends: int) -> dict[str, str]:
    """Return what stands in these fields.

    Parameters
    ----------
    raw
        The job file's plain values.
    legs, bends
        How many the part has.
    """
    values: dict[str, str] = {}
    for what in (FINISH, LIMIT):
        listed = _listed(raw, what)
        for entry in _entries(what, legs, bends):
            at = _found(entry, listed)
            said = {} if at is None else listed[at]
            values.update(
                {field: typed(_as_read(said).get(key)) for key, field in entry.figures.items()}
            )
    return values


def _says(entry: Entry, fields: Mapping[str, Field], values: Mapping[str, str]) -> bool:
    """Whether anything but first choices stands in the fields of an entry."""
    for name in entry.figures.values():
        field = fields.get(name)
        if field is None:
            continue
        first = field.choices[0][0] if field.choices else ""
        if values.get(name, "").strip() not in ("", first):
            return True
    return False


def way_changes(
    raw: Raw, fields: Mapping[str, Field], values: Mapping[str, str], legs: int, bends: int
) -> tuple[dict[str, object], dict[str, str]]:
    """Return what these fields change in the file, and which field each entry of it stands in.

    An entry whose fields were emptied is taken out.  Others keep their place, new ones go behind.

    Parameters
    ----------
    raw
        The job file's plain values.
    fields
        By their names.
    values
        As typed.
    legs, bends
        How many the part has.

    Returns
    -------
    dict, dict
        Key path -> value, ``None`` to take it out; key path of an entry -> its first field.
    """
    changes: dict[str, object] = {}
    places: dict[str, str] = {}
    for what in (FINISH, LIMIT):
        listed = _listed(raw, what)
        count, dropped, kept = len(listed), [], dict[int, str]()
        for entry in _entries(what, legs, bends):
            at = _found(entry, listed)
            if not _says(entry, fields, values):
                if at is not None:
                    dropped.append(at)
                continue
            if at is None:
                at, count = count, count + 1
                changes.update(
                    {f"{what}[{at + 1}].{key}": value for key, value in entry.head.items()}
                )
            kept[at] = entry.field
            said = listed[at] if at < len(listed) else {}
            for key, name in entry.figures.items():
                if name in fields:
                    value = stored(fields[name], values.get(name, ""))
                    if typed(_as_read(said).get(key)) != typed(
                        value
                    ):  # 45 stays 45 where "45" is typed
                        changes[f"{what}[{at + 1}].{key}"] = value
        for at in sorted(dropped, reverse=True):
            changes[f"{what}[{at + 1}]"] = None
        places.update(
            {
                f"{what}[{at + 1 - sum(one < at for one in dropped)}]": field
                for at, field in kept.items()
            }
        )
    return changes, places
