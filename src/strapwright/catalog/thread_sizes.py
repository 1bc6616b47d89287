"""Unified and metric threads: sizes, the percentage a drill leaves, the drill for a percentage."""

from __future__ import annotations

import difflib
import functools
import math
import re
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.drills import Drill, find_drill
from strapwright.catalog.shop_tables import table
from strapwright.errors import InputError

# The shop's "100 per cent": 3/4 of the sharp height sqrt(3)/2 P on each side, 1.299 P on the
# diameter.  A nut thread of basic minor diameter (5/8 on each side) therefore has 83 per cent.
FULL_THREAD = 1.5 * math.sqrt(3) / 2


@frozen(kw_only=True)
class Thread:
    """One 60 degree thread.

    Attributes
    ----------
    name
        ``3/8-16``, ``#10-24`` or ``M10 x 1.5``.
    series
        ``UNC``, ``UNF``, ``UNEF``, ``coarse`` or ``fine``.
    size
        What a bolt of it is called: ``3/8``, ``M10``.
    major, pitch
        [mm]
    """

    name: str
    series: str
    size: str
    major: float
    pitch: float

    @property
    def metric(self) -> bool:
        """Whether it is a metric thread."""
        return self.size.startswith("M")

    @property
    def pitch_diameter(self) -> float:
        """Basic pitch diameter [mm]: major - 0.649519 P (ASME B1.1, ISO 68-1)."""
        return self.major - 0.75 * math.sqrt(3) / 2 * self.pitch

    @property
    def minor_diameter(self) -> float:
        """Basic minor diameter of the nut thread [mm]: major - 1.082532 P (ASME B1.1, ISO 68-1)."""
        return self.major - 1.25 * math.sqrt(3) / 2 * self.pitch

    @property
    def stress_area(self) -> float:
        """Tensile stress area of the bolt [mm2]: pi/4 (d - 0.9743 P)^2 (ASME B1.1).

        ISO 898-1 has 0.9382 P for metric bolts.
        """
        share = 0.9382 if self.metric else 0.9743
        return math.pi / 4 * (self.major - share * self.pitch) ** 2

    def percent(self, hole: float) -> float:
        """Return the percentage of a full thread that a hole leaves [%].

        Parameters
        ----------
        hole
            Diameter of the hole that is tapped [mm].

        Notes
        -----
        100 (major - hole) / (1.299 P), the shop's rule; in inches 0.01299 / tpi
        for each per cent.
        """
        return 100 * (self.major - hole) / (FULL_THREAD * self.pitch)

    def hole(self, percent: float) -> float:
        """Return the hole [mm] that leaves a percentage [%] of a full thread."""
        return self.major - FULL_THREAD * self.pitch * percent / 100


@functools.cache
def threads() -> tuple[Thread, ...]:
    """Return every thread of the tables: unified by size, then metric."""
    made = [
        Thread(
            name=f"{row['size']}-{row['tpi']}",
            series=row["series"],
            size=row["size"],
            major=float(Fraction(row["major"]) * Fraction(254, 10)),
            pitch=float(Fraction(254, 10) / int(row["tpi"])),
        )
        for row in table("threads_unified")
    ]
    made += [
        Thread(
            name=f"{row['size']} x {row['pitch']}",
            series=row["series"],
            size=row["size"],
            major=float(row["size"][1:]),
            pitch=float(row["pitch"]),
        )
        for row in table("threads_metric")
    ]
    return tuple(made)


def find_thread(name: str, where: str) -> Thread:
    """Return the thread of that name.

    Parameters
    ----------
    name
        ``3/8-16``, ``3/8-16 UNC``, ``#10-24``, ``10-24``, ``3/8 UNC``, ``M10`` (coarse),
        ``M10x1.25``.
    where
        Key path or flag, for the message.

    Raises
    ------
    InputError
        Where there is no such thread, with the nearest ones.
    """
    plain = _plain(name)
    found = _by_name().get(plain)
    if found is not None:
        return found
    near = difflib.get_close_matches(plain, list(_by_name()), n=2, cutoff=0.6)
    names = list(dict.fromkeys(_by_name()[one].name for one in near))
    raise InputError(
        where,
        "this is no unified or metric thread of the tables",
        f"write {' or '.join(names) if names else '3/8-16 or M10 x 1.5'}",
        value=name,
    )


def chart_drill(thread: Thread, percent: int = 75) -> Drill | None:
    """Return the drill that a shop chart gives, or ``None`` where it gives none.

    Parameters
    ----------
    thread
        Of the tables.
    percent
        75 or, for unified threads, 50 [%].
    """
    if thread.metric:
        for row in table("tap_drills_metric"):
            if f"{row['size']} x {float(row['pitch']):g}" == thread.name:
                size = float(row["drill"])
                return Drill(name=f"{size:g} mm", series="metric", diameter=size)
        return None
    for row in table("tap_drills_inch"):
        if f"{row['size']}-{row['tpi']}" == thread.name:
            return find_drill(row[f"drill_{percent}"], "chart")
    return None


@functools.cache
def _by_name() -> Mapping[str, Thread]:
    found: dict[str, Thread] = {}
    for one in threads():
        names = [one.name]
        if one.metric and one.series == "coarse":
            names.append(one.size)
        if not one.metric:
            names += [f"{one.name} {one.series}", f"{one.size} {one.series}"]
        for name in names:
            found[_plain(name)] = one
    # '10-24' is '#10-24', but '1 UNC' is an inch.
    for name, one in list(found.items()):
        found.setdefault(name.removeprefix("#"), one)
    return MappingProxyType(found)


@functools.lru_cache(maxsize=256)
def _plain(name: str) -> str:
    text = re.sub(r"[\s\"]", "", name.lower()).replace("\N{MULTIPLICATION SIGN}", "x")
    text = re.sub(r"^no\.?", "#", text)
    metric = re.fullmatch(r"(m[\d.]+)[x-](\d*\.?\d+)", text)
    return f"{metric[1]}x{float(metric[2]):g}" if metric else text
