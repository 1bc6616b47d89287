"""The rack: bars, shafts, plates and off-cuts at hand, and what a supplier sells."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

StockKind = Literal["shaft", "flat", "plate"]
Origin = Literal["rack", "off-cut", "supplier"]

# What an hour in the own shop is worth, in the rack's money; common practice, no source.
HOUR_RATE = 30.0


@frozen(kw_only=True, cache_hash=True)  # a search compares it many thousand times
class Stock:
    """One kind of piece.

    Attributes
    ----------
    name
        How it is called on the cut list.
    kind
        ``shaft`` is round; ``flat`` and ``plate`` have a thickness and a width.
    thickness, width
        Diameter twice for a shaft [mm].
    length
        Of one piece [mm].
    count
        How many lie there, or may be bought.
    material
        A steel of the catalog.
    price
        Of one piece in the rack's money; 0 for what lies there.
    origin
        Whether it is at hand or bought.
    """

    name: str
    kind: StockKind
    thickness: float
    width: float
    length: float
    count: int
    material: str
    price: float
    origin: Origin


@frozen(kw_only=True)
class Rack:
    """Everything a tooling may be made from.

    Attributes
    ----------
    stock
        In the order of the file.
    hour_rate
        What an hour of making counts, in the same money as the prices.
    """

    stock: tuple[Stock, ...]
    hour_rate: float = HOUR_RATE
