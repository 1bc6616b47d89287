"""What is said of a key where it is explained: its help, and what is meant where it is left out."""

from __future__ import annotations

import re

from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.keys import Key
from strapwright.shop_files.exact_text import plain
from strapwright.shop_files.known_keys import one_of
from strapwright.shop_files.quantity_fields import KINDS

_EITHER = re.compile(r"\{([^{}|]*)\|([^{}|]*)\}")
_BARE = (
    "share", "friction", "exponent", "per minute", "minutes", "hours", "area rate", "money",
    "count", "angle",
)  # fmt: skip
_KEPT: dict[Units | None, str] = {"inch": r"\1", "metric": r"\2", None: r"\1 or \2"}
_UNITS: dict[Units, str] = {"inch": " in", "metric": " mm"}


def help_of(key: Key, units: Units = "inch") -> str:
    """Return what a key is, in words; it begins in lower case and ends without a full stop.

    Parameters
    ----------
    key
        Of a value of the shop.
    units
        Unit system of the figures in it.
    """
    text = key.help
    if key.options:
        text = text.replace("{options}", one_of(key.options))
        if not any(f'"{word}"' in text for word in key.options):
            text = f"{text}: {one_of(key.options)}" if text else one_of(key.options)
    if key.kind in KINDS:
        text = text.replace("{high}", plain(float(KINDS[key.kind].high)))
    return _EITHER.sub(lambda found: found[1 if units == "inch" else 2], text)


def left_out(key: Key, units: Units | None = None) -> str:
    """Return what is meant where a key is left out, empty where nothing is.

    Parameters
    ----------
    key
        Of a value of the shop.
    units
        Unit system of the figures in it; ``None`` where it is told for both.
    """
    if key.left_out or key.needed or key.default is None or key.default == ():
        return _EITHER.sub(_KEPT[units], key.left_out)
    if key.kind == "flag":
        return "true" if key.default else "false"
    if isinstance(key.default, int | float):
        if key.kind == "length" and key.default:
            inch, metric = f"{key.default / INCH_MM:.2g} in", f"{plain(key.default)} mm"
            return _EITHER.sub(_KEPT[units], f"{{{inch}|{metric}}}")
        unit = f" {KINDS[key.kind].unit}".rstrip() if key.kind in KINDS and key.default else ""
        return f"{plain(key.default)}{unit}"
    return str(key.default)


def literal(key: Key, units: Units) -> str:
    """Return the example of a key as it is written in a file of a unit system.

    Parameters
    ----------
    key
        Of a value of the shop; not of a table.
    units
        Unit system of bare numbers in the file.
    """
    if key.new:
        return key.new[0 if units == "inch" else -1]
    if key.kind == "flag":
        return "true" if bool(key.default) is key.given else "false"
    if key.kind == "choice":
        return f'"{key.default if key.given else key.options[-1]}"'
    text = key.example(units)
    if key.kind in ("length", "signed length"):
        text = text.removesuffix(_UNITS[units])
    return text if _is_bare(key, text) else f'"{text}"'


def _is_bare(key: Key, text: str) -> bool:
    """Whether it is written without quotes: a plain number or a list."""
    if key.kind == "own":
        return text.isdecimal() or text.startswith("[")
    return key.kind in _BARE
