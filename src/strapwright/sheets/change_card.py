"""The change card: from this die to that die, one page to work down at the press."""

from __future__ import annotations

from typing import Literal

from strapwright.quantities import Units
from strapwright.scene.lettering import as_fractions
from strapwright.strength.check_values import ESTIMATE
from strapwright.wording.drawings.change_words import ChangeWords


def change_card(
    card: ChangeWords, units: Units, *, paper: Literal["letter", "a4"] | None = None
) -> bytes:
    """Lay out a change card.

    Parameters
    ----------
    card
        In words.
    units
        Of the tooling that goes on.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for inches and A4 for millimetres.

    Returns
    -------
    bytes
        PDF; the same value gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    # The layout engine takes long to load.
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415

    chosen = paper or ("letter" if units == "inch" else "a4")
    parts = (("Comes off", card.off), ("Goes on", card.on),
             ("Check before the first part", card.check))  # fmt: skip
    data = {
        "paper": {"letter": "us-letter", "a4": "a4"}[chosen],
        "title": card.title,
        "estimate": ESTIMATE,
        "stays": list(card.stays),
        "parts": [[head, [as_fractions(one) for one in steps]] for head, steps in parts],
    }
    return compile_pdf("change.typ", data, {})
