"""Draw a figure over what varies in a study, a line for each set of what else varies."""

from __future__ import annotations

import math

from strapwright.drawing.curve_axes import round_step
from strapwright.drawing.study_charts.chart_values import Point, Series, StudyChart
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.lettering import text_width
from strapwright.scene.primitives import Anchor, Circle, Line, Path, Role, Scene, Shape, Text

_MOST_LINES = 8  # more are drawn as the band they fill (common practice, no source)
_HALF_CROSS = 5.0  # px
_DOT = 4.5  # px
_BOLD = 1.1  # how much wider bold letters run (measured on the type of the pages)


def study_scene(chart: StudyChart, frame: Frame = WIDE) -> Scene:
    """Draw the chart.

    Parameters
    ----------
    chart
        With one value along the foot at least, and one figure at least.
    frame
        Room for the drawing.

    Returns
    -------
    Scene
        In px; parts that cannot be made are crosses on the foot line.
    """
    return _Sheet(chart, frame).scene()


class _Sheet:
    """From places and figures to the drawing."""

    def __init__(self, chart: StudyChart, frame: Frame) -> None:
        self.chart, self.frame, self.body = chart, frame, frame.body
        ends = [
            end
            for line in chart.series
            for one in line.points
            for end in (one.low, one.high)
            if end is not None
        ]
        least, most = min(ends), max(ends)
        span = max(most - (0.0 if chart.from_zero else least), 1e-3 * max(abs(most), 1.0))
        self.low = 0.0 if chart.from_zero else least - 0.15 * span
        self.high = most + 0.1 * span
        self.many = len(chart.series) > _MOST_LINES
        names = [] if self.many else [line.name for line in chart.series]
        room = max((_BOLD * text_width(name, self.body) for name in names if name), default=0.0)
        self.step = round_step(self.high - self.low, 5)
        self.left = 1.2 * self.body + max(text_width(self._written(tick), self.body)
                                          for tick in self._ticks())  # fmt: skip
        self.foot = 4.6 * self.body
        self.wide = frame.width - self.left - min(room, 0.4 * frame.width) - 1.8 * self.body
        self.tall = frame.height - self.foot - 4.4 * self.body
        self.shapes: list[Shape] = []

    def scene(self) -> Scene:
        self._axes()
        if self.many:
            self._filled()
        else:
            for line in self.chart.series:
                self._line(line)
            self._names()
        self._refused()
        return Scene(
            title=f"{self.chart.title}: {self.chart.head}",
            description=f"{self.chart.head} for {len(self.chart.labels)} values of "
            f"{self.chart.foot}.",
            bounds=(0.0, 0.0, self.frame.width, self.frame.height),
            scale=1.0,
            shapes=tuple(self.shapes),
        )

    def _ticks(self) -> list[float]:
        first, last = math.ceil(self.low / self.step), math.floor(self.high / self.step)
        return [tick * self.step for tick in range(first, last + 1)]

    def _written(self, value: float) -> str:
        places = max(0, -math.floor(math.log10(self.step) + 1e-9))
        places += round(self.step * 10**places, 9) != round(self.step * 10**places)
        return f"{value:.{places}f}"

    def _at(self, place: float, value: float) -> tuple[float, float]:
        share = (place + 0.5) / len(self.chart.labels)
        up = (value - self.low) / (self.high - self.low)
        return (self.left + self.wide * share, self.foot + self.tall * up)

    def _text(
        self, at: tuple[float, float], said: str, role: Role, anchor: Anchor = "start"
    ) -> None:
        self.shapes.append(Text(at=at, text=said, size=self.body, role=role, anchor=anchor))

    def _axes(self) -> None:
        body, chart = self.body, self.chart
        right = self.left + self.wide
        for tick in self._ticks():
            y = self._at(0.0, tick)[1]
            self.shapes.append(Line(start=(self.left, y), end=(right, y), role="grid"))
            self._text(
                (self.left - 0.4 * body, y - 0.35 * body), self._written(tick), "label", "end"
            )
        foot = (self.left, self.foot)
        self.shapes.append(Line(start=foot, end=(right, self.foot), role="paper-rule"))
        widest = max(text_width(one, body) for one in chart.labels)
        each = max(math.ceil((widest + body) * len(chart.labels) / self.wide), 1)
        for place in range(0, len(chart.labels), each):
            x = self._at(place, self.low)[0]
            self._text((x, self.foot - 2.4 * body), chart.labels[place], "label", "middle")
        self._text((right, 0.6 * body), chart.foot, "label", "end")
        self._text((0.4 * body, self.frame.height - 1.3 * body), chart.title, "value")
        self._text((0.4 * body, self.frame.height - 2.8 * body), chart.head, "label")

    def _line(self, line: Series) -> None:
        run: list[tuple[float, float]] = []
        for one in line.points:
            if one.low is None or one.middle is None or one.high is None:
                self._run(run)
                run = []
                continue
            run.append(self._at(one.place, one.middle))
            if one.high > one.low:
                ends = self._at(one.place, one.low), self._at(one.place, one.high)
                self.shapes.append(Line(start=ends[0], end=ends[1], role="stop"))
        self._run(run)

    def _run(self, run: list[tuple[float, float]]) -> None:
        if len(run) > 1:
            self.shapes.append(Path(points=tuple(run), role="curve"))
        self.shapes += [Circle(centre=one, radius=_DOT, role="marker") for one in run]

    def _filled(self) -> None:
        """Fill what many lines cover, place by place."""
        lows, highs = [], []
        for place in range(len(self.chart.labels)):
            here = [point for line in self.chart.series for point in line.points
                    if point.place == place and point.low is not None]  # fmt: skip
            if here:
                lows.append(self._at(place, min(one.low for one in here if one.low is not None)))
                highs.append(self._at(place, max(one.high for one in here if one.high is not None)))
        if len(lows) > 1:
            self.shapes.append(Path(points=(*highs, *lows[::-1]), role="veil", closed=True))
        for low, high in zip(lows, highs, strict=True):
            self.shapes.append(Line(start=low, end=high, role="stop"))
        said = f"lowest to highest of {len(self.chart.series)} lines"
        self._text(
            (self.left + self.wide, self.frame.height - 2.8 * self.body), said, "label", "end"
        )

    def _names(self) -> None:
        """Name each line at its right end, pushed apart where two meet."""
        ends: list[tuple[float, str]] = []
        for line in self.chart.series:
            last = _last(line)
            if line.name and last is not None and last.middle is not None:
                ends.append((self._at(last.place, last.middle)[1], line.name))
        ends.sort()
        x, apart, before = self.left + self.wide + 0.4 * self.body, 1.15 * self.body, -math.inf
        for y, name in ends:
            y_free = max(y - 0.35 * self.body, before + apart)
            self._text((x, y_free), name, "value")
            before = y_free

    def _refused(self) -> None:
        """Cross out on the foot where parts cannot be made, with how many of how many."""
        body = self.body
        any_refused = False
        for place in range(len(self.chart.labels)):
            here = [one for line in self.chart.series for one in line.points if one.place == place]
            refused, of = sum(one.refused for one in here), sum(one.of for one in here)
            if not refused:
                continue
            any_refused = True
            x, y = self._at(place, self.low)[0], self.foot - 0.75 * body
            for way in (1.0, -1.0):
                self.shapes.append(
                    Line(
                        start=(x - _HALF_CROSS, y - way * _HALF_CROSS),
                        end=(x + _HALF_CROSS, y + way * _HALF_CROSS),
                        role="caution",
                    )
                )
            if of > refused:
                self._text((x + 2 * _HALF_CROSS, y - 0.35 * body), f"{refused} of {of}", "label")
        if any_refused:
            self._text((0.4 * body, 0.6 * body), "cross: cannot be made as entered", "label")


def _last(line: Series) -> Point | None:
    return next((one for one in reversed(line.points) if one.middle is not None), None)
