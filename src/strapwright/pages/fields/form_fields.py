"""What the pages ask for: a field for each key of a job file, with examples in both systems."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any, Literal, get_args

from attrs import frozen

from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.quantities.inside_units import CUBIC_INCH_MM3, GALLON_MM3, INCH_MM, TON_N
from strapwright.quantities.printing import fixed
from strapwright.quantities.units import PSI
from strapwright.shop_files.quantity_fields import KINDS

# Newtons and metres behind a number, and a metric thread; not the drills N, M and No. 7.
_SHORT_METRIC = re.compile(r"\d\s*[nm]\b|\bm\s?\d")

Kind = Literal[
    "length", "pressure", "strength", "force", "flow", "volume", "area rate", "angle", "share",
    "count", "text",
]  # fmt: skip
Page = Literal["part", "bar", "press", "tooling", "strength", "bends"]

_PSI = float(PSI)


@frozen(kw_only=True)
class Field:
    """One field of a page.

    Attributes
    ----------
    name
        Key path in the job file, which also names the input.
    label
        As told to a person.
    kind
        What is typed.
    inch, metric
        A sound value to show as example.
    choices
        Value -> words, where one of a few is chosen; the first is meant where none is stated.
    hint
        What it is, where the label does not say enough.
    needed
        Whether a plan needs it.
    later
        Whether a first plan does well without it: folded away until something is stated.
    group
        Heading it stands under.
    alone
        Of an angle: how far off it may be, so that no included angle stands beneath it.
    """

    name: str
    label: str
    kind: Kind = "text"
    inch: str = ""
    metric: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    hint: str = ""
    needed: bool = False
    later: bool = False
    group: str = ""
    alone: bool = False

    def example(self, units: str) -> str:
        """Return an example in these units, ``3-1/2 in or 90 mm`` where they are not known yet."""
        if units in ("inch", "metric"):
            return self.metric or self.inch if units == "metric" else self.inch or self.metric
        return " or ".join(dict.fromkeys(one for one in (self.inch, self.metric) if one))


_READERS: Mapping[Kind, Callable[[str, str, Units | None], Fraction]] = {
    kind: KINDS[kind].read for kind in get_args(Kind) if kind in KINDS
}


def _decimals(value: float, figures: int = 4) -> str:
    """Write with about that many figures and no trailing zeros."""
    whole = len(str(abs(int(value)))) if abs(value) >= 1 else 0
    text = fixed(value, max(0, figures - whole))
    return text.rstrip("0").rstrip(".") if "." in text else text


# What a value is in the other system, from the value in the unit inside.
_OTHERS: Mapping[Kind, tuple[Callable[[float], str], Callable[[float], str]]] = {
    "length": (
        lambda mm: f"{_decimals(mm)} mm",
        lambda mm: f"{fixed(mm / INCH_MM, 3)} in",
    ),
    "pressure": (
        lambda mpa: f"{_decimals(mpa * 10)} bar",
        lambda mpa: f"{fixed(mpa / _PSI, 0)} psi",
    ),
    "strength": (
        lambda mpa: f"{_decimals(mpa, 3)} MPa",
        lambda mpa: f"{_decimals(mpa / _PSI / 1000, 3)} ksi",
    ),
    "force": (
        lambda n: f"{_decimals(n / 1000, 3)} kN",
        lambda n: f"{_decimals(n / TON_N, 3)} tons (US)",
    ),
    "flow": (
        lambda flow: f"{_decimals(flow * 60e-6, 3)} L/min",
        lambda flow: f"{_decimals(flow * 60 / GALLON_MM3, 3)} gpm",
    ),
    "volume": (
        lambda v: f"{_decimals(v / 1000, 3)} cm³",
        lambda v: f"{_decimals(v / CUBIC_INCH_MM3, 3)} in³",
    ),
    "area rate": (
        lambda rate: f"{_decimals(rate, 3)} mm²/min",
        lambda rate: f"{_decimals(rate / INCH_MM**2, 3)} in²/min",
    ),
    "angle": (
        lambda deg: f"included {_decimals(180 - deg)}°" if 0 < deg < 180 else "",
        lambda deg: f"included {_decimals(180 - deg)}°" if 0 < deg < 180 else "",
    ),
}


def other_unit(field: Field, text: str, units: Units | None) -> str:
    """Return the value in the other unit system, empty where there is none.

    Parameters
    ----------
    field
        What is typed.
    text
        As typed.
    units
        Unit system of the job.

    Raises
    ------
    InputError
        If it is no quantity of its kind.
    """
    reader = _READERS.get(field.kind)
    if reader is None or not text.strip():
        return ""
    value = float(reader(text, field.name, units))
    if field.kind not in _OTHERS or (field.kind == "angle" and field.alone):
        return ""
    to_metric, to_inch = _OTHERS[field.kind]
    typed_metric = units == "metric"
    # What carries its own unit is answered in the other system than its own.
    with contextlib.suppress(InputError):
        alone = float(reader(text, field.name, None))
        by_units = [float(reader(text, field.name, one)) for one in ("inch", "metric")]
        if field.kind != "angle" and alone == by_units[0] == by_units[1]:
            typed_metric = is_metric(text)
    return to_inch(value) if typed_metric else to_metric(value)


def is_metric(text: str) -> bool:
    """Tell whether what a person typed names a metric unit."""
    marks = ("mm", "cm", "bar", "pa", "kn", "tonne", "l/min", "ml", "litre", "liter")
    said = text.lower()
    return any(mark in said for mark in marks) or _SHORT_METRIC.search(said) is not None


def stored(field: Field, text: str) -> Any:
    """Return what is written into the job file for what was typed; ``None`` where nothing was."""
    trimmed = text.strip()
    if not trimmed:
        return None
    if field.kind == "count":
        with contextlib.suppress(ValueError):
            return int(trimmed)
        with contextlib.suppress(ValueError):
            return float(trimmed)
    if {value for value, _ in field.choices} - {""} == {"no", "yes"}:
        return trimmed == "yes"
    return trimmed


def typed(value: object) -> str:
    """Return a value of a job file as a person would type it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
