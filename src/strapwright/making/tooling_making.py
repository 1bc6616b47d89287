"""Everything to make for a tooling, worked out: the one value that sheets and commands tell."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from strapwright.errors import InputError
from strapwright.findings import Finding
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.assembly.weld_values import Welding
from strapwright.making.drawn_members.laying_out import Pieces, member_of, not_laid_out
from strapwright.making.hole_table import TIP
from strapwright.making.making_hours import making_minutes
from strapwright.making.plate_making import PlateMaking, make_plate
from strapwright.making.plate_values import (
    ESTIMATE,
    Cutter,
    Machine,
    PlateDrawing,
    ShaftDrawing,
)
from strapwright.quantities import Units

NO_CRIB = "No tool crib entered, so a usual set of cutters is assumed; check that you have them."


@frozen(kw_only=True)
class ToolingMaking:
    """Plates and shafts of one tooling or one plate file.

    Attributes
    ----------
    name
        Of the job or plate.
    units
        In which it is told.
    plates, shafts
        In the order of making.
    notes
        What was chosen, and what is left to add.
    minutes
        For all of it, roughly [min].
    welding
        How what is welded is welded, in order.
    assembly
        The pieces put together; ``None`` for a plate of its own.
    findings
        What cannot be laid out or made, what stands close to an edge, and what does not hold as
        drawn.
    """

    name: str
    units: Units
    plates: tuple[PlateMaking, ...]
    shafts: tuple[ShaftDrawing, ...]
    notes: tuple[str, ...]
    minutes: float
    welding: tuple[Welding, ...] = ()
    assembly: Assembly | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def lacking(self) -> bool:
        """Whether something cannot be laid out."""
        return any(one.code == "not-laid-out" for one in self.findings)


def make_tooling(
    pieces: Pieces,
    cutters: Sequence[Cutter],
    *,
    name: str,
    units: Units,
    machine: Machine | None = None,
    tip: float = TIP,
    usual: bool = False,
) -> ToolingMaking:
    """Work out how every piece is made.

    Parameters
    ----------
    pieces
        As laid out.
    cutters
        Of the crib.
    name
        What it is for.
    units
        In which it is told.
    machine
        Whose limits hold.
    tip
        Diameter of the edge finder's tip [mm].
    usual
        Whether the cutters are a usual set and not a crib.

    Raises
    ------
    InputError
        Where the crib is empty, or the one plate that is laid out cannot be made.
    """
    made: list[PlateMaking] = []
    findings = list(pieces.findings)
    for one in pieces.plates:
        if one.exists and all(hole.exists for hole in one.holes):
            continue
        try:
            made.append(
                make_plate(one, cutters, units=units, machine=machine, tip=tip, where=_where(one))
            )
        except InputError as error:
            if pieces.tooling is None or not cutters:
                raise
            findings.append(not_laid_out(member_of(one), error))
    return ToolingMaking(
        name=name,
        units=units,
        plates=tuple(made),
        shafts=pieces.shafts,
        notes=(*((NO_CRIB,) if usual else ()), *_there(pieces), *pieces.notes, ESTIMATE),
        minutes=making_minutes(made, pieces.shafts, pieces.tooling),
        welding=pieces.welding,
        assembly=pieces.assembly,
        findings=tuple(findings),
    )


def _there(pieces: Pieces) -> tuple[str, ...]:
    """Say which plates are taken as they are, and which have a sheet of their own."""
    if pieces.shared:
        return tuple(
            f"The holes in {one} are on its own sheets, with those of the other tooling."
            for one in pieces.shared
        )
    return tuple(
        f"The {one.name} exists, and nothing is drilled in it."
        for one in pieces.plates
        if one.exists and all(hole.exists for hole in one.holes)
    )


def _where(plate: PlateDrawing) -> str:
    return f"plate {plate.name!r}"
