"""Pages made of fields: part, bar, press, tooling.  Each works without a script."""

from __future__ import annotations

from typing import cast
from urllib.parse import urlencode

from attrs import evolve
from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages.edited_job import Desk, desk_of
from strapwright.pages.fields.form_changes import apply_action, same_places
from strapwright.pages.fields.form_fields import Page
from strapwright.pages.fields.part_fields import bends_of, shape_rows
from strapwright.pages.form import open_form
from strapwright.pages.page_statements import told
from strapwright.pages.taken_over import DROP, taken_over, without_taken_over
from strapwright.pages.workshop import Workshop
from strapwright.store import Conflict
from strapwright.web.job_view import drawing, head, next_page, results
from strapwright.web.rendering import go, page, remembered, who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, attended, number_in

router = APIRouter(dependencies=[Depends(attended)])
_PAGES = ("part", "bar", "press", "tooling")


@router.get("/jobs/{job}")
def job_page(opened: Opened) -> Response:
    """Go to the part."""
    return go(f"/jobs/{opened.item.id}/part")


@router.get("/jobs/{job}/{name}")
def fields_page(
    request: Request, name: str, opened: Opened, shop: Shop, said: str = ""
) -> Response:
    """Show the fields of a page."""
    chosen = _page(name)
    draft = shop.draft(opened.item.id, who_asks(request))
    typed = {} if draft is None else draft.fields
    base = opened.version if draft is None or draft.base is None else draft.base
    desk = desk_of(shop, opened, chosen, typed, base, who_asks(request))
    made, values = results(shop, desk)
    values.update(head(shop, opened, name, made))
    values["desk"] = desk
    values["said"] = said[:300]
    values["taken"] = taken_over(shop.store, opened.item.id, opened.text)
    values["following"] = next_page(chosen, opened.text)
    if name == "part":
        wide, state = drawing(shop, desk, "wide")
        narrow, _ = drawing(shop, desk, "phone")
        values.update(wide=wide, narrow=narrow, state=state)
        values["rows"] = shape_rows(list(desk.form.shape))
    return page(request, f"{name}.html" if name == "part" else "fields.html", values)


@router.post("/jobs/{job}/{name}")
def save_page(request: Request, name: str, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Save a page as typed, do what its button says, and go on."""
    chosen = _page(name)
    who = who_asks(request)
    action = typed.get("do", "save")
    here = f"/jobs/{opened.item.id}/{name}"
    if action == "drop":
        shop.drop_draft(opened.item.id, who)
        return go(here)
    base = number_in(typed, "base", opened.version)
    desk = desk_of(shop, opened, chosen, typed, base, who)
    if action == "over":  # the person has seen what was saved, and lays this on top of it
        desk = evolve(desk, base=opened.version)
    wrong = take(shop, desk, action, who, base)
    now = shop.open(opened.item.id)
    if wrong is not None and now.version != opened.version:
        # The field that was left by the press of a button saved itself at the same moment.
        fresh = desk_of(shop, now, chosen, typed, base, who)
        wrong = take(shop, fresh, action, who, base)
    taken = wrong is None
    if isinstance(wrong, InputError) and wrong is not desk.trouble and _is_structural(action):
        here += f"?{urlencode({'said': told(wrong)})}"
    following = typed.get("following", "bends")
    if taken and action == "next" and following in (*_PAGES, "bends"):
        return go(f"/jobs/{opened.item.id}/{following}")
    if taken:
        here += _added(shop, opened.item.id, action)
    return remembered(request, go(here))


def _added(shop: Workshop, job: str, action: str) -> str:
    """Where on the page that stands which a button has just added."""
    if action == "add-other":
        others = open_form(shop.open(job).text, "tooling").others
        return f"#part.other_tooling[{len(others)}].bends"
    if action not in ("add-leg", "add-hole", "add-joggle", "add-roll", "add-twist"):
        return ""
    form = open_form(shop.open(job).text, "part")
    shape = list(form.shape)
    if action == "add-hole":
        return f"#hole-{form.holes}"
    if action == "add-leg":
        return f"#bend-{bends_of(shape)}"
    kind = action.removeprefix("add-")
    row = next((one for one in reversed(shape_rows(shape)) if one.kind == kind), None)
    return "" if row is None else f"#{kind}-{row.number}"


def take(
    shop: Workshop, desk: Desk, action: str, who: str, shown: int
) -> Conflict | InputError | None:
    """Save what was typed with what a button adds; keep it as a draft where that cannot be.

    Parameters
    ----------
    shop, desk
        Where it is saved, and what was typed.
    action, who
        What the button says, and the browser.
    shown
        Version that the page showed: the numbers of a button are of that one.

    Returns
    -------
    Conflict, InputError or None
        Why it was not saved; ``None`` where it was.
    """
    job = desk.opened.item.id
    structural = _is_structural(action)
    try:
        if desk.trouble is not None and not structural:
            raise desk.trouble
        _refuse_moved(shop, desk, action, shown)
        text = _changed(shop, desk, action) if structural else desk.text
        save_over(shop, desk, text, who)
    except (Conflict, InputError) as error:
        shop.keep_draft(job, who, desk.base, desk.mine, desk.own)
        return error
    return None


def _refuse_moved(shop: Workshop, desk: Desk, action: str, shown: int) -> None:
    """Refuse a button whose number is of another entry by now."""
    if ":" not in action or not 0 < shown < desk.opened.version:
        return
    before = shop.version(desk.opened.item.id, shown)
    if not same_places(before, desk.opened.text, action):
        raise InputError(
            "part.shape", "this was changed elsewhere just now", "look at it and try again"
        )


def _is_structural(action: str) -> bool:
    return action not in ("save", "next", "over")


def _changed(shop: Workshop, desk: Desk, action: str) -> str:
    if action == DROP:
        return without_taken_over(desk.text, taken_over(shop.store, desk.opened.item.id, desk.text))
    return apply_action(desk.text, action)


def save_over(shop: Workshop, desk: Desk, text: str, who: str, note: str = "") -> int:
    """Save a text and keep what the browser typed on other pages; return the version."""
    job = desk.opened.item.id
    draft = shop.draft(job, who)
    saved = shop.save(job, text, desk.base, note or desk.form.page, who)
    if draft is not None:
        others = {name: said for name, said in draft.fields.items() if name not in desk.own}
        shop.keep_draft(job, who, saved.number, others, ())
    return saved.number


def _page(name: str) -> Page:
    if name not in _PAGES:
        raise HTTPException(404)
    return cast("Page", name)
