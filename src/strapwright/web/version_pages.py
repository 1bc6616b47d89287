"""Undo, and every saved version of a job."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from strapwright.pages.edited_job import plan_or_said
from strapwright.pages.sittings import sittings
from strapwright.store import Conflict
from strapwright.web.job_view import head
from strapwright.web.rendering import go, page, who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, number_in

router = APIRouter(prefix="/jobs/{job}")
_PAGES = ("part", "bar", "press", "tooling", "bends", "print", "strength", "propose", "making")


@router.post("/undo")
def undo(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Go back one version; what is typed and not saved goes first."""
    job = opened.item.id
    where = typed.get("page", "part")
    here = f"/jobs/{job}/{where if where in _PAGES else 'part'}"
    back = shop.before(job)
    shop.drop_draft(job, who_asks(request))
    if back is not None:
        try:
            shop.restore(job, back, number_in(typed, "version", opened.version), who_asks(request))
        except Conflict:
            return go(f"/jobs/{job}/history")
    return go(here)


@router.get("/history")
def history(request: Request, opened: Opened, shop: Shop) -> Response:
    """List the saved versions, a sitting at a time."""
    made, _ = plan_or_said(shop, opened.text)
    values = {
        **head(shop, opened, "history", made),
        "sittings": sittings(shop, opened),
    }
    return page(request, "history.html", values)


@router.post("/restore")
def restore(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Make an old version current again, as a new one."""
    number = number_in(typed, "number", 0)
    if 0 < number <= opened.version:
        try:
            base = number_in(typed, "version", opened.version)
            shop.restore(opened.item.id, number, base, who_asks(request))
        except Conflict:
            return go(f"/jobs/{opened.item.id}/history")
    return go(f"/jobs/{opened.item.id}/part")
