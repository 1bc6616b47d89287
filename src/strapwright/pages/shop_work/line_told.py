"""How a line of the log is told: as it was typed, or by its figures in a device's own units."""

from __future__ import annotations

import re

from strapwright.service.shop_log.typed_readings import FIELDS, LEGS
from strapwright.shop.job import Job
from strapwright.shop_files.quantity_fields import ANGLE, LENGTH, PRESSURE
from strapwright.store import LogEntry
from strapwright.wording.reader import Reader

_BARE = re.compile(r"[+-]?[\d.,]+")  # a number without a unit


def line_told(entry: LogEntry, job: Job, reader: Reader) -> str:
    """Tell a line as it was typed; to a reader of other units than its job's by its figures."""
    own = reader.figures.units == job.units
    return ", ".join(
        f"{name} {_signed(name, text if own else _figure(entry, name, text, reader))}"
        for name, text in entry.typed.items()
    )


def _signed(name: str, text: str) -> str:
    """Give an angle that was typed as a bare number its sign: it is always in degrees."""
    kind, _ = FIELDS.get(name, (None, ""))
    bare = _BARE.fullmatch(text.strip()) is not None
    return f"{text.strip()}°" if kind is ANGLE and bare else text


def field_text(entry: LogEntry, name: str, job: Job, reader: Reader) -> str:
    """Return what stands in a field of a line's form, so that it reads as what was kept.

    Lengths are in decimals whatever the device chose for the bar, so that a form that comes back
    unchanged is known as such.
    """
    text = entry.typed.get(name, "")
    if not text or reader.figures.units == job.units:
        return text
    if name != LEGS:
        return _figure(entry, name, text, reader)
    legs = [entry.figures.get(f"leg {place}") for place in range(1, len(job.part.legs) + 1)]
    return "; ".join("" if one is None else reader.figures.setting(one) for one in legs)


def _figure(entry: LogEntry, name: str, text: str, reader: Reader) -> str:
    show = reader.figures
    if name == LEGS:
        legs = [one for one in entry.figures if one.startswith("leg ")]
        return "; ".join(
            f"{one.removeprefix('leg ')}: {show.size(entry.figures[one])}" for one in legs
        )
    kind, figure = FIELDS.get(name, (None, ""))
    value = entry.figures.get(figure)
    if value is None or kind not in (LENGTH, PRESSURE):
        return text
    return show.setting(value) if kind is LENGTH else show.pressure(value)
