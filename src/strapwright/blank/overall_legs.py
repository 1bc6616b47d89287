"""Legs that follow from the size of the finished part over all.

Leg 1 runs along x from the origin.  The bar follows its mid-line from apex to apex; what is
farthest out is a corner of an end, cut square, or the outer face beside a bend.  Every such point
moves in proportion to the open legs, so a size is piecewise linear in them (geometry, no further
source): the legs lie where the lines of two pairs of points cross, and every crossing is tried.

The faces are carried on to where they meet.  That is the size itself where a leg beside that corner
runs square to it; where none does, the size ends on the rounding of the bend and is refused.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin, tan

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Floats
from strapwright.errors import InputError
from strapwright.quantities import either_length
from strapwright.shop.part import Bend, Measured

MOST_LEGS_SOLVED = 12  # every pair of points is tried with every other
_WHERE = "part.overall"
_NEAR = 1e-6  # mm, numerical
_SAME = 1e-4  # mm, below what anyone measures; numerical
_SQUARE = 1e-6  # of a way along an axis, numerical
_LINES = {"outside": 1.0, "inside": -1.0, "centre": 0.0}  # half thicknesses outwards; exact
_WORDS = ("wide", "high")


@frozen(kw_only=True)
class _Outline:
    """Points that may be farthest out, as functions of the open legs.

    Attributes
    ----------
    fixed, moved
        Place with all open legs 0, shape (points, 2) [mm], and how it moves with each of them,
        shape (points, 2, open) [-].
    bends
        1-based bend beside each point, 0 at an end of the bar, shape (points,).
    flat
        Whether a face runs square to each axis there, shape (points, 2).
    """

    fixed: Floats
    moved: Floats
    bends: tuple[int, ...]
    flat: np.ndarray[tuple[int, int], np.dtype[np.bool_]]

    def at(self, legs: Floats) -> Floats:
        """Places for rows of open legs (n, open), shape (n, points, 2) [mm]."""
        places: Floats = self.fixed + np.einsum("pak,nk->npa", self.moved, legs)
        return places


def legs_of_size(
    legs: Sequence[float],
    names: Sequence[str],
    bends: Sequence[Bend],
    *,
    thickness: float,
    measured: Measured,
    sizes: tuple[float | None, float | None],
) -> tuple[float, ...]:
    """Return the legs with those that were left open solved.

    Parameters
    ----------
    legs
        Of the part, as ``measured`` says; what stands for an open one is not used [mm].
    names
        Of each leg: empty where it is stated, else what legs of one length share.
    bends
        Between the legs, none rolled.
    thickness
        Of the bar [mm].
    sizes
        Width along leg 1 and height square to it, over all; as many as there are names [mm].

    Raises
    ------
    InputError
        Where no length, or more than one, makes the part as large as stated, where a size ends on
        the rounding of a bend, or where a bend turns more than 90 degrees.
    """
    shared = list(dict.fromkeys(name for name in names if name))
    outline = _outline(legs, names, shared, bends, thickness, _LINES[measured])
    wanted = [(axis, size) for axis, size in enumerate(sizes) if size is not None]
    found = _solutions(outline, wanted, len(shared))
    numbers = [str(number) for number, name in enumerate(names, start=1) if name]
    which = f"leg {numbers[0]}" if len(numbers) == 1 else f"legs {' and '.join(numbers)}"
    told = " and ".join(f"{either_length(size, 2)} {_WORDS[axis]}" for axis, size in wanted)
    if not len(found):
        raise InputError(
            _WHERE,
            f"no length of {which} makes the part {told} over all",
            "check the sizes and the other legs; width is along leg 1",
        )
    if len(found) > 1:
        raise InputError(
            _WHERE,
            f"more than one length of {which} makes the part {told} over all",
            f"give leg {numbers[0]} its length, or the other size",
        )
    _refuse_rounded(outline, found[0], [axis for axis, _ in wanted])
    return tuple(
        float(found[0][shared.index(name)]) if name else leg
        for leg, name in zip(legs, names, strict=True)
    )


def _outline(
    legs: Sequence[float],
    names: Sequence[str],
    shared: Sequence[str],
    bends: Sequence[Bend],
    thickness: float,
    line: float,
) -> _Outline:
    half = 0.5 * thickness
    headings = np.concatenate([[0.0], np.cumsum([bend.side * bend.angle for bend in bends])])
    ways = np.array([(cos(heading), sin(heading)) for heading in headings])
    normals = np.column_stack((-ways[:, 1], ways[:, 0]))
    tans = [0.0, *(tan(0.5 * bend.angle) for bend in bends), 0.0]
    place, moves = np.zeros(2), np.zeros((2, len(shared)))
    square = np.abs(ways) < _SQUARE
    fixed = [half * normals[0], -half * normals[0]]
    moved, beside, flat = [moves, moves], [0, 0], [(True, True)] * 2
    for number, (leg, name) in enumerate(zip(legs, names, strict=True)):
        # From apex to apex on the mid-line; past an end of it faces meet farther out or in.
        run = -line * half * (tans[number] + tans[number + 1]) + (0.0 if name else leg)
        place = place + run * ways[number]
        if name:
            moves = moves.copy()
            moves[:, shared.index(name)] += ways[number]
        if number == len(bends):
            fixed += [place + half * normals[number], place - half * normals[number]]
            moved += [moves, moves]
            beside += [0, 0]
            flat += [(True, True)] * 2
            continue
        bend = bends[number]
        both = normals[number] + normals[number + 1]
        corner = -bend.side * half / cos(0.5 * bend.angle) * both / np.hypot(*both)
        fixed.append(place + corner)
        moved.append(moves)
        beside.append(number + 1)
        across = square[number] | square[number + 1]
        flat.append((bool(across[0]), bool(across[1])))
    return _Outline(
        fixed=np.array(fixed),
        moved=np.array(moved),
        bends=tuple(beside),
        flat=np.array(flat),
    )


def _solutions(outline: _Outline, wanted: Sequence[tuple[int, float]], count: int) -> Floats:
    """All open legs above 0 that make every size, shape (n, open); of a run of them several."""
    slopes, values = [np.eye(count)], [np.zeros(count)]  # a run of solutions may end at a leg of 0
    for axis, size in wanted:
        first, second = np.triu_indices(len(outline.bends), 1)
        slope = outline.moved[first, axis] - outline.moved[second, axis]
        apart = outline.fixed[first, axis] - outline.fixed[second, axis]
        slopes += [slope, slope]
        values += [size - apart, -size - apart]
    lines = np.column_stack([np.concatenate(slopes), np.concatenate(values)])
    lines = lines[np.abs(lines[:, :count]).max(axis=1) > _SQUARE]
    lines = np.unique(lines.round(9), axis=0)
    if count == 1:
        tried = lines[:, 1:] / lines[:, :1]
    else:
        one, other = (lines[at] for at in np.triu_indices(len(lines), 1))
        turn = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
        cross = np.abs(turn) > _SQUARE
        one, other, turn = one[cross], other[cross], turn[cross]
        tried = np.column_stack(
            (
                one[:, 2] * other[:, 1] - one[:, 1] * other[:, 2],
                one[:, 0] * other[:, 2] - one[:, 2] * other[:, 0],
            )
        )
        tried /= turn[:, None]
    met = _meeting(outline, wanted, tried)
    # Of a run of solutions both ends are met, and so is what lies halfway.
    halfway = [0.5 * (one + other) for at, one in enumerate(met) for other in met[:at]]
    if halfway:
        met = np.concatenate([met, _meeting(outline, wanted, np.array(halfway))])
    return met[(met > _SAME).all(axis=1)]


def _meeting(outline: _Outline, wanted: Sequence[tuple[int, float]], tried: Floats) -> Floats:
    """Those of the tried legs, none negative, that make every size; each once."""
    tried = tried[(tried > -_NEAR).all(axis=1)]
    places = outline.at(tried)
    meets = np.ones(len(tried), dtype=bool)
    for axis, size in wanted:
        meets &= np.abs(np.ptp(places[:, :, axis], axis=1) - size) < _NEAR
    once: list[Floats] = []
    for legs in tried[meets]:
        if all(np.abs(legs - other).max() > _SAME for other in once):
            once.append(legs)
    return np.array(once).reshape(len(once), tried.shape[1])


def _refuse_rounded(outline: _Outline, legs: Floats, axes: Sequence[int]) -> None:
    """Refuse a size that ends at a bend with no face square to it."""
    places = outline.at(legs[None, :])[0]
    for axis in axes:
        along = places[:, axis]
        for end in (along.min(), along.max()):
            there = np.flatnonzero(np.abs(along - end) < _SAME)
            if not outline.flat[there, axis].any():
                bend = outline.bends[there[0]]
                raise InputError(
                    _WHERE,
                    f"the {('width', 'height')[axis]} ends on the rounding of bend {bend}, which "
                    "depends on the tooling",
                    "leave that size out and give the legs beside this bend their lengths",
                )
