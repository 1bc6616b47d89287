"""Make the tooling: every piece drawn, its holes, cutters and steps; sheets and DXF of them."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.making.plate_values import ESTIMATE
from strapwright.pages.edited_job import Note, plan_or_said
from strapwright.pages.fields.form_fields import other_unit
from strapwright.pages.making_page import SETTINGS, made_of, making, settings_wrong
from strapwright.pages.page_statements import on_page, place_name, refused, told
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.report.json_text import to_text
from strapwright.report.making_json import making_to_data
from strapwright.report.making_text import making_to_text
from strapwright.service.several_dies.shared_making import Change, card_file, change_between
from strapwright.service.tooling_files import drawing_file
from strapwright.web.downloads import given
from strapwright.web.job_view import head
from strapwright.web.rendering import page
from strapwright.web.route_helpers import Opened, Shop, attended, job_of

router = APIRouter(prefix="/jobs/{job}/making", dependencies=[Depends(attended)])
_NAMES = tuple(field.name for field in SETTINGS)
_LONGEST = 40  # characters of a setting


@router.get("")
def making_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show everything to make."""
    made, _ = plan_or_said(shop, opened.text)
    typed = _typed(request)
    values: dict[str, Any] = {
        **head(shop, opened, "tooling", made),
        "undo_page": "making",
        "about": "making",
        "estimate": ESTIMATE,
        "fields": SETTINGS,
        "typed": typed,
        "notes": {},
        "refusal": None,
        "making": None,
        "query": f"?{urlencode(typed)}" if typed else "",
    }
    try:
        job = shop.read(opened.text)
        wrong = settings_wrong(typed, job.units)
        values["notes"] = {
            field.name: Note(
                other=""
                if field.name in wrong
                else other_unit(field, typed.get(field.name, ""), job.units),
                wrong=wrong.get(field.name, ""),
            )
            for field in SETTINGS
        }
        values["making"] = making(made_of(shop, opened.text, typed), on_page(job))
    except InputError as error:
        values["refusal"] = refused(error)
    return page(request, "making.html", values)


@router.get("/change")
def change_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show how the press is changed to this tooling from that of another job."""
    made, _ = plan_or_said(shop, opened.text)
    values: dict[str, Any] = {
        **head(shop, opened, "tooling", made),
        "undo_page": "making",
        "about": "making",
        "others": [item for item in shop.recent() if item.id != opened.item.id and item.sound],
        "before": request.query_params.get("before", ""),
        "said": "",
        "card": None,
    }
    if values["before"]:
        try:
            values["card"] = _change(request, opened, shop)[1]
        except InputError as error:
            values["said"] = f"{place_name(error.place)}: {told(error)}"
    return page(request, "change.html", values, 422 if values["said"] else 200)


@router.get("/change.pdf")
def change_pdf(request: Request, opened: Opened, shop: Shop) -> Response:
    """Give the card of a change."""
    raw = card_file(*_change(request, opened, shop))
    stem = opened.item.file.removesuffix(".toml")
    return given(f"{stem} change.pdf", raw, "application/pdf", keep=False)


def _change(request: Request, opened: OpenJob, shop: Workshop) -> Change:
    before = job_of(request, request.query_params.get("before", ""))
    return change_between(
        (before.item.name, shop.read(before.text)), (opened.item.name, shop.read(opened.text))
    )


@router.get("/{name}")
def download(request: Request, name: str, opened: Opened, shop: Shop) -> Response:
    """Give one file by its name among those there are."""
    made = made_of(shop, opened.text, _typed(request))
    stem = opened.item.file.removesuffix(".toml")
    if name == "making.pdf":
        from strapwright.sheets.making_sheet import making_sheet  # noqa: PLC0415  typesetting

        return given(f"{stem} {name}", making_sheet(made), "application/pdf", keep=False)
    if name == "making.txt":
        raw = making_to_text(made).encode()
        return given(f"{stem} {name}", raw, "text/plain; charset=utf-8", keep=True)
    if name == "making.json":
        raw = to_text(making_to_data(made)).encode()
        return given(f"{stem} {name}", raw, "application/json", keep=True)
    drawing = drawing_file(made, name)
    if drawing is None:
        raise HTTPException(404)
    return given(f"{stem} {name}", drawing, "image/vnd.dxf", keep=True)


def _typed(request: Request) -> dict[str, str]:
    return {
        name: request.query_params[name][:_LONGEST]
        for name in _NAMES
        if request.query_params.get(name, "").strip()
    }
