"""A change card as text for a terminal, and as plain data."""

from __future__ import annotations

from typing import Any

from strapwright.report.tooling_text import filled
from strapwright.wording.drawings.change_words import ChangeWords

_HEADS = (("off", "Comes off"), ("on", "Goes on"), ("check", "Check before the first part"))


def change_to_text(card: ChangeWords) -> str:
    """Write a change card, numbered as it is worked down."""
    lines = [card.title, "", *filled(f"Stays on the press: {', '.join(card.stays)}.", ""), ""]
    for key, head in _HEADS:
        lines.append(head)
        for number, sentence in enumerate(getattr(card, key), start=1):
            lines += filled(sentence, f"{number:>3} ")
        lines.append("")
    return "\n".join(lines)


def change_to_data(card: ChangeWords) -> dict[str, Any]:
    """Return a change card as plain data, format 1."""
    return {
        "format": 1,
        "title": card.title,
        "stays": list(card.stays),
        "off": list(card.off),
        "on": list(card.on),
        "check": list(card.check),
    }
