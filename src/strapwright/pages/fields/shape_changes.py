"""What buttons change in a shape: bends, joggles, twists and rolls more or less.

Where a bend or leg is taken out, what is said of the others by their numbers goes with them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from strapwright.errors import InputError
from strapwright.making.shop_lengths import size
from strapwright.pages.fields.part_fields import ShapeRow, bends_of, shape_of, shape_rows
from strapwright.pages.form import raw_job
from strapwright.quantities import Units, read_length
from strapwright.shop_files.updating import update_job

_BENT = ("bend", "joggle")
Raw = Mapping[str, Any]


def add_to_shape(text: str, action: str) -> str:
    """Return the job file with a bend, joggle, roll or twist more behind the others.

    Parameters
    ----------
    text
        The job file.
    action
        ``add-leg``, ``add-joggle``, ``add-roll`` or ``add-twist``.
    """
    raw = raw_job(text)
    shape = shape_of(raw)
    rows = shape_rows(shape)
    last = next(shape[row.at - 1] for row in reversed(rows) if row.kind == "leg")
    metric = raw.get("units") == "metric"
    if action == "add-twist":
        half = _half(last, raw)
        return update_job(text, {"part.shape": [*shape[:-1], half, "twist 90", half]})
    if action == "add-joggle":
        joggle = f"joggle up {'12 mm' if metric else '1/2 in'} over {'50 mm' if metric else '2 in'}"
        return update_job(text, {"part.shape": [*shape, joggle, last]})
    if action == "add-roll":  # it lies in a leg, which stands in two entries then
        half = _half(last, raw)
        return update_job(text, {"part.shape": [*shape[:-1], half, "roll 90", half, "up 90", last]})
    # A copy of the last leg can be drawn at once, and is changed where it stands.
    return update_job(text, {"part.shape": [*shape, "up 90" if last else "up ", last]})


def drop_from_shape(text: str, at: int) -> str:
    """Return the job file without an entry of its shape.

    Parameters
    ----------
    text
        The job file.
    at
        1-based place: of a bend or joggle, which goes with the leg behind it, or of a twist or
        roll, whose leg stays as long as it was.

    Raises
    ------
    InputError
        Where nothing of the kind stands there, or it is the last bend.
    """
    raw = raw_job(text)
    shape = shape_of(raw)
    rows = shape_rows(shape)
    row = rows[at - 1] if 1 <= at <= len(rows) else None
    if row is None or row.kind == "leg":
        raise InputError("part.shape", "this is no bend", "choose a bend")
    if row.kind in ("twist", "roll"):
        return update_job(text, {"part.shape": _joined(shape, rows, at, raw)})
    gone = 2 if row.kind == "joggle" else 1
    if bends_of(shape) <= gone:
        raise InputError("part.shape", "a part has at least one bend", "change it instead")
    end = at + 1
    while end < len(shape) and rows[end].kind not in _BENT:
        end += 1  # a leg that is rolled half way stands in several entries
    changes: dict[str, object] = {"part.shape": [*shape[: at - 1], *shape[end:]]}
    changes |= _renumbered(raw, row.number, gone)
    return update_job(text, changes)


def _half(leg: str, raw: Raw) -> str:
    units = raw.get("units")
    known: Units | None = units if units in ("inch", "metric") else None
    try:
        long = float(read_length(leg, "part.shape", known))
    except InputError:
        return leg
    return size(long / 2, known or "metric")


def _joined(shape: list[str], rows: tuple[ShapeRow, ...], at: int, raw: Raw) -> list[str]:
    """Return a shape without a twist or roll, the lengths on both sides of it added up."""
    before, behind = shape[at - 2], shape[at] if at < len(shape) else ""
    if at < 2 or at == len(shape) or rows[at].kind != "leg":
        return [*shape[: at - 1], *shape[at:]]
    units = raw.get("units")
    known: Units | None = units if units in ("inch", "metric") else None
    try:
        both = sum(read_length(one, "part.shape", known) for one in (before, behind))
        leg = size(float(both), known or "metric")
    except InputError:  # the person sees what is left, and corrects it there
        leg = before
    return [*shape[: at - 2], leg, *shape[at + 1 :]]


def _renumbered(raw: Raw, first: int, gone: int) -> dict[str, object]:
    """Return what is said of bends and legs by their numbers, without those that are gone.

    Parameters
    ----------
    raw
        The job file's plain values.
    first, gone
        1-based number of the first bend that goes, and how many go; as many legs go with them.
    """

    def bend(number: Any) -> Any:
        return _moved(number, first, gone)

    def leg(number: Any) -> Any:
        return _moved(number, first + 1, gone)

    part = raw.get("part")
    part = part if isinstance(part, Mapping) else {}
    changes: dict[str, object] = {}
    for key, moves in (
        ("finish", {"bend": bend}),
        ("limit", {"leg": leg, "bend": bend}),
        ("hole", {"leg": leg, "from_bend": bend}),
        ("weld", {"leg": leg, "from_bend": bend}),
    ):
        changes |= _entries(f"part.{key}", part.get(key), moves)
    others = part.get("other_tooling")
    for number, one in enumerate(others if isinstance(others, list) else [], start=1):
        said = one.get("bends") if isinstance(one, Mapping) else None
        if not isinstance(said, list):
            continue
        kept = [to for to in map(bend, said) if to is not None]
        # Without bends it is at hand yet.
        changes[f"part.other_tooling[{number}].bends"] = kept or None
    order = part.get("order")
    if isinstance(order, list):
        changes["part.order"] = [to for to in map(bend, order) if to is not None]
    for table, key in (("tolerance", "takes"), ("close", "absorb")):
        held = part.get(table)
        if isinstance(held, Mapping) and key in held:
            # Where that leg is gone, the one before it gives way in a closed shape.
            otherwise = first if table == "close" else None
            changes[f"part.{table}.{key}"] = leg(held[key]) or otherwise
    return changes


def _moved(number: Any, first: int, gone: int) -> Any:
    """Return a number after some went, ``None`` where it went itself; what is none as it is."""
    if type(number) is not int or number < first:
        return number
    return None if number < first + gone else number - gone


def _entries(
    path: str, listed: Any, moves: Mapping[str, Callable[[Any], Any]]
) -> dict[str, object]:
    """Return the changes to a list of tables; one about what is gone goes too."""
    changes: dict[str, object] = {}
    dropped = []
    for number, one in enumerate(listed if isinstance(listed, list) else [], start=1):
        if not isinstance(one, Mapping):
            continue
        to = {key: move(one[key]) for key, move in moves.items() if key in one}
        if any(value is None for value in to.values()):
            dropped.append(number)
        else:
            changes |= {f"{path}[{number}].{key}": value for key, value in to.items()}
    return changes | {f"{path}[{number}]": None for number in reversed(dropped)}
