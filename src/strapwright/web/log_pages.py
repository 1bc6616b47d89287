"""The log at the press."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import PlainTextResponse, Response

from strapwright.pages import log_page, refused_page
from strapwright.pages.edited_job import plan_or_said
from strapwright.pages.shop_work import log_lines_page
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.service.shop_log.log_text import log_to_csv
from strapwright.web.job_view import head
from strapwright.web.rendering import go, own_view, page
from strapwright.web.route_helpers import Opened, Shop, Typed, number_in

router = APIRouter(prefix="/jobs/{job}")
_LONGEST = 100  # characters of what is said to be kept


@router.get("/log")
def log_screen(
    request: Request, opened: Opened, shop: Shop, part: int = 0, bend: int = 0, kept: str = ""
) -> Response:
    """Show the screen of the bend that is at the press."""
    return _screen(request, opened, shop, part, bend, {"kept": kept[:_LONGEST]})


@router.post("/log")
def keep_reading(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Keep a reading and go on to the next bend, or ask about it."""
    part, bend = number_in(typed, "part", 0), number_in(typed, "bend", 0)
    found = log_page.keep(shop, opened, typed, part, bend, own_view(request))
    if isinstance(found, log_page.Asked):
        return _screen(
            request,
            opened,
            shop,
            part,
            bend,
            {"typed": typed, "asked": found.questions, "wrong": found.wrong},
        )
    said = urlencode({"kept": log_page.kept_words(found, own_view(request))})
    return go(f"/jobs/{opened.item.id}/log?{said}")


@router.get("/log.csv")
def table(opened: Opened, shop: Shop) -> Response:
    """Give the log of a job as a table."""
    return PlainTextResponse(
        log_to_csv(shop.store.log.lines(opened.item.id)),
        media_type="text/csv",
        headers={"Content-Disposition": 'attachment; filename="log.csv"'},
    )


@router.get("/log/lines")
def lines(request: Request, opened: Opened, shop: Shop, line: int = 0, kept: int = 0) -> Response:
    """Show every line of the log, and the form to correct one."""
    return _lines(request, opened, shop, line, {"kept": kept})


@router.post("/log/lines")
def correct_line(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Correct a line, leave it out, or count it again."""
    number = number_in(typed, "line", 0)
    found = log_lines_page.correct(shop, opened, number, typed)
    if found is not None:
        more = {"typed": typed, "asked": found.questions, "wrong": found.wrong}
        return _lines(request, opened, shop, number, more, 422 if found.wrong else 200)
    return go(f"/jobs/{opened.item.id}/log/lines?kept={number}")


def _lines(
    request: Request,
    opened: OpenJob,
    shop: Workshop,
    number: int,
    more: dict[str, Any],
    status: int = 200,
) -> Response:
    made, _ = plan_or_said(shop, opened.text, order_alone=True)
    view = log_page.view_of(more.get("typed"), own_view(request))
    values = {
        **head(shop, opened, "log", made, view),
        "typed": {},
        "asked": (),
        "wrong": "",
        "kept": 0,
        **more,
    }
    values["view"] = log_lines_page.log_lines(shop, opened, number, values["typed"], view)
    return page(request, "log_lines.html", values, status)


def _screen(
    request: Request,
    opened: OpenJob,
    shop: Workshop,
    part: int,
    bend: int,
    more: dict[str, Any],
) -> Response:
    made, _ = plan_or_said(shop, opened.text, order_alone=True)
    # A part that cannot be made as stated is not bent, so nothing is read of it: its page of bends
    # says why.
    if made is None or not made.steps or not refused_page.can_be_played(made):
        return go(f"/jobs/{opened.item.id}/bends")
    now = log_page.turn(shop, opened, made, part, bend)
    view = log_page.view_of(more.get("typed"), own_view(request))
    values = {
        **head(shop, opened, "log", made, view),
        "typed": {},
        "asked": (),
        "wrong": "",
        "kept": "",
        **more,
        "screen": None,
        "after": None,
    }
    if now is not None:
        values["screen"] = log_page.screen(shop, opened, made, now, view)
        values["after"] = log_page.after(made, now)
    return page(request, "log.html", values)
