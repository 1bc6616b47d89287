"""The cutters of a tool crib one by one, and a usual set for a shop that states none."""

from __future__ import annotations

import functools

from strapwright.catalog.drills import Drill, drills, find_drill
from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.drill_reach import usual_reach
from strapwright.making.plate_values import Cutter
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.crib import BoringBar, Crib, DrillSet


def cutters_of(crib: Crib) -> tuple[Cutter, ...]:
    """Return every cutter of a crib.

    Parameters
    ----------
    crib
        As read.

    Raises
    ------
    InputError
        Where it names a drill or a tap that the tables do not know.
    """
    made = [_drill(one) for run in crib.drills for one in _run(run)]
    made += [
        Cutter(kind="reamer", name=f"{_size(one)} reamer", diameter=one) for one in crib.reamers
    ]
    made += [
        Cutter(kind="end mill", name=f"{_size(one)} end mill", diameter=one)
        for one in crib.end_mills
    ]
    made += [
        Cutter(kind="hole saw", name=f"{_size(one)} hole saw", diameter=one)
        for one in crib.hole_saws
    ]
    made += [
        Cutter(kind="radius cutter", name=f"{_size(one)} radius cutter", diameter=2 * one)
        for one in crib.radius_cutters
    ]
    for name in crib.taps:
        thread = find_thread(name, "crib.taps")
        made.append(
            Cutter(kind="tap", name=f"{thread.name} tap", diameter=thread.major, thread=thread.name)
        )
    if crib.boring_bar is not None:
        made.append(
            Cutter(
                kind="boring bar",
                name="boring bar",
                diameter=crib.boring_bar.smallest_bore,
                reach=crib.boring_bar.reach,
            )
        )
    return tuple(made)


@functools.cache
def usual_cutters() -> tuple[Cutter, ...]:
    """Return a small shop's usual set, for a job that names no crib; common practice, no source.

    Fractions from 1/16 to 1/2 by 64ths and on to 1 by 16ths, numbers 1 to 60, letters, metric
    drills from 1 to 10 mm by 0.1 mm and on to 13 mm by 0.5 mm, and the tap drill 10.2; taps 1/4-20,
    5/16-18, 3/8-16, 1/2-13, M6, M8, M10, M12; reamers 1/4, 3/8, 1/2, 3/4, 1 in; end mills 1/4, 3/8,
    1/2, 5/8, 3/4 in; a boring bar that enters 5/8 in and
    reaches 3 in.
    """
    fractions = [n / 64 * INCH_MM for n in range(4, 33)] + [n / 16 * INCH_MM for n in range(9, 17)]
    metric = [n / 10 for n in range(10, 101)] + [10.2] + [n / 2 for n in range(21, 27)]
    crib = Crib(
        drills=(
            DrillSet(series="fractional", first="1/16", last="1", sizes=tuple(fractions)),
            DrillSet(series="number", first="1", last="60"),
            DrillSet(series="letter", first="A", last="Z"),
            DrillSet(series="metric", first="1 mm", last="13 mm", sizes=tuple(metric)),
        ),
        reamers=tuple(one * INCH_MM for one in (0.25, 0.375, 0.5, 0.75, 1.0)),
        taps=("1/4-20", "5/16-18", "3/8-16", "1/2-13", "M6", "M8", "M10", "M12"),
        end_mills=tuple(one * INCH_MM for one in (0.25, 0.375, 0.5, 0.625, 0.75)),
        boring_bar=BoringBar(smallest_bore=0.625 * INCH_MM, reach=3 * INCH_MM),
    )
    return cutters_of(crib)


def drills_of(crib: Crib) -> tuple[Drill, ...]:
    """Return the drills of a crib by name."""
    return tuple(one for run in crib.drills for one in _run(run))


def _run(run: DrillSet) -> tuple[Drill, ...]:
    if run.series == "number":
        first, last = int(run.first), int(run.last)
        return tuple(find_drill(f"#{n}", "crib.drills") for n in range(first, last + 1))
    if run.series == "letter":
        return tuple(
            find_drill(chr(n), "crib.drills") for n in range(ord(run.first), ord(run.last) + 1)
        )
    prefer = "metric" if run.series == "metric" else "fraction"
    return tuple(_named(size, prefer) for size in run.sizes)


def _named(size: float, prefer: str) -> Drill:
    """Return a drill of that diameter [mm], called as in the tables where they have it."""
    fit = [one for one in drills() if abs(one.diameter - size) < 1e-6]
    fit.sort(key=lambda one: (one.series != prefer, one.series))
    if fit:
        return fit[0]
    return Drill(name=f"{size:.4g} mm", series="metric", diameter=size)


def _drill(one: Drill) -> Cutter:
    name = f"{one.name} in" if one.name.isdigit() else one.name
    return Cutter(
        kind="drill",
        name=f"{name} drill",
        diameter=one.diameter,
        metric=one.series == "metric",
        reach=usual_reach(one.diameter),
    )


def _size(mm: float) -> str:
    """Name a size as the tables name a drill of it; a bare fraction of a drill is inches."""
    name = _named(mm, "fraction").name
    return f"{name} in" if name[0].isdigit() and not name.endswith("mm") else name
