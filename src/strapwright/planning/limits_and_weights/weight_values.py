"""What there is to lift of a job."""

from __future__ import annotations

from attrs import frozen

# Length that bar is mostly sold in, 20 ft (common practice, no source).
STOCK_LENGTH = 6096.0  # mm


@frozen(kw_only=True)
class Weights:
    """What there is to lift [kg].

    Attributes
    ----------
    per_length
        Of the bar [kg/mm].
    stock_bar
        Of a bar as it is sold, ``STOCK_LENGTH`` long.
    blank, part
        Of the blank as sawn and of the finished part; ``None`` without a blank.
    lifted
        All that lies under the nose at once: bars side by side and on each other.
    source
        How the density is known.
    """

    per_length: float
    stock_bar: float
    blank: float | None
    part: float | None
    lifted: float | None
    source: str
