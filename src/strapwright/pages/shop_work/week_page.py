"""What the page of the week says: jobs with a due date on the days to come."""

from __future__ import annotations

from attrs import evolve, frozen

from strapwright.drawing.bars_and_money.week_drawing import WEEK_PHONE, WEEK_WIDE, week_scene
from strapwright.errors import InputError
from strapwright.pages.shop_work.money_page import shop_money
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan_values import Plan
from strapwright.quantities.day_numbers import day_number
from strapwright.scene.svg import to_svg
from strapwright.service.costing.job_money import day_today, week_for
from strapwright.store import Item
from strapwright.wording.bars_and_money.money_words import hours, job_line, week_line, week_notes


@frozen(kw_only=True)
class WeekView:
    """The week on the page.

    Attributes
    ----------
    line
        What to move, or that all is well.
    late
        Whether something has to be moved.
    notes
        What the plan leaves out.
    rows
        Id of the job, its name, hours, and when it is done.
    wide, narrow
        Drawings.
    """

    line: str
    late: bool
    notes: tuple[str, ...]
    rows: tuple[tuple[str, str, str, str], ...]
    wide: str
    narrow: str


@frozen(kw_only=True)
class DueJobs:
    """The jobs of the shop by their due dates.

    Attributes
    ----------
    due
        Those with a due date to come, planned.
    undated
        Names of those without one.
    wrong
        Sentences on those whose date is past or that cannot be planned.
    """

    due: tuple[tuple[Item, Plan], ...]
    undated: tuple[str, ...]
    wrong: tuple[str, ...]


def due_jobs(shop: Workshop) -> DueJobs:
    """Look through all jobs for due dates, and plan those to come."""
    found, wrong, undated = [], [], []
    today = day_today()
    for item in shop.jobs():
        if not item.sound:
            continue
        text = shop.store.text_of(item.id)
        try:
            part = shop.read(text).part
            due = part.due
            if due is None:
                undated.append(part.name)
                continue
            if day_number(due, "part.due") < today:
                wrong.append(f"{part.name}: its due date {due} is in the past.")
                continue
            found.append((item, shop.plan(text)))
        except InputError as error:
            wrong.append(f"{item.name}: {error.problem}.")
    return DueJobs(due=tuple(found), undated=tuple(undated), wrong=tuple(wrong))


def week_view(shop: Workshop, jobs: DueJobs) -> WeekView:
    """Place jobs on the days to come.

    Raises
    ------
    InputError
        If two have one name, or the rates cannot be read.
    """
    week = week_for([made for _, made in jobs.due], shop_money(shop), day_today())
    week = evolve(week, undated=jobs.undated)
    ids = {made.job.part.name: item.id for item, made in jobs.due}
    return WeekView(
        line=week_line(week),
        late=bool(week.moved),
        notes=week_notes(week),
        rows=tuple(
            (ids[one.job.name], one.job.name, hours(one.job.hours), job_line(one))
            for one in week.placed
        ),
        wide=to_svg(week_scene(week, WEEK_WIDE), None),
        narrow=to_svg(week_scene(week, WEEK_PHONE), None),
    )
