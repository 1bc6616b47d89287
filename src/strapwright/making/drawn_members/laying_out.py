"""What is laid out of a tooling so far: what cannot be is a finding, and the rest still comes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TypeVar

from attrs import define, field, frozen

from strapwright.errors import InputError, KeyAt
from strapwright.findings import Finding, Length, Name, Severity
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.assembly.weld_values import Welding
from strapwright.making.hole_table import checked, thin_walls
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.member_names import Member, MemberName
from strapwright.shop.members import Bolt, Holds
from strapwright.shop.tooling import Tooling

T = TypeVar("T")

# What a plate or one of its faces is drawn for.
MEMBERS: Mapping[str, MemberName] = MappingProxyType(
    {
        "push plate": "push plate",
        "nose carrier": "carriers",
        "nose web": "nose",
        "shoulder block": "shoulders",
        "die base": "die body",
        "floor": "die body",
        "cheek": "die body",
        "cheeks face to face": "die body",
        "side plate": "die body",
        "bed plate": "bolts of the base",
        "bed": "bolts of the base",
    }
)


@frozen(kw_only=True)
class Reach:
    """Length of a bolt under its head, and what it passes before its thread takes hold [mm]."""

    length: float
    grip: float


@frozen(kw_only=True)
class BedThere:
    """A plate that stays under the die: ``bed plate`` on the bed, or the ``bed`` itself."""

    name: str
    plate: KeptPlate


@frozen(kw_only=True)
class Pieces:
    """Everything to make for a tooling.

    Attributes
    ----------
    plates, shafts
        In the order of making.
    notes
        What was chosen because nothing was stated, and what is left to add.
    findings
        What cannot be laid out, and what stands close to an edge.
    welding
        How what is welded is welded, in order.
    assembly
        The pieces put together; ``None`` for a plate of its own.
    tooling
        With its members as these drawings have them; ``None`` for a plate of one's own.
    shared
        Names of plates whose holes are on a sheet of their own, with those of other tooling.
    """

    plates: tuple[PlateDrawing, ...]
    shafts: tuple[ShaftDrawing, ...]
    notes: tuple[str, ...]
    findings: tuple[Finding, ...] = ()
    welding: tuple[Welding, ...] = ()
    assembly: Assembly | None = None
    tooling: Tooling | None = None
    shared: tuple[str, ...] = ()


@define
class LaidOut:
    """What is laid out so far.

    Attributes
    ----------
    notes, findings
        As of :class:`Pieces`.
    reaches
        Of the bolts drawn, by what they hold.
    ram
        Diameter of the ram's end [mm]; 0 where not stated.
    push_plate, bed
        Plates that stay on the press, on the ram and under the die; ``None`` without.
    extra_plates, extra_shafts
        What follows from these: a bed with new holes, bushes.
    bolts
        Bolts chosen by holes that are there.
    """

    ram: float = 0.0
    push_plate: KeptPlate | None = None
    bed: BedThere | None = None
    extra_plates: list[PlateDrawing] = field(factory=list)
    extra_shafts: list[ShaftDrawing] = field(factory=list)
    bolts: list[Bolt] = field(factory=list)
    notes: list[str] = field(factory=list)
    findings: list[Finding] = field(factory=list)
    reaches: dict[Holds, Reach] = field(factory=dict)

    def lay(self, member: MemberName, make: Callable[[], T]) -> T | None:
        """Return what ``make`` lays out, or ``None`` with a finding that names the member."""
        try:
            return make()
        except InputError as error:
            self.findings.append(not_laid_out(member, error))
            return None

    def seen(self, plate: PlateDrawing) -> tuple[PlateDrawing, ...]:
        """Return a plate whose holes can be where they are; else nothing, and a finding."""
        good = self.lay(member_of(plate), lambda: checked(plate, f"plate {plate.name!r}"))
        if good is None:
            return ()
        self.findings += wall_findings(good)
        return (good,)


def member_of(plate: PlateDrawing) -> MemberName:
    """Return what a plate or a face of it is drawn for."""
    return MEMBERS.get(plate.name.split(",")[0], "every member")


def not_laid_out(member: MemberName, error: InputError) -> Finding:
    """Return what is found where a member cannot be laid out.

    Parameters
    ----------
    member
        Which.
    error
        Why, and what to do.
    """
    return Finding(
        code="not-laid-out",
        severity=Severity.REFUSAL,
        about=(error.place,),
        facts={
            "member": Member(member),
            "problem": Name(error.marked[0]),
            "remedy": Name(error.marked[1]),
        },
    )


def wall_findings(plate: PlateDrawing) -> list[Finding]:
    """Return what is found of holes close to an edge or to each other."""
    return [
        Finding(
            code="thin-wall",
            severity=Severity.WARNING,
            about=(KeyAt(plate.name),),
            facts={
                "plate": Name(plate.name),
                "hole": Name(one.hole.purpose or "hole"),
                "across": Length(one.hole.diameter),
                "wall": Length(one.wall),
                "least": Length(one.least),
            },
        )
        for one in thin_walls(plate)
    ]
