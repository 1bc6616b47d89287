"""Pieces as solids in place: a flat outline drawn out to a depth, with the holes through it."""

from __future__ import annotations

from typing import TypeAlias

from attrs import evolve, frozen

Point3: TypeAlias = tuple[float, float, float]
Ring: TypeAlias = tuple[tuple[float, float], ...]


@frozen(kw_only=True)
class Solid:
    """An outline drawn out along the third axis.

    Attributes
    ----------
    outline
        Corners in the plane of ``u`` and ``v``, counter-clockwise [mm].
    holes
        Rings inside the outline, through the whole depth [mm].
    origin
        Where the plane's zero is [mm].
    u, v
        Unit vectors of the plane, square to each other [-].
    depth
        From the plane along ``u`` x ``v`` [mm].
    rims
        Rings on its faces that only show where a blind hole begins [mm].
    """

    outline: Ring
    origin: Point3
    u: Point3
    v: Point3
    depth: float
    holes: tuple[Ring, ...] = ()
    rims: tuple[tuple[Point3, ...], ...] = ()

    @property
    def along(self) -> Point3:
        """Unit vector of the depth [-]."""
        (a, b, c), (d, e, f) = self.u, self.v
        return (b * f - c * e, c * d - a * f, a * e - b * d)

    def at(self, point: tuple[float, float], deep: float) -> Point3:
        """Return a point of the plane, ``deep`` mm into the solid [mm]."""
        u, v, w = self.u, self.v, self.along
        a, b = point
        x, y, z = (
            o + a * p + b * q + deep * r for o, p, q, r in zip(self.origin, u, v, w, strict=True)
        )
        return (x, y, z)

    def moved(self, by: Point3) -> Solid:
        """Return it moved [mm]."""
        (x, y, z), (dx, dy, dz) = self.origin, by
        return evolve(
            self,
            origin=(x + dx, y + dy, z + dz),
            rims=tuple(tuple((a + dx, b + dy, c + dz) for a, b, c in rim) for rim in self.rims),
        )
