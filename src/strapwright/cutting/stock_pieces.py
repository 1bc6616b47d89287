"""How many pieces of stock a cut list takes, and what they cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from strapwright.cutting.cut_list import TIE, Cut
from strapwright.shop.rack import Stock


def pieces_needed(cuts: Sequence[Cut], allowance: float) -> dict[Stock, int] | None:
    """Return how many pieces of each stock the cuts take, or ``None`` where they do not fit.

    First fit, the longest first.

    Parameters
    ----------
    cuts
        The cut list.
    allowance
        What every cut takes beside the piece itself, from
        :func:`strapwright.cutting.saw_allowance.saw_allowance` [mm].
    """
    taken: dict[Stock, list[float]] = {}
    for cut in sorted(cuts, key=lambda one: -one.length):
        if cut.width > cut.stock.width + TIE or cut.length > cut.stock.length + TIE:
            return None
        left = taken.setdefault(cut.stock, [])
        for number, rest in enumerate(left):
            if cut.length <= rest + TIE:
                left[number] = rest - cut.length - allowance
                break
        else:
            if len(left) == cut.stock.count:
                return None
            left.append(cut.stock.length - cut.length - allowance)
    return {stock: len(left) for stock, left in taken.items()}


def price_of(pieces: Mapping[Stock, int]) -> float:
    """Return what whole pieces of stock cost, in the rack's money.

    Parameters
    ----------
    pieces
        From :func:`pieces_needed`.
    """
    return sum(stock.price * count for stock, count in pieces.items())
