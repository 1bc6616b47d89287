"""Draw a candidate as its making would, and take members, hours and missing cutters from there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from strapwright.errors import InputError
from strapwright.findings import Finding
from strapwright.making.drawn_members.laying_out import Pieces, member_of, not_laid_out
from strapwright.making.kept.sharing import plate_as_drawn
from strapwright.making.making_hours import making_minutes
from strapwright.making.plate_making import HoleGroup, PlateMaking, make_plate
from strapwright.making.plate_values import Cutter, PlateDrawing
from strapwright.making.tooling_plates import laid_out
from strapwright.proposing.candidate_sizes import kept_plate
from strapwright.proposing.proposal_values import HoleUse, NotInCrib
from strapwright.shop.job import Job
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.tooling import Tooling


@frozen(kw_only=True)
class Drawn:
    """A candidate as drawn.

    Attributes
    ----------
    tooling
        With its members as the drawings have them.
    push_plate
        That stays on the press, with the holes that the drawings add to it; ``None`` without one.
    hours
        Of making it.
    ways
        What the crib has no cutter for, with the way round that the hours count.
    lack
        Why it cannot be drawn, or ``None``.
    """

    tooling: Tooling
    push_plate: KeptPlate | None
    hours: float
    ways: tuple[NotInCrib, ...]
    lack: Finding | None


class DrawingBoard:
    """Draws candidates; plates alike are worked out once.

    Parameters
    ----------
    jobs
        The parts; the widest bar must pass.
    cutters
        Of the crib.
    """

    def __init__(self, jobs: Sequence[Job], cutters: Sequence[Cutter]) -> None:
        self.job = max(jobs, key=lambda job: job.part.bar.width * job.part.at_once)
        self.cutters = tuple(cutters)
        self._made: dict[PlateDrawing, PlateMaking | InputError] = {}

    def drawn(self, tooling: Tooling) -> Drawn:
        """Draw the tooling of a candidate.

        Parameters
        ----------
        tooling
            With its members as they follow from a choice.

        Raises
        ------
        InputError
            Where the crib is empty.
        """
        pieces: Pieces = laid_out(evolve(self.job, tooling=tooling))[0]
        lacks = [one for one in pieces.findings if one.code == "not-laid-out"]
        made: list[PlateMaking] = []
        for plate in pieces.plates:
            found = self._make(evolve(plate, notes=(), marks=()))
            if isinstance(found, InputError):
                lacks.append(not_laid_out(member_of(plate), found))
            else:
                made.append(found)
        as_drawn = pieces.tooling or tooling
        return Drawn(
            tooling=as_drawn,
            push_plate=plate_as_drawn(kept_plate([self.job]), pieces.plates),
            hours=making_minutes(made, pieces.shafts, as_drawn) / 60,
            ways=tuple(dict.fromkeys(_ways(made))),
            lack=lacks[0] if lacks else None,
        )

    def _make(self, plate: PlateDrawing) -> PlateMaking | InputError:
        if plate not in self._made:
            try:
                self._made[plate] = make_plate(
                    plate, self.cutters, units=self.job.units, where=f"plate {plate.name!r}"
                )
            except InputError as error:
                if not self.cutters:
                    raise
                self._made[plate] = error
        return self._made[plate]


def _ways(made: Sequence[PlateMaking]) -> Iterator[NotInCrib]:
    for plate in made:
        for group in plate.groups:
            if not group.cuts:
                use = _use(group)
                named = use in {"clearance", "thread"}
                yield NotInCrib(
                    use=use,
                    size=group.hole.thread if named else "",
                    diameter=None if named else group.hole.diameter,
                    way=group.making.ways[0],
                )


def _use(group: HoleGroup) -> HoleUse:
    hole = group.hole
    if hole.kind == "tapped":
        return "thread"
    if hole.kind == "clearance":
        return "clearance"
    if hole.purpose == "guide rod":
        return "guide rod"
    return "shoulder seats" if hole.purpose == "both seats" else "nose"
