"""Sums at the bench: a fit, a tap drill, a drill by another name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from strapwright.catalog.drills import SERIES, Drill, Series, drills, find_drill, nearest_drills
from strapwright.catalog.thread_sizes import chart_drill, find_thread
from strapwright.errors import InputError
from strapwright.making.cutters import drilled_size, reamed_size
from strapwright.making.fits import Fit, iso_fit, measured_fit
from strapwright.making.plate_values import Cutter
from strapwright.making.shop_lengths import fine
from strapwright.making.threads.tap_drills import DEEP, best_tap_drill
from strapwright.quantities import Units, read_length

Answer = tuple[list[str], dict[str, Any]]
_PERCENT = (30.0, 100.0)


def fit_answer(
    size: str | None,
    classes: str | None,
    *,
    hole: str | None,
    shaft: str | None,
    reamer: str | None,
    drill: str | None,
    units: Units | None,
    shown: Units | None = None,
) -> Answer:
    """Work out a fit by classes or by sizes, as text and data.

    Parameters
    ----------
    size, classes, hole, shaft, reamer, drill
        As typed, ``None`` where not.
    units
        Unit system of a bare size.
    shown
        Unit system of the text; ``None`` follows what was typed.

    Raises
    ------
    InputError
        Where neither is whole, or a figure cannot be used.
    """
    holes = [one for one in (hole, reamer, drill) if one is not None]
    if size is not None and classes is not None and not holes and shaft is None:
        # The classes are of a metric standard: a bare size beside them is in mm.
        nominal = float(read_length(size, "SIZE", units or "metric"))
        found = iso_fit(nominal, classes, "FIT")
    elif size is None and len(holes) == 1 and shaft is not None:
        if hole is not None:
            bore = _between(hole, "--hole", units)
        elif reamer is not None:
            bore = reamed_size(_positive(reamer, "--reamer", units))
        else:
            bore = drilled_size(_diameter(holes[0], "--drill", units))
        found = measured_fit(bore, _between(shaft, "--shaft", units), "--shaft")
    else:
        raise InputError(
            "fit",
            "neither a size with its classes nor one hole and a shaft is given",
            "write for example: fit '25 mm' H7/g6, or: fit --reamer '1 in' --shaft '0.9995 in'",
        )
    inches = any(mark in (size or shaft or "") for mark in ("in", '"'))
    told: Units = shown or units or ("inch" if inches else "metric")
    return _fit_lines(found, told), {
        "format": 1,
        "hole_mm": {"least": found.hole.least, "most": found.hole.most},
        "shaft_mm": {"least": found.shaft.least, "most": found.shaft.most},
        "clearance_mm": {"least": found.least, "most": found.most},
        "kind": found.kind,
        "words": found.words,
    }


def _fit_lines(found: Fit, units: Units) -> list[str]:
    def span(low: float, high: float) -> str:
        return f"{fine(low, units)} to {fine(high, units)}"

    return [
        f"hole       {span(found.hole.least, found.hole.most)} ({found.hole.name})",
        f"shaft      {span(found.shaft.least, found.shaft.most)} ({found.shaft.name})",
        f"clearance  {span(found.least, found.most)} ({found.kind} fit)",
        found.words,
    ]


def tap_answer(
    thread: str,
    *,
    drill: str | None,
    percent: float | None,
    cutters: Sequence[Cutter],
    units: Units | None,
    shown: Units | None = None,
) -> Answer:
    """Work out tap drill and percentage of thread, as text and data.

    Parameters
    ----------
    thread
        As typed.
    drill
        A drill whose percentage is asked for, by name or size.
    percent
        Percentage asked for [%]; 75 where not given.
    cutters
        To choose from.
    units
        Unit system of a bare size.
    shown
        Unit system of the text; ``None`` says each size in both.

    Raises
    ------
    InputError
        Where the thread is unknown, the drill does not leave a thread, or no drill comes near.
    """
    found = find_thread(thread, "THREAD")
    aim = 75.0 if percent is None else percent
    if not _PERCENT[0] <= aim <= _PERCENT[1]:
        raise InputError(
            "--percent", "this is out of range", "give 30 to 100, 75 is usual", value=f"{aim:g}"
        )
    wanted = found.hole(aim)
    sizes = _size(found.major, shown), _pitch(found.pitch, shown)
    lines = [
        f"{found.name} ({found.series}): major {sizes[0]}, pitch {sizes[1]}",
        f"{aim:.0f} % of thread: {_size(wanted, shown)}",
    ]
    data: dict[str, Any] = {
        "format": 1, "thread": found.name, "series": found.series, "major_mm": found.major,
        "pitch_mm": found.pitch, "wanted_percent": aim, "wanted_mm": wanted,
    }  # fmt: skip
    if drill is not None:
        size = _diameter(drill, "--drill", units)
        real = found.percent(size)
        if not 0 < real <= 110:
            raise InputError(
                "--drill",
                f"this drill leaves no thread of {found.name}"
                if real <= 0
                else f"this drill is smaller than the root of {found.name}",
                f"use one near {_size(wanted, shown)}",
                value=drill,
            )
        lines.append(f"{drill} leaves {real:.1f} % of thread: {_verdict(real)}")
        data |= {"drill": drill, "drill_mm": size, "percent": real}
    else:
        best = best_tap_drill(found, [one for one in cutters if one.kind == "drill"], aim=aim)
        if best is None:
            raise InputError(
                "crib",
                f"no drill of it leaves 55 to 85 % of a {found.name} thread",
                f"buy one near {_size(wanted, shown)}",
            )
        real = found.percent(best.diameter)
        lines.append(f"{best.name}: {real:.1f} % of thread, {_size(best.diameter, shown)}")
        data |= {"drill": best.name, "drill_mm": best.diameter, "percent": real}
    chart = chart_drill(found)
    data["chart_drill"] = None if chart is None else chart.name
    if chart is not None:
        lines.append(f"a shop chart says {chart.name}: {found.percent(chart.diameter):.1f} %")
    lines.append(
        f"Thread deeper than {DEEP:g} diameters ({_size(DEEP * found.major, shown)}) gains nothing "
        "and breaks taps: take 60 to 65 % there and in tough steel."
    )
    return lines, data


def _verdict(percent: float) -> str:
    if percent > 85:
        return "too tight, the tap will break"
    if percent < 55:
        return "too loose for a thread that carries load"
    return "good"


def drill_answer(
    size: str,
    *,
    among: Sequence[Drill] | None,
    series: str | None,
    units: Units | None,
    shown: Units | None = None,
) -> Answer:
    """Say a drill or a size in every series, as text and data.

    Parameters
    ----------
    size
        Name of a drill or a length.
    among
        Drills of a crib; all of them where ``None``.
    series
        Only this one.
    units
        Unit system of a bare size.
    shown
        Unit system of the text; ``None`` says each size in both.

    Raises
    ------
    InputError
        Where the size cannot be read, or there is no drill to choose from.
    """
    wanted = _diameter(size, "SIZE", units)
    box = drills() if among is None else among
    asked: list[Series] = [one for one in SERIES if series in (None, one)]
    lines = [f"{size} is {_size(wanted, shown)}"]
    nearest = []
    for kind in asked:
        own = [one for one in box if one.series == kind]
        if not own:
            continue
        best = nearest_drills(wanted, own, 1)[0]
        over = best.diameter - wanted
        word = "exact" if abs(over) < 5e-5 else f"{_size(abs(over), shown)} {_way(over)}"
        lines.append(f"{kind:<9} {best.name:<9} {_size(best.diameter, shown)}, {word}")
        nearest.append(
            {"series": kind, "name": best.name, "diameter_mm": best.diameter, "over_mm": over}
        )
    if not nearest:
        raise InputError(
            "crib", "there is no drill of that series in the crib", "list the drills that you have"
        )
    return lines, {"format": 1, "size_mm": wanted, "nearest": nearest}


def _way(over: float) -> str:
    return "over" if over > 0 else "under"


def _diameter(text: str, where: str, units: Units | None) -> float:
    """A drill by name, else a length."""
    try:
        return find_drill(text, where).diameter
    except InputError:
        return _positive(text, where, units)


def _positive(text: str, where: str, units: Units | None) -> float:
    size = float(read_length(text, where, units))
    if size <= 0:
        raise InputError(where, "the size is not above 0", "give a diameter", value=text)
    return size


def _between(text: str, where: str, units: Units | None) -> tuple[float, float]:
    low, dash, high = text.partition(" to ")
    first = _positive(low if not dash or units else _with_unit(low, high), where, units)
    return first, _positive(high, where, units) if dash else first


def _with_unit(low: str, high: str) -> str:
    """'25 to 25.02 mm': the unit stands once."""
    unit = high.lstrip("0123456789./- ")
    return low if any(letter.isalpha() or letter in "\"'" for letter in low) else f"{low} {unit}"


def _size(mm: float, shown: Units | None) -> str:
    if shown is not None:
        return fine(mm, shown)
    return f"{fine(mm, 'inch')}, {fine(mm, 'metric')}"


def _pitch(mm: float, shown: Units | None) -> str:
    inch, metric = fine(mm, "inch"), f"{mm:.4g} mm"
    return {"inch": inch, "metric": metric, None: f"{inch}, {metric}"}[shown]
