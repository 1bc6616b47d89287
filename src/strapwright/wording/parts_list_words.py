"""The parts list of a tooling in words: how many, what, of what, how large."""

from __future__ import annotations

from strapwright.making.assembly.assembly_values import Assembly, Item
from strapwright.making.assembly.keepers import BY_HAND, COLLAR
from strapwright.making.bolt_torque import torque_words
from strapwright.making.shop_lengths import size
from strapwright.quantities import Units

# What a bolt fastens -> from what to what.
_USES = {
    "carriers": "carrier to push plate",
    "web": "web to push plate",
    "push plate": "push plate to ram",
    "shoulders": "shoulder to base",
    "cheeks": "cheek to floor",
    "side plates": "side plate to cheek",
    "base": "base to bed",
    "nose keeper": "keeper to carrier",
    "shoulder round": "cheek to round",
}
HEADS = ("No.", "Qty", "Part", "Material", "Size")


def parts_list(made: Assembly, units: Units) -> tuple[tuple[str, ...], ...]:
    """Return a row for each number of the drawing, under :data:`HEADS`.

    Parameters
    ----------
    made
        Put together.
    units
        In which sizes are told.
    """
    return tuple(
        (str(one.number), str(one.count), _name(one), one.metal, _size(one, units))
        for one in made.items
    )


def list_notes(made: Assembly, units: Units) -> tuple[str, ...]:
    """Say what the drawing cannot show: how tight bolts are, what has no place.

    Parameters
    ----------
    made
        Put together.
    units
        In which torques are told.
    """
    said = []
    for one in made.items:
        if one.use in BY_HAND:
            said.append(
                f"Tighten {one.number}, {_name(one)}, by hand and secure it with thread lock."
            )
        elif one.torque is not None:
            dry, oiled = (torque_words(value, units) for value in one.torque)
            said.append(
                f"Tighten {one.number}, {_name(one)}, to {dry} dry or {oiled} with oiled threads: "
                "75 % of proof."
            )
    said += [
        f"{name[:1].upper()}{name[1:]} is in the list and not in the drawing: fit it by its own "
        "sheet."
        for name in made.unplaced
    ]
    return tuple(said)


def _name(item: Item) -> str:
    return f"{item.name}, {_USES.get(item.use, item.use)}" if item.use else item.name


def _size(item: Item, units: Units) -> str:
    if item.name == COLLAR:
        return f"{size(item.sizes[0], units)} bore, with a set screw"
    if item.kind in {"bolt", "bought"}:
        return f"{item.thread} x {size(item.sizes[0], units)}"
    if item.kind == "shaft":
        across, long_ = item.sizes
        return f"{size(across, units)} round x {size(long_, units)}"
    return " x ".join(size(one, units) for one in item.sizes)
