"""Bolts that join a tooling to the press: of the ram in the push plate, of the bed in the base."""

from __future__ import annotations

import math

from attrs import evolve, frozen

from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError
from strapwright.making.bolt_layout import EDGE
from strapwright.making.hole_table import bolt_hole
from strapwright.making.plate_values import HoleSpec
from strapwright.making.shop_lengths import round_up, size
from strapwright.quantities import Units
from strapwright.shop.members import Bolt, Members

_HEAD = 1.0  # bolts from the middle of a bolt to what its head must clear; common practice


@frozen(kw_only=True)
class BedBolts:
    """Bolts of the base: how far out they stand and what the base needs for them [mm].

    Attributes
    ----------
    bolt, thread
        Which.
    out
        From the middle across the nose to a row [mm].
    alongs
        Places along the nose from the middle, where they follow holes that are there [mm].
    tapped_in
        Whether they go into threads of the bed.
    """

    bolt: Bolt
    thread: Thread
    out: float
    alongs: tuple[float, ...] = ()
    tapped_in: bool = False

    @property
    def half(self) -> float:
        """Half of the base's length that they need [mm]."""
        return self.out + EDGE * self.thread.major


def stated_bolt(members: Members | None, holds: str) -> Bolt | None:
    """Return the bolts that hold something, or ``None`` where none are stated."""
    several = () if members is None else members.bolt
    return next((one for one in several if one.holds == holds), None)


def flange_holes(
    members: Members | None, length: float, width: float, units: Units
) -> tuple[HoleSpec, ...]:
    """Return the holes of the ram's flange in the push plate, about its middle.

    Parameters
    ----------
    members
        Whose bolts that hold the push plate say a circle, or the spacing of two rows along the
        nose; empty where they say neither.
    length, width
        Of the push plate [mm].
    units
        Of the job.

    Raises
    ------
    InputError
        Where the bolts do not make two rows, or stand wider than the plate.
    """
    bolt = stated_bolt(members, "push plate")
    if bolt is None or (bolt.circle is None and bolt.spacing is None):
        return ()
    where = "tooling.members.bolt (push plate)"
    thread = find_thread(bolt.size, where)
    if bolt.circle is not None:
        turn = 2 * math.pi / bolt.count
        places = [
            (
                length / 2 + bolt.circle / 2 * math.cos((k + 0.5) * turn),
                width / 2 + bolt.circle / 2 * math.sin((k + 0.5) * turn),
            )
            for k in range(bolt.count)
        ]
    else:
        apart = bolt.spacing or 0.0
        places = [
            (length / 2 + sign * apart / 2, y)
            for sign in (-1, 1)
            for y in _row(bolt, thread, width, where)
        ]
    edge = EDGE * thread.major
    for x, y in places:
        room = min(x, length - x, y, width - y)
        if room < edge - 1e-6:
            stands = f"{size(room, units)} from" if room > 0 else "past"
            raise InputError(
                where,
                f"a bolt of the ram stands {stands} an edge of the push plate of "
                f"{size(length, units)} x {size(width, units)}",
                f"leave {size(edge, units)}: a smaller circle or spacing, or a wider push plate",
            )
    play = floating_play(members)
    return tuple(
        _with_play(
            bolt_hole(x, y, thread.size, "normal", "push plate", purpose="bolt of the ram"),
            thread.major + play,
        )
        for x, y in places
    )


def floating_play(members: Members | None) -> float:
    """Return how far a floating coupling lets the push plate move sideways [mm], else 0."""
    coupling = None if members is None else members.coupling
    if coupling is None or coupling.kind != "floating":
        return 0.0
    return coupling.play or 0.0


def _with_play(hole: HoleSpec, least: float) -> HoleSpec:
    """Return a clearance hole, opened where what floats on the bolt needs more [mm]."""
    wider = max(hole.diameter, least)
    return evolve(hole, diameter=wider, least=wider, most=wider + hole.most - hole.least)


