"""What the page of the week says: jobs with a due date on the days to come."""

from __future__ import annotations

from attrs import frozen

from strapwright.drawing.bars_and_money.week_drawing import WEEK_PHONE, WEEK_WIDE, week_scene
from strapwright.errors import InputError
from strapwright.pages.shop_work.money_page import shop_money
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan_values import Plan
from strapwright.quantities.day_numbers import day_number
from strapwright.scene.svg import to_svg
from strapwright.service.job_money import day_today, week_for
from strapwright.store import Item
from strapwright.wording.bars_and_money.money_words import hours, job_line, week_line


@frozen(kw_only=True)
class WeekView:
    """The week on the page.

    Attributes
    ----------
    line
        What to move, or that all is well.
    late
        Whether something has to be moved.
    rows
        Id of the job, its name, hours, and when it is done.
    wide, narrow
        Drawings.
    """

    line: str
    late: bool
    rows: tuple[tuple[str, str, str, str], ...]
    wide: str
    narrow: str


def due_jobs(shop: Workshop) -> tuple[list[tuple[Item, Plan]], list[str]]:
    """Return the jobs that have a due date to come, planned; and sentences on those left out."""
    found, said = [], []
    today = day_today()
    for item in shop.recent():
        if not item.sound:
            continue
        text = shop.store.text_of(item.id)
        try:
            due = shop.read(text).part.due
            if due is None:
                continue
            if day_number(due, "part.due") < today:
                said.append(f"{item.name}: its due date {due} is in the past.")
                continue
            found.append((item, shop.plan(text)))
        except InputError as error:
            said.append(f"{item.name}: {error.problem}.")
    return found, said


def week_view(shop: Workshop, jobs: list[tuple[Item, Plan]]) -> WeekView:
    """Place jobs on the days to come.

    Raises
    ------
    InputError
        If two have one name, or the rates cannot be read.
    """
    week = week_for([made for _, made in jobs], shop_money(shop), day_today())
    ids = {made.job.part.name: item.id for item, made in jobs}
    return WeekView(
        line=week_line(week),
        late=bool(week.moved),
        rows=tuple(
            (ids[one.job.name], one.job.name, hours(one.job.hours), job_line(one))
            for one in week.placed
        ),
        wide=to_svg(week_scene(week, WEEK_WIDE), None),
        narrow=to_svg(week_scene(week, WEEK_PHONE), None),
    )
