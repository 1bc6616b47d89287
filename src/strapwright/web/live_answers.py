"""What the live module asks while somebody types: the drawing first, what follows from it next."""

from __future__ import annotations

from typing import Any, cast

from attrs import asdict
from fastapi import APIRouter, Depends, HTTPException, Request

from strapwright.errors import InputError
from strapwright.pages.edited_job import Desk, desk_of
from strapwright.pages.fields.form_fields import Page
from strapwright.pages.workshop import Workshop
from strapwright.store import Conflict
from strapwright.web.field_pages import save_over
from strapwright.web.job_view import drawing, pieces
from strapwright.web.rendering import who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, attended, number_in

router = APIRouter(prefix="/live", dependencies=[Depends(attended)])


@router.post("/{job}/{name}/{stage}")
def live(
    request: Request, name: str, stage: str, opened: Opened, shop: Shop, typed: Typed
) -> dict[str, Any]:
    """Answer one stage: ``drawing``, ``rest``, ``careful`` (words at their best) or ``save``."""
    if name not in ("part", "bar", "press", "tooling", "strength"):
        raise HTTPException(404)
    base = number_in(typed, "base", opened.version)
    desk = desk_of(shop, opened, cast("Page", name), typed, base)
    if stage in ("drawing", "careful"):
        return _drawing(shop, desk, typed.get("size", "wide"), hurried=stage == "drawing")
    if stage == "rest":
        shop.keep_draft(opened.item.id, who_asks(request), base, desk.mine, desk.own)
        return {"pieces": pieces(shop, desk), "sound": desk.trouble is None}
    if stage == "save":
        return _save(shop, desk, who_asks(request))
    raise HTTPException(404)


def _drawing(shop: Workshop, desk: Desk, size: str, *, hurried: bool) -> dict[str, Any]:
    answer: dict[str, Any] = {
        "fields": {name: [note.other, note.wrong] for name, note in desk.notes.items()},
        "state": "fresh" if desk.trouble is None else "wrong",
    }
    if desk.form.page == "part" and desk.trouble is None:
        picture, state = drawing(
            shop, desk, "phone" if size == "phone" else "wide", hurried=hurried
        )
        answer["state"] = state
        if picture is not None and state == "fresh":
            answer["drawing"] = {
                "svg": picture.svg,
                "width": picture.width,
                "handles": [asdict(handle) for handle in picture.handles],
            }
    return answer


def _save(shop: Workshop, desk: Desk, who: str) -> dict[str, Any]:
    job = desk.opened.item.id
    if desk.trouble is None:
        try:
            number = save_over(shop, desk, desk.text, who)
        except (Conflict, InputError) as error:
            shop.keep_draft(job, who, desk.base, desk.mine, desk.own)
            return {
                "saved": 0,
                "pieces": {"elsewhere": pieces(shop, desk)["elsewhere"]},
                "said": str(error),
            }
        return {"saved": number}
    shop.keep_draft(job, who, desk.base, desk.mine, desk.own)
    return {"saved": 0}
