"""Bar lots, presses and tooling of the shop; the batch, the trial bend and the bar of a job."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages.edited_job import plan_or_said
from strapwright.pages.page_statements import told
from strapwright.pages.shop_work.bar_odds_page import (
    FIRST_OF_ALL,
    bench_fields,
    odds_view,
    trial_view,
)
from strapwright.pages.shop_work.batch_page import batch_view
from strapwright.pages.shop_work.learned_page import learned_view
from strapwright.pages.shop_work.lots_page import do_with_lot, lots_view
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.planning.plan_values import Plan
from strapwright.web.job_view import head
from strapwright.web.rendering import go, own_view, page, who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed

router = APIRouter()
_LONGEST = 300  # characters of what is said to be done


@router.get("/lots")
def lots(request: Request, shop: Shop, done: str = "") -> Response:
    """Show lots, presses and tooling with where they are used."""
    values = {"view": lots_view(shop), "said": "", "done": done[:_LONGEST], "typed": {}}
    return page(request, "lots.html", values)


@router.post("/lots")
def change_lots(request: Request, shop: Shop, typed: Typed) -> Response:
    """Make, merge, split or retire one."""
    try:
        done = do_with_lot(shop, typed, who_asks(request))
    except InputError as error:
        values = {"view": lots_view(shop), "said": told(error), "done": "", "typed": dict(typed)}
        return page(request, "lots.html", values, 422)
    return go(f"/lots?{urlencode({'done': done})}")


@router.get("/jobs/{job}/log/chart")
def chart(request: Request, opened: Opened, shop: Shop, bend: int = 1) -> Response:
    """Show one bend over the parts of the batch."""
    made = _sound(shop, opened)
    if made is None:
        return go(f"/jobs/{opened.item.id}/bends")
    values = _values(request, shop, opened, made, bend)
    try:
        values["batch"] = batch_view(shop, opened, made.job, bend)
    except InputError as error:
        values["said"] = told(error)
    return page(request, "chart.html", values, 422 if values["said"] else 200)


@router.get("/jobs/{job}/log/learned")
def learned(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show what the log taught of bar lot, press and tooling."""
    made = _sound(shop, opened)
    if made is None:
        return go(f"/jobs/{opened.item.id}/bends")
    values = {**_values(request, shop, opened, made, 1), "view": None}
    try:
        values["view"] = learned_view(shop, opened, made.job, own_view(request))
    except InputError as error:
        values["said"] = told(error)
    return page(request, "learned.html", values, 422 if values["said"] else 200)


@router.get("/jobs/{job}/log/trial")
def trial(request: Request, opened: Opened, shop: Shop, bend: int = 1) -> Response:
    """Show which trial bend tells most."""
    made = _sound(shop, opened)
    if made is None:
        return go(f"/jobs/{opened.item.id}/bends")
    values = _values(request, shop, opened, made, bend)
    try:
        values["trial"] = trial_view(shop, opened, made.job, bend, own_view(request))
    except InputError as error:
        values["said"] = told(error)
    return page(request, "trial.html", values, 422 if values["said"] else 200)


@router.get("/jobs/{job}/log/bar")
def unknown_bar(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show what the bar of a job may be."""
    made = _sound(shop, opened)
    if made is None:
        return go(f"/jobs/{opened.item.id}/bends")
    fields = bench_fields()
    shown = {one.name: request.query_params.get(one.name, "") for one in fields}
    values = {
        **_values(request, shop, opened, made, 1),
        "fields": fields,
        "shown": shown,
        "odds": None,
    }
    values["first"] = ""
    try:
        values["odds"] = odds_view(shop, opened, made.job, shown)
    except InputError as error:
        values["said"] = told(error)
        values["first"] = FIRST_OF_ALL
    return page(request, "unknown_bar.html", values, 422 if values["said"] else 200)


def _sound(shop: Workshop, opened: OpenJob) -> Plan | None:
    """Return the plan of a job that has bends on tooling; without them nothing is compared."""
    made, _ = plan_or_said(shop, opened.text, order_alone=True)
    return made if made is not None and made.job.tooling is not None and made.steps else None


def _values(
    request: Request, shop: Workshop, opened: OpenJob, made: Plan, bend: int
) -> dict[str, Any]:
    return {
        **head(shop, opened, "log", made, own_view(request)),
        "bends": [number for number, _ in enumerate(made.job.part.bends, start=1)],
        "bend": bend,
        "batch": None,
        "trial": None,
        "said": "",
    }
