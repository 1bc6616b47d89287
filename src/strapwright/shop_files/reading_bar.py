"""Read the bar: ``flat 1/4 x 2``, ``square 1/2``, ``round 3/8``, or as people also write it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import get_args

from strapwright.errors import InputError
from strapwright.quantities import Units, read_length
from strapwright.shop.bar import Bar, SectionKind
from strapwright.shop_files.known_keys import nearest
from strapwright.shop_files.quantity_fields import LENGTH, exact
from strapwright.shop_files.toml_table import Table

_EXAMPLE = 'write "flat 1/4 x 2" (thickness x width), "square 1/2" or "round 3/8"'
_HEAD = re.compile(r"\s*(?P<word>[A-Za-z]+)\b\.?\s*(?P<sizes>.*?)\s*", re.DOTALL)
_TAIL = re.compile(r"\s*(?P<sizes>.*?)\s*(?P<word>[A-Za-z]+)\.?\s*", re.DOTALL)
_WORDS: Mapping[str, SectionKind] = {
    "flat": "flat",
    "square": "square",
    "sq": "square",
    "round": "round",
    "rd": "round",
    "rod": "round",
}
_LARGEST_CARRIED = Fraction(254, 10)  # mm
_EDGE = re.compile(r"\bon\s+(?:its\s+)?edge\b", re.IGNORECASE)
_BY = re.compile(r"\s*[xX\N{MULTIPLICATION SIGN}]\s*|\s+by\s+")
_UNIT = re.compile(r"""(?:[^\W\d_]+\.?|["'\N{PRIME}\N{DOUBLE PRIME}]+)$""")


def read_bar(table: Table) -> Bar:
    """Read ``part.bar``.

    Parameters
    ----------
    table
        ``[part]``.

    Returns
    -------
    Bar
        Sizes in mm.

    Raises
    ------
    InputError
        Where it names no section known here, lacks a size, or is a flat standing on edge.
    """
    value = table.need("bar", _EXAMPLE)
    found = split_bar(value) if isinstance(value, str) else None
    if found is not None:
        return _read_sizes(table, found[0], found[1])
    head = _HEAD.fullmatch(value) if isinstance(value, str) else None
    if head is None:
        raise table.refuse("bar", "this is not a bar section", _EXAMPLE, value=value)
    word = head["word"].lower()
    near = nearest(word, get_args(SectionKind))
    hint = "" if near is None else f'; did you mean "{near}"?'
    raise table.refuse(
        "bar", f"there is no section {word[:20]!r} here", f"{_EXAMPLE}{hint}", value=value
    )


def split_bar(text: str) -> tuple[SectionKind, str] | None:
    """Take what a person wrote for a bar apart.

    The section stands before the sizes or behind them, in full or short; two sizes without it are a
    flat.

    Parameters
    ----------
    text
        Such as ``flat 1/4 x 2``, ``3/8 x 3``, ``3/8 x 3 flat``, ``sq 1/2``, ``5/8 round``.

    Returns
    -------
    tuple or None
        Section, and its sizes as written; ``None`` where it names none and is not two sizes.
    """
    for form in (_HEAD, _TAIL):
        found = form.fullmatch(text)
        word = "" if found is None else found["word"].lower()
        if found is not None and word in _WORDS:
            return _WORDS[word], found["sizes"]
    if not text[:1].isalpha() and len(_BY.split(text.strip())) == 2:
        return "flat", text.strip()
    return None


def _read_sizes(table: Table, section: SectionKind, text: str) -> Bar:
    sizes = _BY.split(text) if text else []
    wanted = 2 if section == "flat" else 1
    if _EDGE.search(text):
        raise table.refuse(
            "bar",
            (
                "bending a flat bar on edge is not supported; the figures only hold for bending on "
                "the flat"
            ),
            "lay it on its flat, saw the curve from plate, or mitre and weld the corner",
            value=table.data["bar"],
        )
    if len(sizes) != wanted:
        what = "two sizes, thickness x width" if wanted == 2 else "one size"
        raise table.refuse("bar", f"a {section} bar has {what}", _EXAMPLE, value=table.data["bar"])
    if section != "flat":
        name = "side" if section == "square" else "diameter"
        size = float(exact(table, "bar", sizes[0], LENGTH, name=name))
        return Bar(section=section, thickness=size, width=size)
    thickness, width = _one_unit(table, *sizes)
    return _flat(
        table,
        exact(table, "bar", thickness, LENGTH, name="thickness"),
        exact(table, "bar", width, LENGTH, name="width"),
    )


def _flat(table: Table, thickness: Fraction, width: Fraction) -> Bar:
    if thickness > width:
        raise table.refuse(
            "bar",
            "the thickness is greater than the width, and bending a flat on edge is not covered",
            "write the smaller size first, for a bar bent on its flat",
            value=table.data["bar"],
        )
    return Bar(section="flat", thickness=float(thickness), width=float(width))


def _one_unit(table: Table, thickness: str, width: str) -> tuple[str, str]:
    """Carry a unit written once, at the end, to both sizes.

    ``6 x 40 mm`` is 6 mm thick in any shop; taking 6 by the job's inches would be a bar twenty
    times too thick, without a word.
    """
    if _is_bare(thickness) == _is_bare(width) or not (_is_length(thickness) and _is_length(width)):
        return thickness, width
    unit = _UNIT.search(width) if _is_bare(thickness) else None
    # Nobody means a bar a quarter of a foot thick by "1/4 x 1 ft".
    if unit is None or read_length(f"1 {unit[0]}", table.at("bar"), None) > _LARGEST_CARRIED:
        raise table.refuse(
            "bar",
            "one size has a unit and the other has none",
            'write the unit on both, or mm or in once at the end: "flat 6 x 40 mm"',
            value=table.data["bar"],
        )
    return f"{thickness} {unit[0]}", width


def _is_bare(text: str) -> bool:
    """Whether a size is a length without its unit."""
    return _reads(text, "metric") and not _reads(text, None)


def _is_length(text: str) -> bool:
    """Whether a size is a length at all; one that is none is left to be refused in its words."""
    return _reads(text, "metric")


def _reads(text: str, units: Units | None) -> bool:
    try:
        read_length(text, "", units)
    except InputError:
        return False
    return True
