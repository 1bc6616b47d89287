"""Feet and inches, degrees and minutes: one quantity written in two or three units."""

from __future__ import annotations

from fractions import Fraction

from strapwright.quantities.numbers import Source, scan_number, starts_number
from strapwright.quantities.units import Kind, Step


def scan_chain(src: Source, first: Fraction, end: int, kind: Kind) -> Fraction | None:
    """Read on where a smaller unit follows the first.

    Parameters
    ----------
    src
        What was typed.
    first
        Number already read.
    end
        0-based place after it.
    kind
        What the field holds.

    Returns
    -------
    Fraction or None
        Exact value in the unit inside; ``None`` where the text is one number with one unit.

    Raises
    ------
    InputError
        Where a part is not whole, too large, or its unit is missing.
    """
    total, part, wanted = Fraction(0), first, ""
    for larger, smaller in zip(kind.chain, kind.chain[1:], strict=False):
        start = _next_number(src.text, end, larger)
        if start is None:
            break
        if part.denominator != 1:
            raise src.refuse(
                "a smaller unit follows a number that is not whole",
                f"write one unit only, for example {kind.example}",
                start,
            )
        total += part * larger.factor
        part, end = scan_number(src, start, kind.example)
        per = larger.factor / smaller.factor
        if part >= per:
            raise src.refuse(
                f"the part in the smaller unit is {per} or more", f"write it below {per}", start
            )
        rest = src.text[end:].strip()
        if rest.lower() in smaller.names:
            return total + part * smaller.factor
        if not rest:
            raise src.refuse(
                f"the last unit is missing after character {len(src.text.rstrip())}",
                f"end it with {smaller.write}",
            )
        wanted = smaller.write
    if not wanted:
        return None
    raise src.refuse(f"{src.text[end:].strip()!r} does not fit", f"write {wanted} there", end)


def _next_number(text: str, end: int, unit: Step) -> int | None:
    """Place of the number after this unit; a dash may join them, as in ``3'-4"``."""
    at = end + len(text[end:]) - len(text[end:].lstrip())
    for name in unit.names:
        if text[at : at + len(name)].lower() == name:
            after = at + len(name)
            after += len(text[after:]) - len(text[after:].lstrip())
            if text[after : after + 1] == "-":
                after += 1
            return after if starts_number(text, after) else None
    return None
