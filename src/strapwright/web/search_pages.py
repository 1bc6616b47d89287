"""A tooling from what lies on the rack: begin the search, watch it, compare, take one."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Callable
from typing import Any

from fastapi import APIRouter, HTTPException, Request
from starlette.responses import Response, StreamingResponse

from strapwright.errors import InputError
from strapwright.pages.edited_job import plan_or_said
from strapwright.pages.page_statements import told
from strapwright.pages.shelves import currency_of, kept
from strapwright.pages.toolings_page import begin_search, found_by, still_asked, with_offer
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.store import Conflict, Missing, Search
from strapwright.strength.check_values import ESTIMATE
from strapwright.web.job_view import head
from strapwright.web.rendering import go, page, who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, number_in

router = APIRouter()
own_router = APIRouter(prefix="/jobs/{job}/propose")
beside_router = APIRouter(prefix="/jobs/{job}")
News = dict[str, Any]
_LOOK, _BEAT = 0.25, 40  # s between looks, looks without news before a sign of life


@own_router.get("")
def search_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show how the search stands, or what it found."""
    return _shown(request, opened, shop)


@own_router.post("")
def act(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Begin or stop a search, or take what it found into the job."""
    here = f"/jobs/{opened.item.id}/propose"
    word, _, number = typed.get("do", "begin").partition(":")
    latest = shop.store.searches.latest(opened.item.id)
    try:
        if word == "stop":
            if latest is not None:
                shop.searcher.stop(latest.id)
        elif word == "take" and latest is not None and number.isdecimal() and len(number) < 3:
            text, name = with_offer(opened.text, latest, int(number))
            base = number_in(typed, "base", opened.version)
            note = f"tooling from the rack: {name}"[:200]
            shop.save(opened.item.id, text, base, note, who_asks(request), typed=False)
            return go(f"/jobs/{opened.item.id}/strength")
        elif word == "begin":
            also = tuple(name.removeprefix("also.") for name in typed if name.startswith("also."))
            begin_search(shop, opened, also)
    except Conflict:
        said = "Someone saved this job in the meantime; look at it and choose again."
        return _shown(request, opened, shop, said)
    except Missing:
        return _shown(request, opened, shop, "One of the parts is not kept here any more.")
    except InputError as error:
        return _shown(request, opened, shop, _sentence(error))
    return go(here)


@own_router.get("/{search}/events")
def events(search: str, opened: Opened, shop: Shop) -> Response:
    """Tell how far a search is as long as it runs."""
    try:
        kept_search = shop.store.searches.get(search)
    except Missing as error:
        raise HTTPException(404) from error
    if kept_search.item != opened.item.id:
        raise HTTPException(404)
    return event_stream(lambda: _proposed(shop, search))


@beside_router.get("/bends/search/events")
def beside_events(opened: Opened, shop: Shop) -> Response:
    """Tell how far the searches for order and remedies are as long as one runs."""
    return event_stream(lambda: _beside(shop, opened))


def _beside(shop: Workshop, opened: OpenJob) -> News:
    of = shop.of(opened)
    far = shop.seeking.runs(of) or shop.seeking.looks(of)
    if far is None:
        return {"state": "ended", "text": "", "share": 1.0}
    return {"state": "running", "text": far.text, "share": round(far.share, 3)}


def _proposed(shop: Workshop, search: str) -> News:
    progress = shop.searcher.progress(search)
    return {
        "state": shop.store.searches.get(search).state,
        "text": progress.text,
        "count": progress.count,
        "share": progress.share,
    }


def event_stream(news: Callable[[], News]) -> StreamingResponse:
    """Tell what is new of some work until it runs no more."""
    return StreamingResponse(_told(news), media_type="text/event-stream")


async def _told(look: Callable[[], News]) -> AsyncIterator[str]:
    before, quiet = "", 0
    while True:
        found = await asyncio.to_thread(look)
        news = json.dumps(found)
        if news != before:
            before, quiet = news, 0
            yield f"data: {news}\n\n"
        elif quiet == _BEAT:
            quiet = 0
            yield ": still here\n\n"
        if found["state"] != "running":
            return
        quiet += 1
        await asyncio.sleep(_LOOK)


def _shown(request: Request, opened: OpenJob, shop: Workshop, said: str = "") -> Response:
    made, _ = plan_or_said(shop, opened.text)
    search = shop.store.searches.latest(opened.item.id)
    values: dict[str, Any] = {
        **head(shop, opened, "tooling", made),
        "undo_page": "propose",
        "about": "propose",
        "said": said,
        "estimate": ESTIMATE,
        "rack": kept(shop, "rack"),
        "crib": kept(shop, "crib"),
        "search": search,
        "failed": search.said if search is not None and search.state == "failed" else "",
        "stopped": search.said if search is not None and search.state == "stopped" else "",
        "found": None,
        "same": True,
        "progress": None if search is None else shop.searcher.progress(search.id),
        "others": [item for item in shop.recent() if item.id != opened.item.id and item.sound],
    }
    if search is not None and search.state == "done":
        values["found"] = found_by(search, currency_of(shop))
        values["same"] = _same(shop, opened, search)
    return page(request, "propose.html", values, 422 if said else 200)


def _same(shop: Workshop, opened: OpenJob, search: Search) -> bool:
    try:
        return still_asked(shop, opened, search)
    except (InputError, Missing):  # a job is no readable file any more, or is not kept
        return False


def _sentence(error: InputError) -> str:
    return told(error)


router.include_router(own_router)
router.include_router(beside_router)
