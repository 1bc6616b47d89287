"""What the live module asks while somebody types: the drawing first, what follows from it next."""

from __future__ import annotations

import re
from typing import Any, cast

from attrs import asdict
from fastapi import APIRouter, Depends, HTTPException, Request

from strapwright.errors import InputError
from strapwright.pages.edited_job import Desk, desk_of, says
from strapwright.pages.fields.form_fields import Page
from strapwright.pages.fields.part_picture import Size
from strapwright.pages.sharing.who_looks import OWN_MACHINE, also_looking
from strapwright.pages.workshop import Workshop
from strapwright.store import Conflict
from strapwright.web.field_pages import save_over
from strapwright.web.job_view import drawing, pieces
from strapwright.web.rendering import who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, attended, number_in

router = APIRouter(prefix="/live", dependencies=[Depends(attended)])
_TAB = re.compile(r"[0-9a-f]{8,32}")  # as follow.js makes them
_SCALE = re.compile(r"[0-9]{1,4}\.[0-9]{1,9}")  # px/mm
_TURN = 15  # digits of what grows with each thing a tab sends: milliseconds since 1970


@router.get("/{job}/now")
def now(
    request: Request, opened: Opened, shop: Shop, tab: str = "", left: str = ""
) -> dict[str, int | str]:
    """Say what is current of a job and who else looks at it; a page that asks is looked at."""
    job, device = opened.item.id, getattr(request.state, "device", None)
    number = "" if device is None else device.id
    if left:
        shop.lookers.left(job, tab)
    elif _TAB.fullmatch(tab):
        shop.lookers.here(job, tab, number, OWN_MACHINE if device is None else device.name)
    return {
        "version": opened.version,
        "readings": shop.store.log.states_kept(job),
        "searched": shop.seeking.ends(job),
        "others": also_looking(shop.lookers.others(job, number)),
    }


@router.post("/{job}/{name}/{stage}")
def live(
    request: Request, name: str, stage: str, opened: Opened, shop: Shop, typed: Typed
) -> dict[str, Any]:
    """Answer one stage: ``drawing``, ``rest``, ``careful`` (words at their best) or ``save``."""
    if name not in ("part", "bar", "press", "tooling", "strength"):
        raise HTTPException(404)
    if stage == "save":
        return _save(shop, opened.item.id, cast("Page", name), typed, who_asks(request))
    base = number_in(typed, "base", opened.version)
    who = who_asks(request)
    desk = desk_of(shop, opened, cast("Page", name), typed, base, who)
    if stage in ("drawing", "careful"):
        return {
            **_drawing(shop, desk, typed, hurried=stage == "drawing"),
            "follows": _follows(desk, typed),
        }
    if stage == "rest":
        if not _late(shop, opened.item.id, who, typed, to_save=False):
            shop.keep_draft(opened.item.id, who, desk.base, desk.mine, desk.own)
        return {"pieces": pieces(shop, desk), "sound": desk.trouble is None}
    raise HTTPException(404)


def _late(shop: Workshop, job: str, who: str, typed: Typed, *, to_save: bool) -> bool:
    turn = number_in(typed, "turn", 0, digits=_TURN)
    tab = typed.get("tab", "")[:40]
    return shop.browsers.is_late(job, who, tab, turn, to_save=to_save)


def _follows(desk: Desk, typed: Typed) -> dict[str, Any]:
    """Say what was saved in another tab since: fields that nobody touched here follow it."""
    if desk.differences or typed.get("shape.count") not in (None, str(len(desk.form.shape))):
        return {"version": desk.opened.version, "again": not desk.mine}
    values = {
        field.name: desk.form.values.get(field.name, "")
        for field in desk.form.fields
        if field.name in typed
        and field.name not in desk.mine
        and not says(desk.form, field, typed[field.name])
    }
    return {"version": desk.opened.version, "base": desk.base, "values": values}


def _scale(typed: Typed) -> float | None:
    """Scale of the drawing that the page shows, ``None`` where it tells none that can be."""
    said = typed.get("scale", "")
    return float(said) if _SCALE.fullmatch(said) and float(said) > 0 else None


def _drawing(shop: Workshop, desk: Desk, typed: Typed, *, hurried: bool) -> dict[str, Any]:
    answer: dict[str, Any] = {
        "fields": {name: [note.other, note.wrong] for name, note in desk.notes.items()},
        "state": "fresh" if desk.trouble is None else "wrong",
    }
    if desk.form.page == "part" and desk.trouble is None:
        size: Size = "phone" if typed.get("size") == "phone" else "wide"
        picture, state = drawing(shop, desk, size, hurried=hurried, near=_scale(typed))
        answer["state"] = state
        if picture is not None and state == "fresh":
            answer["drawing"] = {
                "svg": picture.svg,
                "width": picture.width,
                "scale": f"{picture.scale:.6f}",
                "handles": [asdict(handle) for handle in picture.handles],
            }
    return answer


def _save(shop: Workshop, job: str, page: Page, typed: Typed, who: str) -> dict[str, Any]:
    if _late(shop, job, who, typed, to_save=True):
        return {"saved": 0}
    for again in (True, False):
        opened = shop.open(job)
        desk = desk_of(shop, opened, page, typed, number_in(typed, "base", opened.version), who)
        try:
            if desk.trouble is None:
                return {"saved": save_over(shop, desk, desk.text, who)}
        except Conflict:
            if again:  # another tab of this browser may have been quicker
                continue
        except InputError:
            pass
        break
    shop.keep_draft(job, who, desk.base, desk.mine, desk.own)
    return {"saved": 0, "pieces": {"elsewhere": pieces(shop, desk)["elsewhere"]}}