def bed_bolts(members: Members | None, beside: float, units: Units) -> BedBolts | None:
    """Return the bolts of the bed, or ``None`` where none are stated.

    Parameters
    ----------
    members
        Whose bolts that hold the base say how far apart their two rows stand, across the bar.
    beside
        From the middle out to what stands on the base [mm].
    units
        Of the job.

    Raises
    ------
    InputError
        Where they stand under the shoulders, or do not make two rows.
    """
    bolt = stated_bolt(members, "base")
    if bolt is None:
        return None
    where = "tooling.members.bolt (base)"
    thread = find_thread(bolt.size, where)
    least = beside + _HEAD * thread.major
    out = round_up(least, units) if bolt.spacing is None else bolt.spacing / 2
    if out < least - 1e-6:
        raise InputError(
            where,
            f"bolts of the bed {size(2 * out, units)} apart stand under the shoulders, which reach "
            f"{size(beside, units)} out",
            f"give a spacing of {size(2 * round_up(least, units), units)} or more",
        )
    if bolt.count % 2:
        raise _odd(bolt, where)
    return BedBolts(bolt=bolt, thread=thread, out=out)


def riser_words(riser: float, height: float, base: str, units: Units) -> str:
    """Say what a base stands on that is not made here.

    Parameters
    ----------
    riser, height
        How high it is, and how high the shoulders' tops then stand above the bed [mm].
    base
        ``floor`` or ``base``.
    units
        Of the job.
    """
    return (
        f"The {base} sits on a riser of {size(riser, units)}, which is not made here: flat plate "
        f"or bar as long and as wide as the {base}, held down with it. The tops of the shoulders "
        f"are {size(height, units)} above the bed."
    )


def riser_bolts(thick: float, riser: float, bolt: Bolt, base: str, units: Units) -> str:
    """Say how long bolts of the bed are that pass a base ``thick`` mm and its riser [mm]."""
    least = thick + riser + find_thread(bolt.size, "tooling.members.bolt (base)").major
    return (
        f"Bolts of the bed pass {base} and riser: {size(round_up(least, units), units)} long or "
        "longer."
    )


def rows_along(bolts: BedBolts, width: float) -> tuple[float, ...]:
    """Return the places of the bolts of one row, from one end of a base [mm].

    Parameters
    ----------
    bolts
        Of the bed.
    width
        Of the base along the nose [mm].
    """
    if bolts.alongs:
        return tuple(width / 2 + one for one in bolts.alongs)
    return _row(bolts.bolt, bolts.thread, width, "tooling.members.bolt (base)")


def bed_words(bolts: BedBolts, what: str) -> str:
    """Say what is to be seen to before a floor or base is drilled for the bolts of the bed."""
    if bolts.alongs:
        return "they follow the holes that are in the bed."
    if bolts.tapped_in:
        return f"tap the bed by its own sheet, and drill the {what} to match."
    return f"lay the {what} on the bed before you drill."


def bed_holes(bolts: BedBolts, middle: float, width: float) -> tuple[HoleSpec, ...]:
    """Return the holes of the bed's bolts in the base.

    Parameters
    ----------
    bolts
        Of the bed.
    middle, width
        Middle of the base along its length, and its width along the nose [mm].
    """
    return tuple(
        bolt_hole(
            middle + sign * bolts.out, y, bolts.thread.size, "normal", "base",
            purpose="bolt of the bed",
        )
        for sign in (-1, 1)
        for y in rows_along(bolts, width)
    )  # fmt: skip


def _row(bolt: Bolt, thread: Thread, width: float, where: str) -> tuple[float, ...]:
    """Places of one of two rows along a width [mm]."""
    if bolt.count % 2:
        raise _odd(bolt, where)
    count = bolt.count // 2
    edge = EDGE * thread.major
    if count == 1:
        return (width / 2,)
    return tuple(edge + (width - 2 * edge) * k / (count - 1) for k in range(count))


def _odd(bolt: Bolt, where: str) -> InputError:
    return InputError(
        where, f"{bolt.count} bolts do not make two rows", "give an even count, or a circle"
    )
