"""A plate that several toolings share: what one adds to it, and the plate with all holes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from attrs import evolve

from strapwright.making.kept.patterns import PUSH_PLATE
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.shop.kept_plates import KeptHole, KeptPlate, PlateUse

_SAME = 0.3  # mm, numerical
_USES: Mapping[str, PlateUse] = {"bolt of the ram": "press", "guide rod": "guide rods"}


def place_in(plate: PlateDrawing, hole: HoleSpec) -> tuple[float, float]:
    """Return the place of a hole from the ram's axis, along the nose and across it [mm].

    Parameters
    ----------
    plate
        That stays; x of a push plate runs along the nose, of others across it.
    hole
        Of the plate.
    """
    x, y = hole.x - plate.width / 2, hole.y - plate.height / 2
    return (x, y) if plate.name == PUSH_PLATE else (y, x)


def new_holes(plate: PlateDrawing, kept: KeptPlate) -> tuple[HoleSpec, ...]:
    """Return the holes that a tooling adds to a plate that stays.

    Parameters
    ----------
    plate
        As drawn for the tooling.
    kept
        The plate with the holes that it has, or is to have for other tooling.
    """
    known = [(one.along, one.across) for one in kept.holes]
    return tuple(
        hole
        for hole in plate.holes
        if not any(
            abs(along - place_in(plate, hole)[0]) <= _SAME
            and abs(across - place_in(plate, hole)[1]) <= _SAME
            for along, across in known
        )
    )


def with_holes(
    kept: KeptPlate, plate: PlateDrawing, holes: Sequence[HoleSpec], tooling: str
) -> KeptPlate:
    """Return a plate that stays with holes that are still to be drilled for a tooling.

    Parameters
    ----------
    kept, plate, holes
        As for :func:`new_holes`.
    tooling
        Name of the tooling.
    """
    added = []
    for hole in holes:
        along, across = place_in(plate, hole)
        use = _USES.get(hole.purpose, "tooling")
        added.append(
            KeptHole(
                along=along, across=across, diameter=hole.diameter,
                thread=hole.thread if hole.kind == "tapped" else "", use=use, made_for=tooling,
                fit=hole.fit if hole.kind == "fit" else "",
                purpose=f"{hole.purpose} of {tooling}" if use == "tooling" else hole.purpose,
            )
        )  # fmt: skip
    return evolve(kept, holes=(*kept.holes, *added))


def plate_as_drawn(kept: KeptPlate | None, plates: Sequence[PlateDrawing]) -> KeptPlate | None:
    """Return a push plate that stays with the holes that the drawings of a tooling add to it.

    Parameters
    ----------
    kept
        The plate, or ``None``.
    plates
        Of the tooling, the push plate among them where it was laid out.
    """
    drawn = next((one for one in plates if one.name == PUSH_PLATE), None)
    if kept is None or drawn is None:
        return kept
    return with_holes(kept, drawn, new_holes(drawn, kept), "the tooling drawn")


def shared_plate(
    plate: PlateDrawing, there: Sequence[HoleSpec], added: Mapping[str, Sequence[HoleSpec]]
) -> PlateDrawing:
    """Return the plate with the holes of every tooling on it.

    Parameters
    ----------
    plate
        As drawn for any of them.
    there
        Holes that it has, or is to have, without them.
    added
        Name of a tooling -> its holes.
    """
    new = tuple(
        evolve(hole, purpose=f"{hole.purpose} of {tooling}", exists=False)
        for tooling, holes in added.items()
        for hole in holes
    )
    face = "Its lower face, seen from below" if plate.name == PUSH_PLATE else "Its upper face"
    return evolve(
        plate,
        holes=(*there, *new),
        marks=(),
        notes=(
            f"{face}. It stays on the press for {_listed(tuple(added))}.",
            *(("Thin broken circles are holes that are there.",)
              if any(one.exists for one in there) else ()),
        ),
    )  # fmt: skip


def _listed(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
