"""Other tooling of a job, with what stands about it."""

from __future__ import annotations

from attrs import frozen

from strapwright.ordering.order_values import Piece
from strapwright.shop.tooling import Tooling


@frozen(kw_only=True)
class ToolUse:
    """Tooling other than the job's own that some bends are made on.

    Attributes
    ----------
    name
        What it is called.
    bends
        1-based.
    tooling
        As a whole.
    pieces
        What the bar was held against on it.
    """

    name: str
    bends: tuple[int, ...]
    tooling: Tooling
    pieces: tuple[Piece, ...]
