"""What a template prints, read back from the PDF's own vectors: mm from the page's top left."""

from __future__ import annotations

import functools
import io
import itertools
import math
from collections.abc import Iterator
from typing import Any

import pdfplumber
from attrs import define, field

MM = 25.4 / 72.0
# Width [pt] and dash pattern of a line -> what it is on the page.
STROKES = {
    (0.8, ()): "outline",
    (0.6, ()): "nose",
    (0.6, (5, 2)): "sight",
    (0.5, (0.8, 1.8)): "tangent",
    (0.4, ()): "hole",
    (0.3, ()): "leader",
    (0.4, (8, 2, 1, 2)): "join",
    (0.35, ()): "register",
    (0.7, ()): "solid",
    (0.35, (3, 2)): "cut",
}


@define(kw_only=True)
class Drawn:
    """A line with its ends in mm, y down."""

    kind: str
    start: tuple[float, float]
    end: tuple[float, float]

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def upright(self) -> bool:
        return abs(self.start[0] - self.end[0]) < 1e-3

    @property
    def level(self) -> bool:
        return abs(self.start[1] - self.end[1]) < 1e-3


@define(kw_only=True)
class Strip:
    """One tile: places along it still as on the page."""

    page: int
    low: float
    high: float
    ends: list[float] = field(factory=list)
    marks: dict[str, list[float]] = field(factory=dict)
    joins: list[float] = field(factory=list)
    holes: list[tuple[float, float, float]] = field(factory=list)
    reach: tuple[float, float] = (0.0, 0.0)


@functools.lru_cache(maxsize=40)
def open_pdf(pdf: bytes) -> list[Any]:
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        pages = list(document.pages)
        for page in pages:
            page.objects  # noqa: B018  read while the file is open
    return pages


def lines(page: Any) -> Iterator[Drawn]:
    for line in page.lines:
        (x0, y0), (x1, y1) = line["pts"]
        dash = tuple(line["dash"][0]) if line["dash"] else ()
        kind = STROKES[(round(line["linewidth"], 3), dash)]
        yield Drawn(kind=kind, start=(x0 * MM, y0 * MM), end=(x1 * MM, y1 * MM))


def circles(page: Any, width: float) -> Iterator[tuple[float, float, float]]:
    """Centre and radius of circles drawn that wide [pt]."""
    for curve in page.curves:
        if math.isclose(curve["linewidth"], width, abs_tol=1e-3):
            yield (
                (curve["x0"] + curve["x1"]) / 2 * MM,
                (curve["top"] + curve["bottom"]) / 2 * MM,
                (curve["x1"] - curve["x0"]) / 2 * MM,
            )


def strips(pdf: bytes) -> list[Strip]:
    """Read the strips in the order they are printed; bars of one row only."""
    found: list[Strip] = []
    for number, page in enumerate(open_pdf(pdf)):
        drawn = list(lines(page))
        edges = sorted(
            (one for one in drawn if one.kind == "outline" and one.level),
            key=lambda one: one.start[1],
        )
        for upper, lower in zip(edges[::2], edges[1::2], strict=True):
            strip = Strip(page=number, high=upper.start[1], low=lower.start[1])
            strip.reach = (
                min(upper.start[0], upper.end[0]),
                max(upper.start[0], upper.end[0]),
            )
            for one in drawn:
                tops = sorted((one.start[1], one.end[1]))
                if not one.upright or math.dist(tops, (strip.high, strip.low)) > 0.01:
                    continue
                x = one.start[0]
                if one.kind == "outline":
                    strip.ends.append(x)
                elif one.kind == "join":
                    strip.joins.append(x)
                else:
                    strip.marks.setdefault(one.kind, []).append(x)
            strip.holes = [
                hole for hole in circles(page, 0.4) if strip.high - 1 < hole[1] < strip.low + 1
            ]
            found.append(strip)
    return found


def laid_together(found: list[Strip]) -> list[float]:
    """How far each strip's page is moved so that joins lie on joins and end 1 on 0."""
    shifts = [-min(found[0].ends)]
    for before, after in itertools.pairwise(found):
        shifts.append(max(before.joins) + shifts[-1] - min(after.joins))
    return shifts


def gauge_angles(pdf: bytes) -> list[float]:
    """Included angles of the vees [deg], smallest first."""
    found = []
    for page in open_pdf(pdf):
        vees: dict[tuple[float, float], list[Drawn]] = {}
        for one in lines(page):
            if one.kind == "solid" and not one.level and not one.upright:
                corner = max(one.start, one.end, key=lambda at: at[1])
                vees.setdefault((round(corner[0], 2), round(corner[1], 2)), []).append(one)
        for first, second in vees.values():
            found.append(abs(heading(first) - heading(second)))
    return sorted(found)


def heading(one: Drawn) -> float:
    low, high = sorted((one.start, one.end), key=lambda at: -at[1])
    return math.degrees(math.atan2(low[1] - high[1], high[0] - low[0]))
