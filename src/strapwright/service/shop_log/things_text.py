"""Bar lots, presses and toolings as text and as plain data."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Any

from attrs import asdict

from strapwright.service.shop_log.things import Thing

WIDTH = 88  # columns
_HEADS = {"lot": "Bar lots", "press": "Presses", "tooling": "Tooling"}


def things_to_text(found: Sequence[Thing]) -> str:
    """Write each thing with where it is used."""
    blocks = []
    for kind, head in _HEADS.items():
        of = [one for one in found if one.kind == kind]
        if of:
            blocks.append([head, *(line for one in of for line in _lines(one))])
    if not blocks:
        return "The store has no job yet.\n"
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def things_to_data(found: Sequence[Thing]) -> dict[str, Any]:
    """Turn the list into plain data."""
    return {"format": 1, "things": [asdict(one) for one in found]}


def _lines(thing: Thing) -> list[str]:
    said = [f"{thing.name}:"]
    said.append(f"used in {', '.join(thing.jobs)};" if thing.jobs else "in no job;")
    count = len(thing.lines)
    said.append(f"log lines {', '.join(map(str, thing.lines))}" if count else "nothing logged yet")
    if thing.merged_into:
        said.append(f"(merged into {thing.merged_into})")
    elif thing.retired:
        said.append("(retired)")
    return textwrap.wrap(" ".join(said), WIDTH, initial_indent="  ", subsequent_indent="    ")
