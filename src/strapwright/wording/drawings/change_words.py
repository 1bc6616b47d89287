"""The change from one die to another in words: a list to work down at the press."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from strapwright.making.assembly.assembly_values import Item
from strapwright.making.bolt_torque import torque_words
from strapwright.making.kept.die_change import DieChange, Half, Moved
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units
from strapwright.wording.caution_words import NEVER_ABOVE
from strapwright.wording.relief_words import ReliefWords

_SAFE = "Stop the pump and release all pressure: the gauge must read 0 before hands go in."
_LEVEL = {"inch": "1/64 in", "metric": "0.4 mm"}  # by eye and feeler; common practice, no source


@frozen(kw_only=True)
class ChangeWords:
    """A change card.

    Attributes
    ----------
    title
        From this die to that die.
    stays
        What is left on the press, each in a few words.
    off, on, check
        Sentences in the order of the work.
    """

    title: str
    stays: tuple[str, ...]
    off: tuple[str, ...]
    on: tuple[str, ...]
    check: tuple[str, ...]


def change_words(change: DieChange, relief: ReliefWords | None) -> ChangeWords:
    """Put a change into words.

    Parameters
    ----------
    change
        From one die to another.
    relief
        What the relief valve is to be set to for the part that comes next; ``None`` where no
        limit is known.
    """
    return ChangeWords(
        title=f"From {change.before.name} to {change.after.name}",
        stays=change.stays or ("nothing",),
        off=tuple(_off(change.before, change.units)),
        on=tuple(_on(change.after, change)),
        check=tuple(_check(change, relief)),
    )


def _off(half: Half, units: Units) -> Iterator[str]:
    yield "Lay a wood block on the shoulders and close the press until the nose sits on it."
    yield _SAFE
    yield _undone(half.nose, "the push plate", units)
    yield f"Open the press. {_SAFE}"
    yield f"Lift the nose out with what hangs on it: {_listed(half.nose.parts)}."
    yield _undone(half.die, "the bed", units)
    yield f"Lift the die out: {_listed(half.die.parts)}."
    for rod in half.rods:
        yield f"Pull out the guide rods: {rod.count} of {size(rod.sizes[0], units)}."
    yield "Put the bolts back into the die that came off, and hang its rating plate on it."


def _undone(moved: Moved, where: str, units: Units) -> str:
    if moved.bolts:
        return f"Remove {' and '.join(_bolt(one, units) for one in moved.bolts)}."
    if moved.not_entered:
        return f"Free it from {where}: what holds it there is not entered."
    return "Take off the clamps that hold the die to the bed."


def _on(half: Half, change: DieChange) -> Iterator[str]:
    units = change.units
    yield "Wipe bed, push plate and the faces that meet them, and file off burrs."
    for rod in half.rods:
        yield f"Put in the guide rods: {rod.count} of {size(rod.sizes[0], units)}."
    riser = change.made.riser
    if riser > 0:
        yield f"Lay the riser of {size(riser, units)} on the bed; the die goes on top of it."
    yield f"Set the die on: {_listed(half.die.parts)}."
    if half.die.bolts:
        yield f"Put in {' and '.join(_bolt(one, units) for one in half.die.bolts)}, finger tight."
    else:
        yield "Put the clamps on, finger tight."
    yield (
        "Lay a piece of the bar on the shoulders and set the nose on it, in the middle: "
        f"{_listed(half.nose.parts)}."
    )
    yield f"Close the press until the push plate touches. {_SAFE}"
    yield from _tightened(half.nose, "Put in", units)
    yield "Centre the die under the nose as below."
    yield from _tightened(half.die, "Tighten", units)


def _tightened(moved: Moved, verb: str, units: Units) -> Iterator[str]:
    for one in moved.bolts:
        if one.torque is None:
            yield f"{verb} {_bolt(one, units)}."
            continue
        dry, oiled = (torque_words(value, units) for value in one.torque)
        yield f"{verb} {_bolt(one, units)}: {dry} dry or {oiled} with oiled threads, crosswise."
    if not moved.bolts and moved.not_entered:
        yield "Join it to the ram: what holds it there is not entered."
    elif not moved.bolts:
        yield "Tighten the clamps."


def _check(change: DieChange, relief: ReliefWords | None) -> Iterator[str]:
    made, units = change.made, change.units
    yield (
        f"Opening: {size(made.clear, units)} between the rounds, which is "
        f"{size(made.opening, units)} centre to centre."
    )
    beside = (made.clear - change.nose) / 2
    if beside > 0:
        yield (
            f"Centre: without a bar the nose passes {size(beside, units)} from each round, on both "
            f"sides and at both ends within {_LEVEL[units]}."
        )
    yield (
        f"Height: at first contact the push plate is {size(made.plate_low, units)} above the bed, "
        "the same at all corners."
    )
    yield "Travel zero: bring the nose down until it just holds the bar, and set the travel to 0."
    if relief is None:
        yield f"Relief valve: no setting is known for this part. {NEVER_ABOVE}"
    else:
        yield f"Relief valve: {relief.sentence}"
    yield "Guards, hoses and free path: run the ram once with no bar, slowly, hands clear."
    yield "First part: make one, measure it, and log it before the rest."


def _bolt(item: Item, units: Units) -> str:
    return f"{item.count} bolts {item.thread} x {size(item.sizes[0], units)} of the {item.use}"


def _listed(parts: Sequence[Item]) -> str:
    words = [f"{one.count} x {one.name}" for one in parts]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
