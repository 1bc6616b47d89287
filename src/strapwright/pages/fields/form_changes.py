"""What buttons change: legs and bends, holes, welds and bolts, and the order of the bends."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from strapwright.errors import InputError
from strapwright.pages.fields.member_fields import MOST_FASTENINGS, ROOT, count_of
from strapwright.pages.fields.other_tooling_fields import MOST_OTHERS, OTHER, others_of
from strapwright.pages.fields.part_fields import bends_of, shape_of, shape_rows
from strapwright.pages.fields.shape_changes import add_to_shape, drop_from_shape
from strapwright.pages.form import raw_job
from strapwright.shop_files.updating import update_job

_DROPPED = {
    "drop-hole": "part.hole",
    "drop-other": OTHER,
    "drop-weld": f"{ROOT}.weld",
    "drop-bolt": f"{ROOT}.bolt",
}
_OF_SHAPE = ("drop-leg", "drop-twist", "drop-roll")
_ROUND = {"inch": ("1", "1/2"), "metric": ("25", "12")}


def apply_action(text: str, action: str) -> str:
    """Return the job file after a button was pressed.

    Parameters
    ----------
    text
        The job file with what was typed.
    action
        ``add-leg``, ``add-joggle``, ``add-twist`` or ``add-roll``, ``drop-leg:PLACE`` (a bend or
        joggle and the leg behind it), ``drop-twist:PLACE``, ``drop-roll:PLACE``, ``add-hole`` or
        ``drop-hole:NUMBER``, the same of a ``weld``, a ``bolt`` or ``other`` tooling; anything else
        changes nothing.

    Raises
    ------
    InputError
        Where the file cannot be changed so.
    """
    word, _, number = action.partition(":")
    if word in _ADDED:
        return _ADDED[word](text, word)
    numbered = number.isdecimal() and len(number) < 4
    if word in _OF_SHAPE and numbered:
        return drop_from_shape(text, int(number))
    if word in _DROPPED and numbered:
        return update_job(text, {f"{_DROPPED[word]}[{int(number)}]": None})
    return text


def same_places(before: str, now: str, action: str) -> bool:
    """Tell whether the number that a button names is that of the same entry in two texts.

    Parameters
    ----------
    before, now
        The job file that the page showed, and as it is saved.
    action
        As for :func:`apply_action`.
    """
    word, _, _ = action.partition(":")
    old, new = raw_job(before), raw_job(now)
    if word in _OF_SHAPE:
        kinds = [[row.kind for row in shape_rows(shape_of(raw))] for raw in (old, new)]
        return kinds[0] == kinds[1]
    return word not in _DROPPED or _count(old, _DROPPED[word]) == _count(new, _DROPPED[word])


def _count(raw: Mapping[str, Any], path: str) -> int:
    found: Any = raw
    for key in path.split("."):
        found = found.get(key) if isinstance(found, Mapping) else None
    return len(found) if isinstance(found, list) else 0


def _add_hole(text: str, _word: str) -> str:
    raw = raw_job(text)
    part = raw.get("part", {})
    holes = part.get("hole") or []
    distance, diameter = _ROUND["metric" if raw.get("units") == "metric" else "inch"]
    if raw.get("units") not in _ROUND:
        distance, diameter = "1 in", "1/2 in"
    last = holes[-1] if holes else {}
    at = f"part.hole[{len(holes) + 1}]"
    return update_job(
        text,
        {
            f"{at}.leg": 1,
            f"{at}.from_end": distance,
            f"{at}.diameter": last.get("diameter", diameter),
        },
    )


def _add_other(text: str, _word: str) -> str:
    """Another nose, for the last bend that none has yet; at hand alone where each has one."""
    raw = raw_job(text)
    others = others_of(raw)
    if len(others) == MOST_OTHERS:
        raise InputError(OTHER, f"there are {len(others)} already", "take one out first")
    taken = {bend for one in others for bend in one.get("bends") or ()}
    free = [one for one in range(1, bends_of(shape_of(raw)) + 1) if one not in taken]
    at = f"{OTHER}[{len(others) + 1}]"
    shaft = "12 mm" if raw.get("units") == "metric" else "1/2 in"
    return update_job(
        text,
        {
            f"{at}.name": f"tooling {len(others) + 2}",
            f"{at}.bends": free[-1:] or None,
            f"{at}.nose.shaft": shaft,
        },
    )


def _add_fastening(text: str, word: str) -> str:
    raw = raw_job(text)
    key = word.removeprefix("add-")
    count = count_of(raw, key)
    if count == MOST_FASTENINGS:
        raise InputError(f"{ROOT}.{key}", f"there are {count} already", "take one out first")
    metric = raw.get("units") == "metric"
    at = f"{ROOT}.{key}[{count + 1}]"
    made: dict[str, object] = {f"{at}.holds": "carriers"}
    if key == "weld":
        made |= {f"{at}.size": "6 mm" if metric else "1/4 in"}
        made |= {f"{at}.length": "100 mm" if metric else "4 in"}
    else:
        made |= {f"{at}.size": "M12" if metric else "1/2-13", f"{at}.count": 2}
    return update_job(text, made)


_ADDED: Mapping[str, Callable[[str, str], str]] = {
    **dict.fromkeys(("add-leg", "add-joggle", "add-twist", "add-roll"), add_to_shape),
    "add-hole": _add_hole,
    "add-other": _add_other,
    **dict.fromkeys(("add-weld", "add-bolt"), _add_fastening),
}


def move_bend(order: tuple[int, ...], bend: int, by: int) -> tuple[int, ...]:
    """Return an order of bends with one moved earlier (-1) or later (+1)."""
    at = order.index(bend) if bend in order else -1
    to = at + by
    if at < 0 or not 0 <= to < len(order):
        return order
    fresh = list(order)
    fresh[at], fresh[to] = fresh[to], fresh[at]
    return tuple(fresh)


def with_order(text: str, order: tuple[int, ...] | None) -> str:
    """Return the job file with an order of the bends, or with the natural one where ``None``."""
    return update_job(text, {"part.order": None if order is None else list(order)})
