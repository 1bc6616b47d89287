"""Bar lots, presses and toolings as text and as plain data."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Any

from attrs import asdict

from strapwright.service.shop_log.things import Thing
from strapwright.wording.shop_log.thing_words import (
    head_words,
    name_words,
    state_words,
    thing_lines,
)

WIDTH = 88  # columns
_KINDS = ("lot", "press", "tooling")


def things_to_text(found: Sequence[Thing]) -> str:
    """Write each thing with where it is used."""
    blocks = []
    for kind in _KINDS:
        of = [one for one in found if one.kind == kind]
        if of:
            blocks.append([head_words(kind), *(line for one in of for line in _lines(one))])
    if not blocks:
        return "The store has no job yet.\n"
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def things_to_data(found: Sequence[Thing]) -> dict[str, Any]:
    """Turn the list into plain data."""
    return {"format": 1, "things": [asdict(one) for one in found]}


def _lines(thing: Thing) -> list[str]:
    said = [f"{name_words(thing.name, thing.units)}:"]
    said.append(f"used in {', '.join(thing.jobs)};" if thing.jobs else "in no job;")
    said.append(thing_lines(thing.lines))
    state = state_words(thing.retired, name_words(thing.merged_into, thing.units))
    if state:
        said.append(f"({state})")
    return textwrap.wrap(" ".join(said), WIDTH, initial_indent="  ", subsequent_indent="    ")
