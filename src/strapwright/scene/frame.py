"""The room a drawing has, in pixels at nominal size."""

from __future__ import annotations

from attrs import field, frozen
from attrs.validators import ge


@frozen(kw_only=True)
class Frame:
    """Room for one drawing.

    Attributes
    ----------
    width, height
        [px]; a drawing may take less height where it has little to show, or more where words
        would otherwise meet.
    body
        Size of the smallest type [px]; all other sizes follow from it.
    grip
        Room that a handle on the drawing takes to each side of its place, where it has any [px].
    """

    width: float = field(default=880.0, validator=ge(300.0))
    height: float = field(default=560.0, validator=ge(200.0))
    body: float = field(default=16.0, validator=ge(14.0))
    grip: float = 0.0

    @property
    def narrow(self) -> bool:
        """Whether figures stand under the drawing instead of beside it."""
        return self.width < 36 * self.body

    @property
    def large(self) -> float:
        """Size of the one number that matters [px]; never under 48."""
        return max(52.0, 4.25 * self.body) if not self.narrow else max(52.0, 3.5 * self.body)

    @property
    def reading(self) -> float:
        """Size of figures that are read at the press [px]."""
        return 1.375 * self.body


WIDE = Frame()
PHONE = Frame(width=390.0, height=420.0, body=14.0)
PAPER = Frame(width=680.0, height=430.0, body=19.0)  # 14 pt on a sheet with 180 mm of room
