"""How much longer than itself a piece is counted, for the saw's kerf and for facing its ends."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.catalog.cutting_speeds import kerf
from strapwright.shop.crib import Saw

FACING = 3.0  # mm, both ends of a sawn piece together; common practice, no source
USUAL_SAW = "horizontal band saw"  # for a shop that states none


def saw_allowance(saws: Sequence[Saw] = ()) -> float:
    """Return what every cut takes beside the piece itself [mm].

    Parameters
    ----------
    saws
        Of the crib.  The widest kerf counts, so that no piece comes out short whichever is used;
        without any, the typical kerf of the usual saw.
    """
    if saws:
        return FACING + max(saw.kerf for saw in saws)
    _, typical, _ = kerf(USUAL_SAW, "crib.saw")
    return FACING + typical
