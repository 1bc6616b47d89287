"""One line of a cut list, and how a piece lies in its stock."""

from __future__ import annotations

from attrs import frozen

from strapwright.shop.rack import Stock

TIE = 1e-9  # mm; less than this is no difference of size


@frozen(kw_only=True)
class Cut:
    """One piece of the cut list.

    Attributes
    ----------
    use
        What it becomes.
    stock
        What it is cut from.
    length, width
        [mm]; ``width`` is the stock's own where it is not cut along.
    """

    use: str
    stock: Stock
    length: float
    width: float


def laid_in_stock(use: str, stock: Stock, length: float, width: float) -> Cut:
    """Lay a piece along its stock, or across it where only so it fits.

    Parameters
    ----------
    use, stock
        What it becomes, and from what.
    length, width
        Of the piece [mm]; a width of 0 takes the stock's own.
    """
    if width > stock.width + TIE and length <= stock.width + TIE:
        length, width = width, length
    return Cut(use=use, stock=stock, length=length, width=width or stock.width)
