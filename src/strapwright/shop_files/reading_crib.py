"""Read the file of a tool crib."""

from __future__ import annotations

import re
from fractions import Fraction

from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError, in_file
from strapwright.shop.crib import BoringBar, Crib, DrillSet, Saw
from strapwright.shop_files.opening import open_shop_file
from strapwright.shop_files.quantity_fields import LENGTH, exact, needed, quantity
from strapwright.shop_files.toml_table import Table

KEYS = (
    "drills", "reamers", "taps", "end_mills", "boring_bar", "hole_saws", "radius_cutters", "saw",
)  # fmt: skip
_EXAMPLE = in_file('write for example drills = ["fractional 1/16 to 1/2 by 1/64", "letter A to Z"]')
_RUN = re.compile(r"(?P<series>fractional|metric)\s+(?P<first>.+?)\s+to\s+(?P<last>.+?)"
                  r"\s+by\s+(?P<step>.+)")  # fmt: skip
_NAMED = re.compile(r"(?P<series>number|letter)\s+(?P<first>\w+)\s+to\s+(?P<last>\w+)")
_LONGEST_RUN = 1000  # drills; more is a slip in the step
_LARGEST_NUMBER = 97  # number drills end there


def read_crib(text: str, file: str = "crib file") -> Crib:
    """Read a crib.

    Parameters
    ----------
    text
        The file.
    file
        Its name, for messages.

    Raises
    ------
    InputError
        At the first thing that cannot be used, or where nothing is in it.
    """
    head = open_shop_file(text, file, ("crib",))
    table = head.child("crib")
    if table is None:
        raise head.refuse("", "the table [crib] is missing", in_file(f"write [crib]; {_EXAMPLE}"))
    table.refuse_unknown(KEYS)
    crib = Crib(
        drills=tuple(
            _drills(table, f"drills[{number}]", one)
            for number, one in enumerate(_list(table, "drills"), start=1)
        ),
        reamers=_sizes(table, "reamers"),
        taps=_taps(table),
        end_mills=_sizes(table, "end_mills"),
        boring_bar=_boring_bar(table),
        hole_saws=_sizes(table, "hole_saws"),
        radius_cutters=_sizes(table, "radius_cutters", "radius"),
        saws=tuple(_saw(one) for one in table.children("saw")),
    )
    if crib == Crib():
        raise table.refuse("", "the tool crib is empty", _EXAMPLE)
    return crib


def _list(table: Table, key: str) -> list[object]:
    value = table.data.get(key, [])
    if not isinstance(value, list):
        raise table.refuse(
            key, "this is not a list", in_file(f"write for example {key} = [...]"), value=value
        )
    return value


def _sizes(table: Table, key: str, name: str = "diameter") -> tuple[float, ...]:
    return tuple(
        sorted(
            float(exact(table, f"{key}[{number}]", one, LENGTH, name=name))
            for number, one in enumerate(_list(table, key), start=1)
        )
    )


def _drills(table: Table, key: str, said: object) -> DrillSet:
    """One run of drills, or a single one."""
    if isinstance(said, str) and (run := _RUN.fullmatch(said.strip())):
        first, last, step = (
            exact(table, key, run[name], LENGTH, name=f"{name} of the run")
            for name in ("first", "last", "step")
        )
        if last < first or (last - first) / step >= _LONGEST_RUN:
            raise table.refuse(
                key, "this run does not rise to its last drill", _EXAMPLE, value=said
            )
        count = int((last - first) / step) + 1
        return DrillSet(
            series="fractional" if run["series"] == "fractional" else "metric",
            first=run["first"],
            last=run["last"],
            sizes=tuple(float(first + step * Fraction(n)) for n in range(count)),
        )
    if isinstance(said, str) and (named := _NAMED.fullmatch(said.strip())):
        return _named(table, key, said, named)
    size = float(exact(table, key, said, LENGTH, name="diameter"))
    name = str(said)
    return DrillSet(series="single", first=name, last=name, sizes=(size,))


def _named(table: Table, key: str, said: str, named: re.Match[str]) -> DrillSet:
    first, last = named["first"].upper(), named["last"].upper()
    if named["series"] == "letter":
        sound = len(first) == len(last) == 1 and "A" <= first <= last <= "Z"
    else:
        sound = (
            first.isdecimal() and last.isdecimal() and 1 <= int(first) <= int(last)
            and int(last) <= _LARGEST_NUMBER
        )  # fmt: skip
    if not sound:
        raise table.refuse(
            key,
            "there is no such run of drills",
            'write for example "number 1 to 60" or "letter A to Z"',
            value=said,
        )
    return DrillSet(
        series="letter" if named["series"] == "letter" else "number", first=first, last=last
    )


def _taps(table: Table) -> tuple[str, ...]:
    taps = []
    for number, one in enumerate(_list(table, "taps"), start=1):
        key = f"taps[{number}]"
        try:
            taps.append(find_thread(str(one), table.where(table.at(key))).name)
        except InputError as error:
            raise table.placed(error, key) from None
    return tuple(taps)


def _boring_bar(table: Table) -> BoringBar | None:
    bar = table.child("boring_bar")
    if bar is None:
        return None
    bar.refuse_unknown(("smallest_bore", "reach"))
    return BoringBar(
        smallest_bore=needed(bar, "smallest_bore", LENGTH, "1/2 in"),
        reach=quantity(bar, "reach", LENGTH),
    )


def _saw(table: Table) -> Saw:
    table.refuse_unknown(("name", "kerf"))
    return Saw(
        name=table.line_text("name", in_file('write for example name = "band saw"')) or "saw",
        kerf=needed(table, "kerf", LENGTH, "0.035 in"),
    )
