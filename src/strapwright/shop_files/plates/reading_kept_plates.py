"""Read the plates that stay on the press, and write them back."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator
from fractions import Fraction

from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError, in_file
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.kept_plates import KeptHole, KeptPlate, PlateUse
from strapwright.shop_files.exact_text import length_text
from strapwright.shop_files.quantity_fields import LENGTH, exact, raw
from strapwright.shop_files.reading_values import Plain, read_value, value_to_plain
from strapwright.shop_files.toml_table import Table

MOST = 200  # holes of a plate; more is a slip
LONGEST = 4000  # characters
_USES: dict[str, PlateUse] = {
    "": "tooling",
    "tooling": "tooling",
    "ram": "press",
    "bed": "press",
    "guide rods": "guide rods",
}
_GROUP = re.compile(
    r"(?:(?P<count>\d+)\s+of\s+)?(?P<tap>tap\s+)?(?P<size>.+?)\s+at\s+(?P<along>[^,]+?)\s*,"
    r"\s*(?P<across>[^,]+?)(?:\s+for\s+(?P<use>[a-z ]+?))?\s*"
)
_EXAMPLE = in_file('write for example holes = "4 of 9/16 at 1-5/8, 3/4"')


def read_kept_plate(table: Table, name: str) -> KeptPlate | None:
    """Read a plate that stays, or ``None`` where nothing is said of it.

    Parameters
    ----------
    table
        ``[press]``.
    name
        Key of the plate's table.

    Raises
    ------
    InputError
        At the first thing that cannot be used: a hole that is none, lies past an edge, or in
        another hole.
    """
    below = table.child(name)
    if below is None:
        return None
    plate = read_value(below, KeptPlate, holes=_holes(below))
    for hole in plate.holes:
        _inside(below, plate, hole)
    for one, other in itertools.combinations(plate.holes, 2):
        apart = math.hypot(one.along - other.along, one.across - other.across)
        if apart < (one.diameter + other.diameter) / 2:
            raise below.refuse(
                "holes", f"two holes {_told(below, apart)} apart run into each other",
                "correct their places or their sizes", value=below.data["holes"],
            )  # fmt: skip
    return plate


def kept_plate_to_plain(plate: KeptPlate | None, units: Units) -> Plain | None:
    """Return a plate that stays as a file writes it; ``None`` where there is none.

    Parameters
    ----------
    plate
        As read.
    units
        Unit system to write in.
    """
    if plate is None:
        return None
    holes = "; ".join(_hole_text(one, units) for one in plate.holes) or None
    plain = value_to_plain(plate, units, holes=holes)
    if not plate.name:
        del plain["name"]
    return plain


def _hole_text(hole: KeptHole, units: Units) -> str:
    size = f"tap {hole.thread}" if hole.thread else length_text(hole.diameter, units)
    along, across = (
        f"{'-' if mm < 0 else ''}{length_text(abs(mm), units)}" if mm else "0"
        for mm in (hole.along, hole.across)
    )
    use = {"tooling": "", "press": " for ram", "guide rods": " for guide rods"}[hole.use]
    return f"{size} at {along}, {across}{use}"


def holes_with_units(text: str, units: Units, unit_of: dict[Units, str]) -> str:
    """Return what is said of holes with a unit behind every bare figure.

    Parameters
    ----------
    text
        As typed.
    units
        System of the bare figures.
    unit_of
        System -> unit to write.
    """

    def figure(found: str) -> str:
        bare = re.fullmatch(r"-?[\d\s./-]+", found.strip())
        return f"{found.strip()} {unit_of[units]}" if bare and found.strip() != "0" else found

    def group(part: str) -> str:
        found = _GROUP.fullmatch(part.strip())
        if found is None:
            return part
        count = f"{found['count']} of " if found["count"] else ""
        size = f"tap {found['size']}" if found["tap"] else figure(found["size"])
        use = f" for {found['use']}" if found["use"] else ""
        return f"{count}{size} at {figure(found['along'])}, {figure(found['across'])}{use}"

    return "; ".join(group(one) for one in _groups(text))


def _groups(text: str) -> list[str]:
    return [one.strip() for one in re.split(r"[;\n]", text) if one.strip()]


def _holes(table: Table) -> tuple[KeptHole, ...]:
    value = table.data.get("holes")
    if value is None:
        return ()
    if not isinstance(value, str) or len(value) > LONGEST:
        raise table.refuse("holes", "this is not text", _EXAMPLE, value=value)
    found = [hole for part in _groups(value) for hole in _group(table, part)]
    if not found or len(found) > MOST:
        raise table.refuse(
            "holes", f"there are {len(found)} holes in it", f"give 1 to {MOST}", value=value
        )
    return tuple(found)


def _group(table: Table, part: str) -> Iterator[KeptHole]:
    found = _GROUP.fullmatch(part)
    if found is None:
        raise table.refuse("holes", "this is not a hole with its place", _EXAMPLE, value=part)
    use = found["use"] or ""
    if use not in _USES:
        raise table.refuse(
            "holes", "what it is for is not known here",
            "end with for ram, for bed or for guide rods, or with nothing for tooling", value=part,
        )  # fmt: skip
    thread = ""
    if found["tap"]:
        try:
            tapped = find_thread(found["size"], table.where(table.at("holes")))
        except InputError as error:
            raise table.placed(error, "holes") from None
        thread, diameter = tapped.name, tapped.major
    else:
        diameter = float(exact(table, "holes", found["size"], LENGTH, name="hole"))
    along, across = (_place(table, found[name]) for name in ("along", "across"))
    count = int(found["count"] or 1)
    signs: tuple[tuple[int, int], ...]
    if count == 1:
        signs = ((1, 1),)
    elif count == 2 and (along == 0) != (across == 0):
        signs = ((1, 1), (-1, -1))
    elif count == 4 and along and across:
        signs = ((1, 1), (-1, 1), (1, -1), (-1, -1))
    else:
        raise table.refuse(
            "holes",
            f"{count} holes cannot lie about the ram's axis by one place",
            "write 2 of them with one of the two places 0, 4 with both places, or each by itself",
            value=part,
        )
    for first, second in signs:
        yield KeptHole(
            along=first * float(along) if along else 0.0,
            across=second * float(across) if across else 0.0,
            diameter=diameter, thread=thread, use=_USES[use],
        )  # fmt: skip


def _place(table: Table, text: str) -> Fraction:
    """A place of either sign [mm]."""
    minus = text.startswith("-")
    found = raw(table, "holes", text.removeprefix("-").strip(), LENGTH)
    return -found if minus else found


def _inside(table: Table, plate: KeptPlate, hole: KeptHole) -> None:
    over = max(
        abs(hole.along) + hole.diameter / 2 - plate.length / 2,
        abs(hole.across) + hole.diameter / 2 - plate.width / 2,
    )
    if over > 0:
        raise table.refuse(
            "holes",
            f"the hole at {_told(table, hole.along)}, {_told(table, hole.across)} reaches "
            f"{_told(table, over)} past the edge of its plate",
            "measure from the ram's axis, in the middle of the plate, or correct the plate",
            value=table.data["holes"],
        )


def _told(table: Table, mm: float) -> str:
    """A length in the unit of the file, in inches where it states none."""
    if table.units == "metric":
        return f"{mm:.4g} mm"
    return f"{mm / INCH_MM:.4g} in"
