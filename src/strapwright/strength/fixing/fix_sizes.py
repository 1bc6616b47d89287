"""Sizes that a fix may choose from: what lies on the rack, or what suppliers commonly keep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.rack import Rack, Stock

# Sizes that suppliers commonly keep; common practice, no source.
_PLATES = {
    "inch": tuple(INCH_MM * n / 16 for n in (4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32, 40, 48)),
    "metric": (6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 80.0),
}
_SHAFTS = {
    "inch": tuple(INCH_MM * n / 16 for n in (4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 40)),
    "metric": (6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0),
}


class Sizes:
    """Sizes to choose from, with the piece of the rack, where they come from one."""

    def __init__(self, units: Units, rack: Rack | None) -> None:
        self.units = units
        self.rack = rack

    def plates(self, above: float, width: float = 0.0) -> Iterator[tuple[float, Stock | None]]:
        """Thicknesses above one, wide enough [mm]."""
        yield from self._from(("plate", "flat"), _PLATES[self.units], above, width)

    def shafts(self, above: float) -> Iterator[tuple[float, Stock | None]]:
        """Diameters above one [mm]."""
        yield from self._from(("shaft",), _SHAFTS[self.units], above, 0.0)

    def _from(
        self, kinds: Sequence[str], usual: Sequence[float], above: float, width: float
    ) -> Iterator[tuple[float, Stock | None]]:
        if self.rack is None:
            yield from ((size, None) for size in usual if size > above + 1e-6)
            return
        fits: list[Stock] = [
            one
            for one in self.rack.stock
            if one.kind in kinds and one.thickness > above + 1e-6 and one.width >= width - 1e-6
        ]
        for one in sorted(fits, key=lambda stock: (stock.thickness, stock.price)):
            yield one.thickness, one
