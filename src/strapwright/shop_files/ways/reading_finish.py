"""Read which bends the press makes part of the way, and what finishes them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from strapwright.errors import in_file
from strapwright.shop.keys import keys_of
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.part import Bend
from strapwright.shop.part_finish import MAIN_TOOLING, Finish
from strapwright.shop_files.quantity_fields import PI
from strapwright.shop_files.reading_values import asked, exact_value, read_plain
from strapwright.shop_files.toml_table import Table, shown

# Flatter legs slide out from between two faces instead of closing; common practice, no source.
LEAST_TO_SQUEEZE = math.radians(30.0)
_SLACK = 1e-9  # rad, numerical


def read_finishes(
    part: Table,
    bends: Sequence[Bend],
    others: Sequence[OtherTooling] = (),
    *,
    rolled: bool,
    closed: bool,
    stacked: bool,
    twisted: bool = False,
) -> tuple[Finish, ...]:
    """Read the tables ``[[part.finish]]``.

    Parameters
    ----------
    part
        ``[part]``.
    bends, others
        Bends of the part, and other tooling that it names.
    rolled, closed, twisted
        Whether the bar is rolled or twisted between bends, and whether its ends meet.
    stacked
        Whether bars lie on each other: each has its own radius, and so its own marks and moment.

    Raises
    ------
    InputError
        Where an entry names no bend of the part, one twice, or one that it cannot be for.
    """
    tables = part.children("finish")
    if tables and (rolled or closed):
        what = "a part that is rolled between bends" if rolled else "a closed shape"
        raise part.refuse(
            "finish",
            f"a bend of {what} cannot be finished off the tooling here",
            "leave finish out",
        )
    if tables and stacked:
        raise part.refuse(
            "finish",
            "a bend of bars on each other cannot be finished off the tooling here",
            "bend one bar at a time, or leave finish out",
        )
    found: list[Finish] = []
    for table in tables:
        one = _read_finish(table, bends)
        if any(other.bend == one.bend for other in found):
            raise table.refuse(
                "bend", f"bend {one.bend} has two entries", "keep one of them", value=one.bend
            )
        if one.by == "tooling":
            _check_tooling(table, one, others)
            if twisted:
                raise table.refuse(
                    "by",
                    "a bend of a twisted part is not finished on other tooling here",
                    'finish it by "vise" or "squeeze"',
                )
            if any(bend.radius is not None for bend in bends):
                # The order over several toolings would take a row for one push by its whole angle.
                raise table.refuse(
                    "by",
                    "a part with a bend in a series of hits stays on one tooling",
                    'finish it by "vise" or "squeeze"',
                )
        found.append(one)
    return tuple(sorted(found, key=lambda one: one.bend))


def _check_tooling(table: Table, one: Finish, others: Sequence[OtherTooling]) -> None:
    """Hold the tooling that finishes a bend to those that the job names."""
    names = [MAIN_TOOLING, *(other.name for other in others)]
    own = next((other.name for other in others if one.bend in other.bends), MAIN_TOOLING)
    known = [name for name in names if name != own]
    if not known:
        raise table.refuse(
            "tooling",
            "the job names no other tooling",
            in_file("write it as [[part.other_tooling]] first"),
            value=one.tooling,
        )
    listed = " or ".join(f'"{name}"' for name in known)
    if one.tooling is None:
        raise table.refuse("tooling", "nothing says which tooling finishes it", f"write {listed}")
    if one.tooling not in names or names.count(one.tooling) > 1:
        many = "more than one tooling is" if one.tooling in names else "no tooling of the job is"
        raise table.refuse("tooling", f"{many} called so", f"write {listed}", value=one.tooling)
    if one.tooling == own:
        raise table.refuse(
            "tooling",
            f"bend {one.bend} is begun on that tooling, so it is not finished on another",
            f"write {listed}, or leave this entry out",
            value=one.tooling,
        )


def _read_finish(table: Table, bends: Sequence[Bend]) -> Finish:
    plain = read_plain(table, Finish)
    if plain["tooling"] is not None and "by" not in table.data:
        plain["by"] = "tooling"
    if plain["tooling"] is not None and plain["by"] != "tooling":
        raise table.refuse(
            "tooling",
            f'this has no effect where by is "{plain["by"]}"',
            'write by = "tooling", or leave this out',
            value=plain["tooling"],
        )
    count = len(bends)
    bend = table.need("bend", f"write the number of its bend, 1 to {count}")
    if type(bend) is not int or not 1 <= bend <= count:
        raise table.refuse(
            "bend", "there is no such bend", f"give a bend from 1 to {count}", value=shown(bend)
        )
    whole = bends[bend - 1]
    if whole.radius is not None:
        raise table.refuse(
            "bend",
            f"bend {bend} is made in a series of hits, which ends at its whole angle",
            "leave this entry out",
            value=bend,
        )
    key = keys_of(Finish)["at"]
    table.need("at", asked(key))
    at = float((exact_value(table, key) or 0) * PI / 180)
    degrees = math.degrees(whole.angle)
    if not at < whole.angle - _SLACK:
        raise table.refuse(
            "at",
            f"the press would stop at the whole angle of bend {bend} or past it",
            f"give less than {degrees:.4g}",
            value=table.data["at"],
        )
    if plain["by"] == "squeeze" and at < LEAST_TO_SQUEEZE - _SLACK:
        raise table.refuse(
            "at",
            "the legs are still too flat there to be squeezed together",
            f"give {math.degrees(LEAST_TO_SQUEEZE):.0f} or more, or finish it in a vise",
            value=table.data["at"],
        )
    return Finish(bend=bend, at=at, **plain)
