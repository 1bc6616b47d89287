"""What buttons change: legs and bends, holes, welds and bolts, and the order of the bends."""

from __future__ import annotations

from strapwright.errors import InputError
from strapwright.pages.fields.member_fields import MOST_FASTENINGS, ROOT, count_of
from strapwright.pages.fields.part_fields import shape_of, shape_rows
from strapwright.pages.form import raw_job
from strapwright.shop_files.updating import update_job

_DROPPED = {
    "drop-hole": "part.hole",
    "drop-weld": f"{ROOT}.weld",
    "drop-bolt": f"{ROOT}.bolt",
}
_ROUND = {"inch": ("1", "1/2"), "metric": ("25", "12")}


def apply_action(text: str, action: str) -> str:
    """Return the job file after a button was pressed.

    Parameters
    ----------
    text
        The job file with what was typed.
    action
        ``add-leg``, ``drop-leg:PLACE`` (a bend and the leg behind it), ``add-hole`` or
        ``drop-hole:NUMBER``, the same of a ``weld`` or ``bolt``; anything else changes nothing.

    Raises
    ------
    InputError
        Where the file cannot be changed so.
    """
    word, _, number = action.partition(":")
    if word == "add-leg":
        return _add_leg(text)
    numbered = number.isdecimal() and len(number) < 4
    if word == "drop-leg" and numbered:
        return _drop_leg(text, int(number))
    if word == "add-hole":
        return _add_hole(text)
    if word in ("add-weld", "add-bolt"):
        return _add_fastening(text, word.removeprefix("add-"))
    if word in _DROPPED and numbered:
        return update_job(text, {f"{_DROPPED[word]}[{int(number)}]": None})
    return text


def _add_leg(text: str) -> str:
    shape = shape_of(raw_job(text))
    legs = [shape[row.at - 1] for row in shape_rows(shape) if row.kind == "leg"]
    # A copy of the last leg can be drawn at once, and is changed where it stands.
    return update_job(text, {"part.shape": [*shape, "up 90" if legs[-1] else "up ", legs[-1]]})


def _drop_leg(text: str, at: int) -> str:
    shape = shape_of(raw_job(text))
    rows = shape_rows(shape)
    if sum(row.kind == "bend" for row in rows) < 2 or not 1 <= at <= len(shape):
        raise InputError("part.shape", "a part has at least one bend", "change it instead")
    if rows[at - 1].kind != "bend":
        raise InputError("part.shape", "this is no bend", "choose a bend")
    end = at + 1
    while end < len(shape) and rows[end].kind != "bend":
        end += 1  # a leg that is rolled half way stands in several entries
    return update_job(text, {"part.shape": [*shape[: at - 1], *shape[end:]]})


def _add_hole(text: str) -> str:
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


def _add_fastening(text: str, key: str) -> str:
    raw = raw_job(text)
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
