"""Read which bends are made on other tooling than the rest."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.errors import in_file
from strapwright.quantities import Units
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.part import Bend
from strapwright.shop.tooling import Tooling
from strapwright.shop_files.reading_tooling import (
    TOO_FAR_OFF,
    read_nose,
    read_shoulders,
    stands_too_far_off,
)
from strapwright.shop_files.reading_values import Plain, read_plain, value_to_plain
from strapwright.shop_files.toml_table import Table, shown

_EXAMPLE = in_file("write for example bends = [2, 3]")


def read_other_toolings(part: Table, bends: Sequence[Bend]) -> tuple[OtherTooling, ...]:
    """Read the tables ``[[part.other_tooling]]``.

    Parameters
    ----------
    part
        ``[part]``.
    bends
        Bends of the part.

    Raises
    ------
    InputError
        Where an entry names no bend of the part, or one that another has, or states no tooling,
        or where any bend is made in a series of hits.
    """
    taken: set[int] = set()
    found = []
    tables = part.children("other_tooling")
    rows = [number for number, bend in enumerate(bends, start=1) if bend.radius is not None]
    if rows and any(table.data.get("bends") for table in tables):
        # The order over several toolings would take a row for one push by its whole angle.
        raise part.refuse(
            "other_tooling",
            f"bend {rows[0]} is made in a series of hits, and such a part stays on one tooling",
            "make all its bends on the job's own tooling, or leave out the radius of that bend",
        )
    for table in tables:
        plain = read_plain(table, OtherTooling)
        own = _read_bends(table, bends, taken)
        taken.update(own)
        nose, shoulders = table.child("nose"), table.child("shoulders")
        if nose is None and shoulders is None:
            raise table.refuse(
                "nose",
                "neither a nose nor shoulders are entered, so it is the tooling of the job",
                in_file('write for example nose = { shaft = "1/2 in" }'),
            )
        found.append(
            OtherTooling(
                **plain,
                bends=own,
                nose=None if nose is None else read_nose(nose),
                shoulders=None if shoulders is None else read_shoulders(shoulders),
            )
        )
    return tuple(found)


def check_on_own(part: Table, others: Sequence[OtherTooling], own: Tooling) -> None:
    """Check other tooling together with what it takes from the job's own.

    Parameters
    ----------
    part, others
        ``[part]``, and the other tooling read from it.
    own
        Tooling of the job.

    Raises
    ------
    InputError
        Where a nose stands too far off the middle of the opening that it pushes into.
    """
    for table, one in zip(part.children("other_tooling"), others, strict=True):
        both = one.on(own)
        if not stands_too_far_off(both.nose, both.shoulders):
            continue
        nose = table.child("nose")
        if nose is not None and "offset" in nose.data:
            raise nose.refuse("offset", *TOO_FAR_OFF, value=nose.data["offset"])
        # The nose of the job's own in a narrower opening.
        raise table.refuse("shoulders", *TOO_FAR_OFF)


def _read_bends(table: Table, bends: Sequence[Bend], taken: set[int]) -> tuple[int, ...]:
    value = table.data.get("bends", [])
    count = len(bends)
    # True would pass for 1.
    if (
        not isinstance(value, list)
        or any(type(one) is not int or not 1 <= one <= count for one in value)
        or len(set(value)) < len(value)
    ):
        raise table.refuse(
            "bends",
            f"this must name bends from 1 to {count}, each once",
            _EXAMPLE,
            value=", ".join(map(shown, value[:20])) if isinstance(value, list) else value,
        )
    for bend in value:
        if bend in taken:
            raise table.refuse(
                "bends", f"bend {bend} is named twice", "leave it to one tooling", value=bend
            )
    return tuple(sorted(value))


def other_tooling_to_plain(one: OtherTooling, units: Units) -> Plain:
    """Return other tooling as a file writes it.

    Parameters
    ----------
    one
        As read.
    units
        Unit system to write in.
    """
    return value_to_plain(
        one,
        units,
        bends=list(one.bends) or None,
        nose=None if one.nose is None else value_to_plain(one.nose, units),
        shoulders=None if one.shoulders is None else value_to_plain(one.shoulders, units),
    )
