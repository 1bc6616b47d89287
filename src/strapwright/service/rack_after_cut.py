"""The rack after a cut plan was sawn: bars gone, off-cuts laid back with their labels."""

from __future__ import annotations

from collections import Counter
from hashlib import sha256
from pathlib import Path

from attrs import frozen

from strapwright.catalog.steels import find_steel
from strapwright.errors import InputError
from strapwright.making.shop_lengths import round_down, size
from strapwright.quantities import Units
from strapwright.service.cut_jobs import CutOrder
from strapwright.service.file_access import read_text_file, write_files
from strapwright.shop.rack import Rack
from strapwright.shop_files.exact_text import length_text
from strapwright.shop_files.opening import parse
from strapwright.shop_files.reading_rack import read_rack
from strapwright.shop_files.updating_shelf import SHELF_HEADS, update_shelf, without_piece

_LABEL = "off-cut"
_HEAD = "# The rack before a cut. SHA-256 of the file after it: "


@frozen(kw_only=True)
class KeptOffcut:
    """An off-cut that goes back onto the rack.

    Attributes
    ----------
    section, bar
        Number of its bar size in the plan, and of the bar in it, from 0.
    label
        What to write on it.
    length
        [mm]
    material
        Of the bar it is left of, else what the bar was asked for.
    """

    section: int
    bar: int
    label: str
    length: float
    material: str


def kept_offcuts(order: CutOrder, rack: Rack | None) -> tuple[KeptOffcut, ...]:
    """Return the off-cuts worth keeping, each with a label that no piece of the rack has.

    Parameters
    ----------
    order
        The cut plan.
    rack
        As it is before.
    """
    taken = {stock.name for stock in rack.stock} if rack is not None else set()
    found, number = [], 0
    for section, cuts in enumerate(order.sections):
        for at, bar in enumerate(cuts.bars):
            material = cuts.sources[bar.kind].material or cuts.material
            if not cuts.keeps(bar) or not _is_steel(material):
                continue
            number += 1
            while f"{_LABEL} {number}" in taken:
                number += 1
            found.append(
                KeptOffcut(
                    section=section,
                    bar=at,
                    label=f"{_LABEL} {number}",
                    length=round(round_down(bar.offcut, order.units), 6),  # as it is written
                    material=material,
                )
            )
    return tuple(found)


def rack_text_after(text: str, order: CutOrder) -> str | None:
    """Return the rack's file once the plan was sawn; comments and layout stay.

    Parameters
    ----------
    text
        The file as the plan was made from; empty where there is no rack.
    order
        The cut plan.

    Returns
    -------
    str or None
        ``None`` where no bar of the rack is taken and nothing is put back.

    Raises
    ------
    InputError
        If the rack no longer has the bars that the plan takes.
    """
    text = text if text.strip() else SHELF_HEADS["rack"]
    document = parse(text, "rack")
    rack = None if text == SHELF_HEADS["rack"] else read_rack(text, "rack")
    used: Counter[int] = Counter()
    for cuts in order.sections:
        for bar in cuts.bars:
            source = cuts.sources[bar.kind]
            if source.place is not None and not source.bought:
                _same_piece(rack, source.place, source.name, source.length)
                used[source.place] += 1
    offcuts = kept_offcuts(order, rack)
    changes: dict[str, object] = {}
    units: Units = "metric" if document.get("units") == "metric" else "inch"
    stock = rack.stock if rack is not None else ()
    for place, count in used.items():
        if stock[place].count < count:
            raise _changed(stock[place].name)
        changes[f"stock[{place + 1}].count"] = stock[place].count - count
    for number, one in enumerate(offcuts, start=len(stock) + 1):
        cuts = order.sections[one.section]
        cut, at = cuts.bar, f"stock[{number}]"
        sides = [cut.thickness] if cut.section == "round" else [cut.thickness, cut.width]
        changes |= {
            f"{at}.name": one.label,
            f"{at}.kind": "shaft" if cut.section == "round" else "flat",
            f"{at}.size": " x ".join(size(side, units) for side in sides),
            f"{at}.length": length_text(one.length, units),
            f"{at}.material": one.material,
            f"{at}.origin": "off-cut",
        }
    if not changes:
        return None
    text = update_shelf(text, "rack", changes)
    gone = [place for place, count in used.items() if stock[place].count == count]
    for place in sorted(gone, reverse=True):
        text = without_piece(text, place + 1)
    return text


def _is_steel(material: str) -> bool:
    """Whether a rack can hold it: a rack names the steels that tooling is made of."""
    try:
        find_steel(material, "part.material")
    except InputError:
        return False
    return True


def _same_piece(rack: Rack | None, place: int, name: str, length: float) -> None:
    stock = rack.stock if rack is not None else ()
    if place >= len(stock) or stock[place].name != name or stock[place].length != length:
        raise _changed(name)


def _changed(name: str) -> InputError:
    return InputError(
        "rack", "the rack has changed since this plan was made", "make the cut plan again",
        value=name,
    )  # fmt: skip


def refuse_other_plan(order: CutOrder, mark: str) -> None:
    """Refuse to book a plan that is not the one that was sawn.

    Parameters
    ----------
    order
        The plan as it is made now.
    mark
        Of the plan that was sawn.

    Raises
    ------
    InputError
        If they differ.
    """
    if order.mark != mark.strip().lower():
        raise InputError(
            "rack", "this is not the plan that is made now", "look at the new plan first",
            value=mark,
        )  # fmt: skip


def confirm_cut(path: Path, order: CutOrder, mark: str) -> Path | None:
    """Write the rack file as it is after the cut, and keep the one before beside it.

    Parameters
    ----------
    path
        Of the rack file.
    order
        The cut plan, made from this file.
    mark
        Of the plan that was sawn.

    Returns
    -------
    Path or None
        Where the rack before the cut is kept; ``None`` where nothing on it changed.

    Raises
    ------
    InputError
        If another plan was sawn, or the file cannot be read or written.
    """
    refuse_other_plan(order, mark)
    before = read_text_file(path, "rack file")
    after = rack_text_after(before, order)
    if after is None:
        return None
    kept = _before(path)
    head = f"{_HEAD}{_digest(after)}\n"
    write_files(path.parent, {kept.name: (head + before).encode(), path.name: after.encode()})
    return kept


def undo_cut(path: Path) -> None:
    """Put the rack file back as it was before the last confirmed cut.

    Raises
    ------
    InputError
        If no cut was confirmed, the file was changed since, or it cannot be written.
    """
    kept = _before(path)
    if not kept.is_file():
        raise InputError(
            "--undo", "no confirmed cut of this rack is kept beside it",
            "nothing needs to be undone", value=path.name,
        )  # fmt: skip
    first, _, before = read_text_file(kept, "rack file").partition("\n")
    if first != _HEAD + _digest(read_text_file(path, "rack file")):
        raise InputError(
            "--undo", "the rack file was changed since the cut",
            f"change it by hand; as it was before the cut is in {kept.name}", value=path.name,
        )  # fmt: skip
    write_files(path.parent, {path.name: before.encode()})
    kept.unlink()


def _digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()


def _before(path: Path) -> Path:
    return path.with_name(f"{path.stem}.before-cut.toml")
