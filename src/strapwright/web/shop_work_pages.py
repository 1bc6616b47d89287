"""The cut plan of the shop, its week, and what a job costs."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.errors import InputError, StrapwrightError
from strapwright.pages.edited_job import plan_or_said, settled_plan
from strapwright.pages.page_statements import told
from strapwright.pages.shelves import kept
from strapwright.pages.shop_work.cut_page import (
    MOST_JOBS,
    can_be_unsawn,
    choosable,
    cut_list,
    cut_view,
    order_of,
    sawn,
    unsawn,
)
from strapwright.pages.shop_work.money_page import (
    MONEY_FIELDS,
    QUOTE_FIELDS,
    TODAY_FIELDS,
    field_notes,
    logged_times_line,
    payback_view,
    price_view,
    quote_of,
)
from strapwright.pages.shop_work.week_page import due_jobs, week_view
from strapwright.service.costing.job_money import refuse_half_priced
from strapwright.store import Conflict, Missing
from strapwright.web.downloads import given
from strapwright.web.job_view import head
from strapwright.web.rendering import go, page
from strapwright.web.route_helpers import Opened, Shop, Typed, attended, number_in

router = APIRouter(dependencies=[Depends(attended)])
_LONGEST = 80  # characters of a setting


@router.get("/cut")
def cut_page(request: Request, shop: Shop) -> Response:
    """Show the cut plan of the jobs chosen."""
    return _cut(request, shop)


@router.get("/cut.csv")
def cut_csv(request: Request, shop: Shop) -> Response:
    """Give the cut list of the jobs chosen."""
    try:
        raw = cut_list(order_of(shop, _jobs(request))).encode()
    except Missing as error:
        raise HTTPException(404) from error
    return given("cuts.csv", raw, "text/csv; charset=utf-8", keep=True)


@router.post("/cut/sawn")
def cut_sawn(request: Request, shop: Shop, typed: Typed) -> Response:
    """Bring the rack up to date."""
    jobs = [one for one in typed.get("jobs", "").split() if one][:MOST_JOBS]
    try:
        version = sawn(shop, jobs, number_in(typed, "base", -1), typed.get("mark", ""))
    except StrapwrightError as error:
        said = told(error) if isinstance(error, InputError) else str(error)
        return _cut(request, shop, jobs, said)
    return go(f"/cut?sawn={version}")


@router.post("/cut/undo")
def cut_undo(request: Request, shop: Shop, typed: Typed) -> Response:
    """Put the rack back."""
    try:
        unsawn(shop, number_in(typed, "version", 0))
    except Conflict:
        return _cut(request, shop, [], "The rack was changed since the cut; change it by hand.")
    except InputError as error:
        return _cut(request, shop, [], told(error))
    return go("/rack")


def _jobs(request: Request) -> list[str]:
    return list(dict.fromkeys(request.query_params.getlist("job")))[:MOST_JOBS]


def _cut(request: Request, shop: Shop, jobs: list[str] | None = None, said: str = "") -> Response:
    chosen = _jobs(request) if jobs is None else jobs
    version = request.query_params.get("sawn", "")
    now = int(version) if version.isdecimal() and len(version) < 7 else None
    values: dict[str, Any] = {
        "jobs": choosable(shop),
        "chosen": chosen,
        "said": said,
        "cut": None,
        "base": kept(shop, "rack").version,
        "sawn": now if now and can_be_unsawn(shop, now) else 0,
        "as_before": now == 0,
        "query": urlencode([("job", one) for one in chosen]),
        "rack": bool(kept(shop, "rack").id),
    }
    if chosen and not said:
        try:
            values["cut"] = cut_view(shop, order_of(shop, chosen))
        except Missing as error:
            raise HTTPException(404) from error
        except InputError as error:
            place = error.where if error.where not in ("rack", "rates", "jobs") else ""
            values["said"] = f"{place}: {told(error)}" if place else told(error)
    return page(request, "cut.html", values, 422 if values["said"] else 200)


@router.get("/week")
def week_page(request: Request, shop: Shop) -> Response:
    """Show what is finished by when."""
    jobs = due_jobs(shop)
    values: dict[str, Any] = {"week": None, "left_out": jobs.wrong, "said": "", "logged": ""}
    try:
        if jobs.due:
            values["week"] = week_view(shop, jobs)
            values["logged"] = logged_times_line(shop)
    except InputError as error:
        values["said"] = told(error)
    return page(request, "week.html", values)


@router.get("/jobs/{job}/money")
def money_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show hours, prices and payback."""
    made, refusal = plan_or_said(shop, opened.text)
    typed = _typed(request)
    values: dict[str, Any] = {
        **head(shop, opened, "print", made),
        "undo_page": "money",
        "refusal": refusal,
        "quote_fields": QUOTE_FIELDS,
        "today_fields": TODAY_FIELDS,
        "typed": typed,
        "price": None,
        "payback": None,
        "logged": "",
        "has_tooling": made is not None and made.job.tooling is not None,
        "query": f"?{urlencode(typed)}" if typed else "",
    }
    wrong: list[InputError] = []
    if made is not None:
        try:
            values["price"] = price_view(quote_of(shop, made, typed))
            values["logged"] = logged_times_line(shop)
        except InputError as error:
            wrong.append(error)
        if values["has_tooling"] and any(typed.get(one.name) for one in TODAY_FIELDS):
            try:
                values["payback"] = payback_view(shop, made, typed)
            except InputError as error:
                wrong.append(error)
    values["notes"], others = field_notes(typed, wrong)
    # Prices and payback lack the same rate; it is said once.
    values["price_said"] = list(dict.fromkeys(told(one) for one in others))
    return page(request, "money.html", values)


@router.get("/jobs/{job}/money/quote.pdf")
def quote_pdf(request: Request, opened: Opened, shop: Shop) -> Response:
    """Give the sheet for the customer."""
    from strapwright.sheets.quote_sheet import quote_sheet  # noqa: PLC0415  typesetting

    made, refusal = settled_plan(shop, opened)
    if made is None:
        raise HTTPException(404, "" if refusal is None else refusal.text)
    quote = quote_of(shop, made, _typed(request))
    refuse_half_priced(quote)
    raw = quote_sheet(
        quote.job, quote.lots, quote.rates, customer=quote.customer, issued=quote.issued,
        valid=quote.valid,
    )  # fmt: skip
    stem = opened.item.file.removesuffix(".toml")
    return given(f"{stem} quote.pdf", raw, "application/pdf", keep=False)


def _typed(request: Request) -> dict[str, str]:
    return {
        field.name: request.query_params[field.name][:_LONGEST]
        for field in MONEY_FIELDS
        if request.query_params.get(field.name, "").strip()
    }
