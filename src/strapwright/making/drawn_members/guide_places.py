"""Where guide rods stand: their holes in every plate they pass, and the rods themselves."""

from __future__ import annotations

from attrs import evolve, frozen

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError
from strapwright.making.hole_table import LEAST_WALL_MM, fit_hole
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import size
from strapwright.making.tolerances import fit_words
from strapwright.quantities import Units
from strapwright.shop.members import Guides, Members

_WHERE = "tooling.members.guides"
SLIDES = "F8"  # of a push plate on a bought h6 rod, a running fit; likewise
HELD = "H7"  # of a rod in a plate that holds it, slid in by hand; common practice, no source


@frozen(kw_only=True)
class GuidePlaces:
    """Two rods on the middle line along the nose.

    Attributes
    ----------
    out
        From the middle to the middle of each rod [mm].
    diameter
        Of a rod [mm].
    """

    out: float
    diameter: float

    def holes_along_x(self, length: float, width: float, fit: str) -> tuple[HoleSpec, ...]:
        """Return their holes in a plate whose X runs along the nose; sizes of the plate in mm."""
        return tuple(
            fit_hole(length / 2 + sign * self.out, width / 2, self.diameter, fit, "guides",
                     purpose="guide rod")
            for sign in (-1, 1)
        )  # fmt: skip

    def passed(self, plate: PlateDrawing, units: Units) -> PlateDrawing:
        """Return a plate under the nose, whose Y runs along it, with the holes of rods in it.

        Rods that stand past its ends leave it as it is.

        Raises
        ------
        InputError
            Where they stand on its edge.
        """
        along, radius = plate.height / 2, self.diameter / 2
        if self.out >= along + radius:
            return plate
        if self.out > along - radius - LEAST_WALL_MM:
            raise InputError(
                f"{_WHERE}.spacing",
                f"guide rods {size(2 * self.out, units)} apart stand on the edge of the "
                f"{plate.name}, which is {size(plate.height, units)} long",
                "set them farther apart, or make it longer",
            )
        holes = tuple(
            fit_hole(plate.width / 2, along + sign * self.out, self.diameter, HELD, "guides",
                     purpose="guide rod")
            for sign in (-1, 1)
        )  # fmt: skip
        return evolve(plate, holes=(*plate.holes, *holes))

    def check_carriers(self, span: float, carrier: float, units: Units) -> None:
        """See that rods pass beside carriers; gap between these and their thickness in mm.

        Raises
        ------
        InputError
            Where a rod stands in a carrier or between the two.
        """
        least = span / 2 + carrier + self.diameter / 2
        if self.out < least - 1e-6:
            raise InputError(
                f"{_WHERE}.spacing",
                f"guide rods {size(2 * self.out, units)} apart run into the carriers",
                f"set them {size(2 * least, units)} apart or more",
            )


def guide_places(members: Members | None) -> GuidePlaces | None:
    """Return where the guide rods stand, or ``None`` where that is not stated."""
    guides = None if members is None else members.guides
    if guides is None or guides.diameter is None or guides.spacing is None:
        return None
    return GuidePlaces(out=guides.spacing / 2, diameter=guides.diameter)


def check_count(members: Members | None) -> None:
    """See that there are as many rods as are laid out.

    Raises
    ------
    InputError
        Where there are not two.
    """
    guides = None if members is None else members.guides
    if guides is not None and guides.count != 2:
        raise InputError(
            f"{_WHERE}.count",
            f"places are laid out for two guide rods, and {guides.count} are entered",
            "lay out the others by the frame",
        )


# What holds the end of a rod in its bore; common practice, no source.
_FIXED = "hold it with a set screw on a flat, or with retaining compound"


def _rod_notes(guides: Guides, units: Units) -> tuple[str, ...]:
    """Say how a rod is held at each end, and with what play it is bought and bored."""
    across = guides.diameter or 0.0
    ends = (
        (
            (
                f"Both ends sit in {HELD} bores, the upper one in the head of the frame, which is "
                f"not drawn here: {_FIXED}."
            ),
        )
        if guides.held == "both ends"
        else (
            f"Its lower end sits in the {HELD} bore of floor, base or bed: {_FIXED}.",
            "Its upper end is free: the push plate slides on it.",
        )
    )
    return (
        *ends,
        (
            f"Buy it ground to h6. Where it is held, {fit_words(across, f'{HELD}/h6', units)}; in "
            f"the push plate, {fit_words(across, f'{SLIDES}/h6', units)}."
        ),
    )


def guide_rods(members: Members | None, units: Units) -> list[ShaftDrawing]:
    """Return the guide rods, where the job states their sizes; told in the units of the job."""
    guides = None if members is None else members.guides
    if guides is None or guides.diameter is None or guides.length is None:
        return []
    rod = ShaftDrawing(
        name="guide rod",
        metal=metal_of(guides.material, MILD),
        diameter=guides.diameter,
        length=guides.length,
        quantity=guides.count,
        fit="h6",
        hardened=find_steel(guides.material, f"{_WHERE}.material").hardened,
        notes=_rod_notes(guides, units),
    )
    return [rod]
