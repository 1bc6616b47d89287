"""A job file to begin with: a small part of a harbour workshop, every key explained.

A line ``# key = value`` shows a key that may be left out, or, below "In place of", one that may be
written in place of another.  What is meant when a key is left out is said beside it.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Any

from strapwright.quantities import Units
from strapwright.shop.keys import Key, keys_of
from strapwright.shop_files.key_help import help_of, left_out, literal
from strapwright.shop_files.known_keys import TABLES, below

_LONGEST = 100  # characters of a line
_HEAD = """\
# A job: one part, and the press and tooling it is bent on.
# Change the text in quotes. Lines starting with # are comments.
# Lengths: 6, 3-1/2, 1.25, 2 in, 3' 4-1/2", 38 mm. Numbers without a unit are in {bare}.

format = 1
# "inch" or "metric". If left out, every figure needs its unit, and sheets read in inches.
units = "{units}"
"""
# Head of a table -> what is said above it.
_SECTIONS = {
    "[part]": "",
    "[[part.hole]]": "# One of these blocks per hole. Delete it if there are no holes.\n",
    "[lot]": (
        "# What you know of this batch of bar. Anything you leave out is taken from the catalog.\n"
    ),
    "[press]": """\
# The press. Leave out what you do not know; the plan tells you what is missing.
# It may also be in a file beside this one, for all jobs: press = "press.toml" at the head.
""",
    "[tooling]": """\
# The tooling. It may also be in a file beside this one: tooling = "oar-tooling.toml" at the head.
""",
    "[tooling.nose]": "# The nose (punch): the round the bar bends around.\n",
    "[tooling.shoulders]": "# The shoulders (die): the two rounds that carry the bar.\n",
    "[blank]": "# How the blank is worked out and read.\n",
    "[handling]": "# Minutes of handling between bends; the best order needs the fewest.\n",
    "[hits]": "# How fine a large radius in a series of hits is.\n",
}


def new_job_text(units: Units) -> str:
    """Return a commented job file that can be read, planned and filled in.

    Parameters
    ----------
    units
        ``inch`` or ``metric``; the figures are round ones of that system.
    """
    bare = "inches" if units == "inch" else "mm"
    parts = [_HEAD.format(bare=bare, units=units)]
    for head, said in _SECTIONS.items():
        lines = [line for key in _shown(head.strip("[]")) for line in _lines(key, head, units)]
        parts.append("".join(f"{line}\n" for line in (*said.splitlines(), head, *lines)))
    return "\n".join(parts)


def _shown(table: str) -> list[Key]:
    """Keys that stand in a table, but for those that have a section of their own."""
    keys = [
        key
        for key in keys_of(TABLES[table]).values()
        if key.last == key.name and not _has_section(f"{table}.{key.name}")
    ]
    return sorted(keys, key=lambda key: key.late)


def _has_section(path: str) -> bool:
    return f"[{path}]" in _SECTIONS or f"[[{path}]]" in _SECTIONS


def _lines(key: Key, head: str, units: Units) -> Iterator[str]:
    """Comment and example of a key."""
    value = _value(key, head.strip("[]"), units)
    if key.given:
        line = f"{key.name} = {value}"
        beside = key.note or _told(key, units)
        if not beside:
            yield line
        elif len(line) + len(beside) + 4 <= _LONGEST and not beside.endswith("."):
            yield f"{line}  # {beside}"
        else:
            yield from _comment(f"{_capital(beside).rstrip('.')}.")
            yield line
        return
    if not key.follows:
        told = key.note or _told(key, units)
        if told:
            end = "" if key.note else "." if left_out(key) else ":"
            yield from _comment(f"{_capital(told)}{end}")
        if key.only_with is not None:
            word = key.only_with[1]
            listed = word.startswith("[")  # a list stands there as it is
            yield f"# {key.only_with[0]} = " + (word if listed else f'"{word}"')
    yield f"# {key.name} = {value}"


def _told(key: Key, units: Units) -> str:
    """Help and default of a key, in one sentence."""
    told = help_of(key, units)
    place = key.instead_of or (key.only_with[0] if key.only_with is not None else "")
    if place:
        told = f"in place of {place}, {told}"
    meant = left_out(key, units)
    return f"{told}; default: {meant}" if told and meant else told


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _comment(text: str) -> list[str]:
    return [f"# {line}" for line in textwrap.wrap(text, _LONGEST - 2, break_on_hyphens=False)]


def _value(key: Key, table: str, units: Units) -> str:
    """Example of a key as TOML."""
    if key.new or key.kind not in ("table", "list"):
        return literal(key, units)
    made: Any = TABLES.get(f"{table}.{key.name}")
    keys = below(TABLES[table], key.name) if made is None else tuple(keys_of(made).values())
    alone = [one for one in keys if not one.instead_of]
    inside = ", ".join(f"{one.last} = {literal(one, units)}" for one in alone)
    return f"[{{ {inside} }}]" if key.kind == "list" else f"{{ {inside} }}"
