"""What a person types of a push, read by the units of its job."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.quantities.reading import pointed
from strapwright.shop.job import Job
from strapwright.shop_files.quantity_fields import (
    ANGLE,
    LENGTH,
    MINUTES,
    PRESSURE,
    Kind,
    quantity,
)
from strapwright.shop_files.toml_table import Table
from strapwright.store import LogEntry

# What may be typed -> its kind and the name of its figure.
FIELDS: Mapping[str, tuple[Kind, str]] = {
    "travel": (LENGTH, "travel"),
    "angle": (ANGLE, "free"),
    "again": (ANGLE, "again"),
    "loaded": (ANGLE, "loaded"),
    "gauge": (PRESSURE, "gauge"),
    "radius": (LENGTH, "radius"),
    "blank": (LENGTH, "blank"),
}
TIMED = "minutes"  # and the name of its figure
COMPARED = ("angle", "again", "loaded", "gauge")
# Figures that are the angle after release, as often as it was measured.
ANGLES = ("free", "again")
LEGS = "legs"
# In a metric job a comma between two digits may be a decimal comma; one before a space parts legs.
_COMMA_ALONE, _COMMA_APART = re.compile(r"\d,\d"), re.compile(r",(?=\s|$)")
# What a number without a unit is taken in, and what figures are kept in.
_UNITS: Mapping[Units, Mapping[Kind, str]] = {
    "inch": {LENGTH: "in", PRESSURE: "psi"},
    "metric": {LENGTH: "mm", PRESSURE: "bar"},
}
_INSIDE: Mapping[Kind, str] = {LENGTH: "mm", PRESSURE: "MPa"}


def read_typed(typed: Mapping[str, str], job: Job) -> dict[str, float]:
    """Read what was typed into mm, MPa, rad and min; an empty text is none.

    Raises
    ------
    InputError
        If something cannot be read.
    """
    given = {name: text for name, text in typed.items() if text.strip()}
    table = Table(data=given, path="", units=job.units, lines={})
    figures: dict[str, float] = {}
    for name, (kind, figure) in FIELDS.items():
        value = quantity(table, name, kind, zero=name in ("travel", "gauge"))
        if value is not None:
            figures[figure] = math.radians(value) if kind is ANGLE else value
    if LEGS in given:
        figures.update(_legs(given[LEGS], job))
    if TIMED in given:
        figures[TIMED] = _minutes(given[TIMED], job)
    return figures


def angles_read(figures: Mapping[str, float]) -> tuple[float, ...]:
    """Return the angle after release of one push, once for each time it was measured [rad]."""
    return tuple(figures[name] for name in ANGLES if name in figures)


def free_angle(figures: Mapping[str, float]) -> float | None:
    """Return the angle after release, the mean of what was measured; ``None`` of none [rad]."""
    read = angles_read(figures)
    return sum(read) / len(read) if read else None


def read_legs(figures: Mapping[str, float], job: Job) -> dict[int, tuple[float, float]]:
    """Return each leg that was measured, as read and as the job states it [mm].

    The leg that takes up what a closed shape lacks has no length to hold it to.
    """
    closing = None if job.part.close is None else job.part.close.absorb
    return {
        place: (figures[f"leg {place}"], wanted)
        for place, wanted in enumerate(job.part.legs, start=1)
        if f"leg {place}" in figures and place != closing
    }


def refuse_unread(typed: Mapping[str, str]) -> None:
    """Refuse a push of which nothing was read.

    Raises
    ------
    InputError
        If nothing was read at the press at all.
    """
    if not any(typed.get(name, "").strip() for name in (*COMPARED, LEGS, "radius")):
        raise InputError(
            "angle",
            "nothing was read: neither an angle nor a pressure nor a leg is entered",
            "measure the angle after release, or read the pressure gauge at the end of the push",
        )


def corrected(
    now: LogEntry, typed: Mapping[str, str], job: Job
) -> tuple[dict[str, str], dict[str, float]]:
    """Return texts and figures of a line with what is typed now; the rest stays as it was kept.

    Texts kept before were read by the units that the job had then, so they are not read again.

    Parameters
    ----------
    now
        The line as it is.
    typed
        Names of texts -> as typed; an empty one takes its figure out.
    job
        As it is today: what is typed now is in its units.

    Raises
    ------
    InputError
        If something cannot be read, or the travel is taken out.
    """
    if not typed.get("travel", "0").strip():
        raise InputError("travel", "a line needs its travel", "enter the travel from first contact")
    texts = {name: text for name, text in {**now.typed, **typed}.items() if text.strip()}
    names = {FIELDS[name][1] if name in FIELDS else name for name in typed}
    kept = {
        figure: value
        for figure, value in now.figures.items()
        if figure not in names and not (LEGS in typed and figure.startswith("leg "))
    }
    return texts, {**kept, **read_typed(typed, job)}


def leg_places(text: str, units: Units) -> list[str]:
    """Part the finished legs as typed; an empty place is a leg that was not measured.

    Raises
    ------
    InputError
        If a comma may be either a decimal comma or part two legs.
    """
    if ";" in text:
        return text.split(";")
    if units == "inch":
        return text.split(",")
    if _COMMA_ALONE.search(text) and not _COMMA_APART.search(text):
        raise InputError(
            LEGS,
            "a comma here may be a decimal comma or part two legs",
            f"write ; between the legs, for example {_example(text.count(',') + 1, units)}",
            value=text,
        )
    return _COMMA_APART.split(text)


def _example(count: int, units: Units) -> str:
    return "; ".join(["127,5" if units == "metric" else "5.02"] * min(count, 3))


def _legs(text: str, job: Job) -> dict[str, float]:
    """Finished legs in order; an empty place is a leg that was not measured."""
    count, places = len(job.part.legs), leg_places(text, job.units)
    if len(places) != count:
        some = "1 leg is" if len(places) == 1 else f"{len(places)} legs are"
        raise InputError(
            LEGS,
            f"{some} entered, and the part has {count}",
            f"write every leg with ; between, for example {_example(count, job.units)}; leave a "
            "place empty for a leg you did not measure",
            value=text,
        )
    figures = {}
    for place, one in enumerate(places, start=1):
        if one.strip():
            leg = Table(data={LEGS: one.strip()}, path="", units=job.units, lines={})
            figures[f"leg {place}"] = quantity(leg, LEGS, LENGTH) or 0.0
    return figures


def with_units(typed: Mapping[str, str], units: Units) -> dict[str, str]:
    """Name the unit of each number typed without one, so that any job reads it as it was meant.

    Parameters
    ----------
    typed
        Names of ``FIELDS``, ``legs``, ``minutes`` and ``note`` -> as typed.
    units
        In which the person was asked.

    Raises
    ------
    InputError
        If a comma may be either a decimal comma or part two legs.
    """
    said = dict(typed)
    for name, (kind, _) in FIELDS.items():
        if name in said:
            said[name] = _named(said[name], name, kind, units)
    if TIMED in said:
        said[TIMED] = pointed(said[TIMED], units)
    if said.get(LEGS, "").strip():
        said[LEGS] = "; ".join(
            _named(one.strip(), LEGS, LENGTH, units) for one in leg_places(said[LEGS], units)
        )
    return said


def _named(text: str, name: str, kind: Kind, units: Units) -> str:
    if not text.strip():
        return text
    try:
        kind.read(text, name, None)
    except InputError:
        value = kind.read(text, name, units)  # refuses what is no figure in these units either
    else:
        return text  # says its unit itself
    unit, inside = _UNITS[units].get(kind, "deg"), _INSIDE.get(kind, "deg")
    said = f"{pointed(text, units)} {unit}"
    try:
        same = kind.read(said, name, None) == value
    except InputError:
        same = False
    return said if same else f"{float(value):.9g} {inside}"


def _minutes(text: str, job: Job) -> float:
    plain = pointed(text, job.units)
    if re.fullmatch(r"\d{0,6}\.?\d{0,6}", plain, re.ASCII) is None or plain == ".":
        raise InputError(
            TIMED, "this is not a number of minutes", "write for example 0.8", value=text
        )
    table = Table(data={TIMED: float(plain)}, path="", units=job.units, lines={})
    return quantity(table, TIMED, MINUTES) or 0.0
