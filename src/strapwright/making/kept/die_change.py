"""From one die to another on one press: what comes off, what goes on, what stays, what to check."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from strapwright.errors import InputError
from strapwright.making.assembly.assembly_values import Assembly, Item
from strapwright.making.bolt_layout import welded
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.quantities import Units
from strapwright.shop.job import Job
from strapwright.shop.kept_plates import KeptPlate

# What moves with the nose, and what with the die, by the names of the parts list.
_NOSE = ("nose carrier", "nose web", "nose shaft", "nose keeper", "shaft collar", "set screw")
_DIE = ("floor", "die base", "cheek", "shoulder block", "side plate", "shoulder round")
_SAME = 0.1  # mm, numerical


@frozen(kw_only=True)
class Moved:
    """One half of a tooling as it is lifted off or set on.

    Attributes
    ----------
    parts
        Lines of its parts list that hang together.
    bolts
        Those that join it to the press.
    not_entered
        Whether it has a joint to the press that is not entered; else, without bolts, clamps do.
    """

    parts: tuple[Item, ...]
    bolts: tuple[Item, ...]
    not_entered: bool = False


@frozen(kw_only=True)
class Half:
    """A tooling in its two halves, with the guide rods that change with it.

    Attributes
    ----------
    name
        Of the part that is made on it.
    nose, die
        What moves with each.
    rods
        Guide rods that come off or go on; empty where they stay.
    """

    name: str
    nose: Moved
    die: Moved
    rods: tuple[Item, ...]


@frozen(kw_only=True)
class DieChange:
    """From this die to that die.

    Attributes
    ----------
    before, after
        What comes off, and what goes on.
    stays
        What is left on the press.
    made
        The tooling that goes on, put together, for what is measured afterwards.
    nose
        Diameter of its nose [mm].
    units
        Of the job whose tooling goes on.
    """

    before: Half
    after: Half
    stays: tuple[str, ...]
    made: Assembly
    nose: float
    units: Units


def die_change(before: tuple[Job, Pieces], after: tuple[Job, Pieces]) -> DieChange:
    """Return what changes between two toolings on one press.

    Parameters
    ----------
    before, after
        Each a job with everything that is laid out for it.

    Raises
    ------
    InputError
        Where one of them cannot be put together.
    """
    wholes = [_whole(*one) for one in (before, after)]
    first, last = (job for job, _ in (before, after))
    plate = _shared(first, last)
    rods_stay = _rods(wholes[0]) == _rods(wholes[1])
    stays = [] if plate is None else [f"push plate{_called(plate)}"]
    bed = _same(first, last, "bed_plate")
    if bed is not None:
        stays.append(f"bed plate{_called(bed)}")
    if rods_stay and _rods(wholes[0]):
        stays.append("guide rods")
    halves = [
        _half(job, whole, plate_stays=plate is not None, rods_stay=rods_stay)
        for (job, _), whole in zip((before, after), wholes, strict=True)
    ]
    tooling = last.tooling
    if tooling is None:  # a job without one is not put together
        raise InputError("tooling", "there is no tooling", "enter nose and shoulders")
    return DieChange(
        before=halves[0], after=halves[1], stays=tuple(stays), made=wholes[1],
        nose=2 * tooling.nose.radius, units=last.units,
    )  # fmt: skip


def _whole(job: Job, pieces: Pieces) -> Assembly:
    if pieces.assembly is None:
        raise InputError(
            job.part.name,
            "its tooling cannot be put together",
            "see what its making says is not laid out",
        )
    return pieces.assembly


def _called(plate: KeptPlate) -> str:
    return f" ({plate.name})" if plate.name else ""


def _same(first: Job, last: Job, key: str) -> KeptPlate | None:
    """A plate that both presses have: by its name, or alike in everything."""
    one, other = (None if job.press is None else getattr(job.press, key) for job in (first, last))
    if one is None or other is None:
        return None
    found: KeptPlate = one
    return found if (found.name and found.name == other.name) or found == other else None


def _shared(first: Job, last: Job) -> KeptPlate | None:
    """The push plate that stays, where no die is welded to it."""
    plate = _same(first, last, "push_plate")
    for job in (first, last):
        members = None if job.tooling is None else job.tooling.members
        if welded(members, "carriers") or welded(members, "web"):
            return None
    return plate


def _rods(made: Assembly) -> tuple[tuple[float, ...], ...]:
    """Diameter and places of the guide rods [mm], as one can be compared with another."""
    across = [round(one.sizes[0], 1) for one in made.items if one.name == "guide rod"]
    if not across:
        return ()
    return (tuple(across), *((round(x, 1), round(y, 1)) for x, y in sorted(made.guide_holes)))


def _half(job: Job, made: Assembly, *, plate_stays: bool, rods_stay: bool) -> Half:
    bolts = {one.use: one for one in made.items if one.kind == "bolt"}
    with_nose = _NOSE if plate_stays else (*_NOSE, "push plate")
    nose_joint = ("carriers", "web") if plate_stays else ("push plate",)
    nose = tuple(bolts[use] for use in nose_joint if use in bolts)
    return Half(
        name=job.part.name,
        nose=Moved(parts=tuple(_parts(made, with_nose)), bolts=nose, not_entered=not nose),
        die=Moved(
            parts=tuple(_parts(made, _DIE)),
            bolts=tuple(bolts[use] for use in ("base",) if use in bolts),
        ),
        rods=() if rods_stay else tuple(_parts(made, ("guide rod",))),
    )  # fmt: skip


def _parts(made: Assembly, names: tuple[str, ...]) -> Iterator[Item]:
    return (one for one in made.items if one.name in names)
