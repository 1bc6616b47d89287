"""A plate with its hole table, the cutters of each hole and their settings, and its steps."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.cutters import make_hole
from strapwright.making.edges.rounded_edges import EdgeMaking, round_edge
from strapwright.making.feeds import Setting, setting
from strapwright.making.hole_table import TIP, alike, checked, hole_table
from strapwright.making.plate_values import (
    Cut,
    Cutter,
    HoleMaking,
    HoleRow,
    HoleSpec,
    Machine,
    PlateDrawing,
)
from strapwright.quantities import Units

# Minutes beside the cut, common practice, no source: to place a hole, and to change a cutter.
PLACING, CHANGING, SQUARING = 2.0, 1.5, 25.0


@frozen(kw_only=True)
class SetCut:
    """A cut with what to set for it."""

    cut: Cut
    setting: Setting


@frozen(kw_only=True)
class HoleGroup:
    """Holes alike, made with the same cutters.

    Attributes
    ----------
    rows
        Of the hole table.
    making
        Cutters, or the ways round where the crib has none.
    cuts
        Each cut with its speed and feed, in order; a seat last.
    """

    rows: tuple[HoleRow, ...]
    making: HoleMaking
    cuts: tuple[SetCut, ...]

    @property
    def hole(self) -> HoleSpec:
        """One of them."""
        return self.rows[0].hole

    @property
    def labels(self) -> list[str]:
        """``A1``, ``A2``."""
        return [row.label for row in self.rows]


@frozen(kw_only=True)
class PlateMaking:
    """Everything said of one plate.

    Attributes
    ----------
    plate
        As drawn.
    tip
        Diameter of the edge finder's tip [mm].
    rows
        Its hole table.
    groups
        Its holes by kind.
    edge
        What rounds its edge; ``None`` where none is rounded.
    machine
        Whose limits the settings keep.
    minutes
        To make one, roughly [min].
    units
        In which it is told.
    """

    plate: PlateDrawing
    tip: float
    rows: tuple[HoleRow, ...]
    groups: tuple[HoleGroup, ...]
    edge: EdgeMaking | None
    machine: Machine
    minutes: float
    units: Units

    @property
    def possible(self) -> bool:
        """Whether the crib makes every hole."""
        return all(group.making.cuts for group in self.groups)


def make_plate(
    plate: PlateDrawing,
    cutters: Sequence[Cutter],
    *,
    units: Units,
    machine: Machine | None = None,
    tip: float = TIP,
    where: str = "plate",
) -> PlateMaking:
    """Work out how a plate is made.

    Parameters
    ----------
    plate
        With its holes.
    cutters
        Of the crib.
    units
        In which it is told.
    machine
        Whose limits hold; a usual drill press where not given.
    tip
        Diameter of the edge finder's tip [mm].
    where
        Key path of the plate, for messages.

    Raises
    ------
    InputError
        Where a hole cannot be where it is, the crib is empty, or the tables have no speed for
        the metal.
    """
    spindle = machine or Machine()
    rows = hole_table(checked(plate, where), tip=tip)
    kinds: dict[tuple[object, ...], list[HoleRow]] = {}
    for row in rows:
        kinds.setdefault(alike(row.hole), []).append(row)
    groups = tuple(
        _group(tuple(alike_rows), plate, cutters, spindle, where, units)
        for alike_rows in kinds.values()
    )
    minutes = 0.0 if plate.piece or plate.exists else SQUARING
    edge = None
    if plate.edges_rounded:
        edge = round_edge(plate.edges_rounded, plate.width, cutters)
        minutes += edge.minutes
    for group in groups:
        holes = len(group.rows)
        minutes += PLACING * holes + sum(
            CHANGING + one.setting.minutes * holes for one in group.cuts
        )
    return PlateMaking(
        plate=plate, tip=tip, rows=rows, groups=groups, edge=edge, machine=spindle,
        minutes=minutes, units=units,
    )  # fmt: skip


def _group(
    rows: tuple[HoleRow, ...],
    plate: PlateDrawing,
    cutters: Sequence[Cutter],
    machine: Machine,
    where: str,
    units: Units,
) -> HoleGroup:
    hole = rows[0].hole
    made = make_hole(
        hole, cutters, thickness=plate.thickness, where=where, units=units, hardened=plate.hardened
    )
    depth = plate.thickness if hole.depth is None else hole.depth
    pitch = find_thread(hole.thread, where).pitch if hole.kind == "tapped" else 0.0
    cuts = made.cuts if made.seat is None else (*made.cuts, made.seat)
    before = (0.0, *(0.0 if cut.role == "centre" else cut.least for cut in cuts))
    return HoleGroup(
        rows=rows,
        making=made,
        cuts=tuple(
            SetCut(
                cut=cut,
                setting=setting(
                    cut,
                    metal=plate.metal,
                    depth=_cut_depth(cut, hole, depth),
                    pitch=pitch,
                    opened=opened,
                    machine=machine,
                    where=where,
                ),
            )
            for opened, cut in zip(before, cuts, strict=False)
        ),
    )


def _cut_depth(cut: Cut, hole: HoleSpec, depth: float) -> float:
    if cut.role == "centre":
        return 3.0
    if cut.role == "counterbore" and hole.counterbore is not None:
        return hole.counterbore[1]
    return depth
