"""Does the tooling hold?  Every member, the weakest first, beside the fields of the members."""

from __future__ import annotations

from attrs import evolve
from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages.apply_fix import with_fix
from strapwright.pages.edited_job import Desk, desk_of, plan_or_said
from strapwright.pages.fields.form_changes import apply_action
from strapwright.pages.fields.member_fields import ROOT, count_of
from strapwright.pages.form import raw_job
from strapwright.pages.page_statements import told
from strapwright.pages.strength_page import check_text
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.report.json_text import to_text
from strapwright.report.tooling_text import checked_to_data, checked_to_text
from strapwright.store import Conflict
from strapwright.web.downloads import given
from strapwright.web.field_pages import save_over
from strapwright.web.job_view import head
from strapwright.web.rendering import go, page, remembered, who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, attended, number_in
from strapwright.web.strength_view import groups, strength_values

router = APIRouter(prefix="/jobs/{job}", dependencies=[Depends(attended)])


@router.get("/strength")
def strength_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show how every member stands its load."""
    return _shown(request, opened, shop)


@router.post("/strength")
def change_members(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Save the members as typed, or with the change that fixes one."""
    who = who_asks(request)
    action = typed.get("do", "save")
    here = f"/jobs/{opened.item.id}/strength"
    if action == "drop":
        shop.drop_draft(opened.item.id, who)
        return go(here)
    desk = desk_of(shop, opened, "strength", typed, number_in(typed, "base", opened.version), who)
    if action == "over":
        desk = evolve(desk, base=opened.version)
    word, _, about = action.partition(":")
    try:
        if desk.trouble is not None and word not in ("drop-weld", "drop-bolt"):
            raise desk.trouble
        if word == "fix":
            text, order = with_fix(shop, desk.text, about)
            save_over(shop, desk, text, who, order[:200])
        else:
            save_over(shop, desk, apply_action(desk.text, action), who)
    except Conflict:
        shop.keep_draft(opened.item.id, who, desk.base, desk.mine, desk.own)
    except InputError as error:
        shop.keep_draft(opened.item.id, who, desk.base, desk.mine, desk.own)
        if error is not desk.trouble:
            return _shown(request, opened, shop, said=told(error))
    return remembered(request, go(f"{here}{_anchor(shop, opened, word)}"))


@router.get("/strength/strength.{kind}")
def download(kind: str, opened: Opened, shop: Shop) -> Response:
    """Give the whole calculation, or plate and proof load, as a file."""
    kinds = {
        "txt": "text/plain; charset=utf-8",
        "json": "application/json",
        "pdf": "application/pdf",
    }
    if kind not in kinds:
        raise HTTPException(404)
    checked = check_text(shop, opened.text)
    if kind == "txt":
        raw = checked_to_text(checked, every=True).encode()
    elif kind == "json":
        raw = to_text(checked_to_data(checked)).encode()
    else:
        from strapwright.sheets.rating_sheet import rating_sheet  # noqa: PLC0415  typesetting

        raw = rating_sheet(checked.plan, checked.bench, checked.assessment)
    stem = opened.item.file.removesuffix(".toml")
    return given(f"{stem} strength.{kind}", raw, kinds[kind], keep=kind != "pdf")


def _anchor(shop: Workshop, opened: OpenJob, word: str) -> str:
    """Where on the page to go on: a field of what was added, which the browser opens."""
    if word not in ("add-weld", "add-bolt"):
        return "#weakest" if word == "fix" else ""
    key = word.removeprefix("add-")
    raw = raw_job(shop.open(opened.item.id).text)
    return f"#{ROOT}.{key}[{count_of(raw, key)}].holds"


def _shown(request: Request, opened: OpenJob, shop: Workshop, said: str = "") -> Response:
    desk = _desk(request, opened, shop)
    made, _ = plan_or_said(shop, opened.text)
    values = {
        **strength_values(shop, desk),
        **head(shop, opened, "tooling", made),
        "groups": groups(desk),
        "undo_page": "strength",
        "about": "strength",
        "said": said[:1].upper() + said[1:],
    }
    return page(request, "strength.html", values, 422 if said else 200)


def _desk(request: Request, opened: OpenJob, shop: Workshop) -> Desk:
    draft = shop.draft(opened.item.id, who_asks(request))
    typed = {} if draft is None else draft.fields
    base = opened.version if draft is None or draft.base is None else draft.base
    return desk_of(shop, opened, "strength", typed, base, who_asks(request))
