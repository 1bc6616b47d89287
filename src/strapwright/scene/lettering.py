"""How much room words take, and how figures are set."""

from __future__ import annotations

import re
from functools import lru_cache

from strapwright.scene.primitives import Anchor

# Advance widths in parts of the type size: Source Sans Pro with some air, so that a fallback
# face of common width still fits.
_WIDTHS = {
    0.30: "iljI.,:;'|!\N{THIN SPACE}",
    0.36: "ftr()[]/-\N{FRACTION SLASH} °",
    0.86: "mwMW%@",
    0.66: "ABCDEFGHJKLNOPQRSTUVXYZ&\N{MULTIPLICATION SIGN}",
}
_WIDTH = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
_OTHER = 0.56
_MIXED = re.compile(r"(\d+)[- ](\d+)/(\d+)(?!\d)")
_PLAIN = re.compile(r"(?<![\d.])(\d+)/(\d+)(?!\d)")
_SET = re.compile("\\d+\N{FRACTION SLASH}\\d+")
_NARROWED = 0.12  # a digit of a fraction is that much narrower than a full one

ASCENT = 0.74  # of digits and capitals above the baseline, in parts of the size
DESCENT = 0.24  # of letters that reach below it
FOOT = 0.05  # of all others, and of the slash of a fraction


@lru_cache(maxsize=4096)
def text_width(text: str, size: float) -> float:
    """Return an upper estimate of the width of a line of type [px], ``size`` in px."""
    narrowed = sum(len(match) - 1 for match in _SET.findall(text)) * _NARROWED
    return size * (sum(_WIDTH.get(letter, _OTHER) for letter in text) - narrowed)


def as_fractions(text: str) -> str:
    """Set ``1-1/2`` as one and a half with a fraction slash, which faces draw as a fraction."""
    mixed = _MIXED.sub("\\1\N{THIN SPACE}\\2\N{FRACTION SLASH}\\3", text)
    return _PLAIN.sub("\\1\N{FRACTION SLASH}\\2", mixed)


def wrap(text: str, size: float, width: float) -> list[str]:
    """Break words into lines no wider than ``width`` [px] where a space allows."""
    lines: list[str] = []
    for word in text.split():
        if lines and text_width(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def shorten(text: str, size: float, width: float) -> str:
    """Cut a name that does not fit ``width`` [px] and say so with an ellipsis."""
    if text_width(text, size) <= width:
        return text
    kept = text
    while kept and text_width(f"{kept}…", size) > width:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"


def left_of(anchor: Anchor, width: float) -> float:
    """Return the distance from the anchor to the left edge, in the unit of ``width``."""
    return {"start": 0.0, "middle": width / 2, "end": width}[anchor]
