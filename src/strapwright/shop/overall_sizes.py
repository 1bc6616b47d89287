"""Sizes of the finished part over all, from which legs that are left open follow."""

from __future__ import annotations

from attrs import frozen

from strapwright.shop.keys import key


@frozen(kw_only=True)
class Overall:
    """How large the finished part is over all, from outside to outside.

    Attributes
    ----------
    width
        Along leg 1 [mm].
    height
        Square to leg 1, in the plane of the bends [mm].
    names
        Of each leg: empty where its length is stated, else what legs of one length share.
    """

    width: float | None = key(
        "length",
        help='over all along leg 1, for legs written "?"',
        inch="6 in",
        metric="150 mm",
        label="Width over all",
        hint="along leg 1; write ? for the leg that follows from it",
        group="part",
        later=True,
    )
    height: float | None = key(
        "length",
        help='over all square to leg 1, for legs written "?"',
        inch="4 in",
        metric="100 mm",
        label="Height over all",
        hint="square to leg 1; write ? for the leg that follows from it",
        group="part",
        later=True,
    )
    names: tuple[str, ...] = ()

    def open_legs(self) -> tuple[int, ...]:
        """Return the 1-based numbers of the legs that follow from the sizes."""
        return tuple(number for number, name in enumerate(self.names, start=1) if name)
