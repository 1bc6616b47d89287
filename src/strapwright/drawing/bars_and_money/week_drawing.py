"""The days to come: a row a job, its hours on each day, and the day it is due."""

from __future__ import annotations

from strapwright.money.week_plan import WeekPlan
from strapwright.quantities.day_numbers import WEEKDAYS, show_day, weekday
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import shorten
from strapwright.scene.primitives import Line, Path, Role, Scene, Shape, Text
from strapwright.wording.bars_and_money.money_words import hours, job_line, late_words, week_line

WEEK_WIDE = Frame(width=1080.0, height=460.0, body=16.0)
WEEK_PHONE = Frame(width=390.0, height=460.0, body=14.0)
MOST_DAYS = 15  # shown; later ones are in the list


def week_scene(week: WeekPlan, frame: Frame = WEEK_WIDE) -> Scene:
    """Draw the days from today on as columns, jobs as rows in the order to do them.

    Parameters
    ----------
    week
        As worked out.
    frame
        Width and type; the height follows from how many jobs there are.
    """
    body = frame.body
    ends = [max(one.finished, one.job.due) for one in week.placed]
    days = min(max(max(ends) - week.today + 1, 5), 8 if frame.narrow else MOST_DAYS)
    left = 1.0 * body
    column = (frame.width - 2 * left) / days
    row = 3.3 * body
    high = 2.6 * body + row * len(week.placed)
    shapes: list[Shape] = []
    for day in range(days):
        x = left + day * column
        number = week.today + day
        shapes.append(Line(start=(x, 0.0), end=(x, high - 1.6 * body), role="grid"))
        name = WEEKDAYS[weekday(number)] if not frame.narrow else WEEKDAYS[weekday(number)][:2]
        date = show_day(number)[-2:].lstrip("0")
        shapes.append(_text((x + column / 2, high - 1.1 * body), f"{name} {date}", body, "label"))
    begun: dict[int, float] = {}
    for number, one in enumerate(week.placed):
        top = high - 2.0 * body - number * row
        words = f"{one.job.name}, {hours(one.job.hours)}"
        if not frame.narrow:
            words = f"{words}: {job_line(one)}"
        elif not one.fits:
            words = f"{words}: {late_words(one)}"
        said = shorten(words, body, frame.width - 2 * left)
        shapes.append(
            Text(
                at=(left, top - body), text=said, size=body,
                role="value" if one.fits else "figure",
            )
        )  # fmt: skip
        low, thick = top - 2.6 * body, 1.15 * body
        for day, done in one.days:
            if day - week.today < days:
                hour = (column - 4) / week.a_day
                x = left + (day - week.today) * column + hour * begun.get(day, 0.0)
                begun[day] = begun.get(day, 0.0) + done
                wide = hour * done
                shapes.append(_box(x + 2, low, wide, thick, "bar" if one.fits else "ghost"))
        due = one.job.due - week.today
        if due < days:
            x = left + (due + 1) * column
            role: Role = "mark" if one.fits else "hatched"
            shapes.append(Line(start=(x, low - 3), end=(x, low + thick + 3), role=role))
    return Scene(
        title="What is done when",
        description=week_line(week),
        bounds=(0.0, 0.0, frame.width, high),
        scale=1.0,
        shapes=tuple(shapes),
    )


def _box(x: float, y: float, wide: float, high: float, role: Role) -> Path:
    corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    return Path(points=corners, role=role, closed=True)


def _text(at: tuple[float, float], said: str, size: float, role: Role) -> Text:
    return Text(at=at, text=said, size=size, role=role, anchor="middle")
