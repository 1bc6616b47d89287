"""The first page: jobs last worked on, a new part, the demonstration; and bringing a file in."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated, Any

from fastapi import APIRouter, Request, UploadFile
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages.fields.shop_fields import bar_fields
from strapwright.pages.form import bar_text
from strapwright.pages.new_part import bar_wrong, name_of_part
from strapwright.pages.taken_over import latest_shop
from strapwright.pages.workshop import Workshop
from strapwright.store import StoreError, import_one
from strapwright.web.rendering import go, own_view, page
from strapwright.web.route_helpers import Opened, Shop, Typed
from strapwright.web.settings_pages import keep_look

router = APIRouter()
_LARGEST_FILE = 1_000_000  # bytes


@router.get("/")
def start(request: Request, shop: Shop, said: str = "") -> Response:
    """Show the jobs last worked on."""
    return page(request, "start.html", _start_values(request, shop, said[:300]))


def _start_values(request: Request, shop: Workshop, said: str) -> dict[str, Any]:
    """Jobs last worked on; where there are none yet, what a first part needs."""
    now = datetime.now(UTC)
    jobs = [(item, _ago(now, item.updated)) for item in shop.recent()]
    begun = {} if jobs else _new_values(shop, {"units": own_view(request).units or "inch"}, {})
    return {**begun, "jobs": jobs, "said": said}


@router.get("/new")
def new_part(request: Request, shop: Shop) -> Response:
    """Ask what every part needs first."""
    return page(
        request, "new.html", _new_values(shop, {"units": own_view(request).units or "inch"}, {})
    )


@router.post("/new")
def begin(request: Request, shop: Shop, typed: Typed) -> Response:
    """Begin a part, or say which field is wrong."""
    units = "metric" if typed.get("units") == "metric" else "inch"
    wrong = bar_wrong(typed, units)
    if wrong:
        return page(request, "new.html", _new_values(shop, typed, wrong), 422)
    item = shop.start(
        name=name_of_part(typed.get("part.name", ""), len(shop.jobs())),
        units="metric" if units == "metric" else "inch",
        bar=bar_text(typed) or "",
        material=typed.get("part.material", ""),
        take_over=typed.get("shop", "latest") == "latest",
    )
    return go(f"/jobs/{item.id}/part")


def _new_values(shop: Workshop, typed: Any, wrong: dict[str, str]) -> dict[str, Any]:
    fields = [field for field in bar_fields({}) if field.name.startswith("bar.")]
    fields += [field for field in bar_fields({}) if field.name == "part.material"]
    latest = latest_shop(shop.store)
    return {
        "fields": fields,
        "typed": typed,
        "wrong": wrong,
        "latest": latest,
        "ask_units": True,
    }


@router.post("/demo")
def demo(shop: Shop) -> Response:
    """Open the demonstration job."""
    return go(f"/jobs/{shop.demo().id}/part")


@router.post("/jobs/{job}/copy")
def copy(opened: Opened, shop: Shop) -> Response:
    """Keep a copy of a job."""
    return go(f"/jobs/{shop.copy(opened.item.id).id}/part")


@router.post("/bring")
def bring(request: Request, shop: Shop, file: Annotated[UploadFile, ...]) -> Response:
    """Keep a job file that was made elsewhere."""
    raw = file.file.read(_LARGEST_FILE + 1)
    try:
        item = import_one(shop.store, file.filename or "job.toml", raw, datetime.now(UTC))
    except (InputError, StoreError) as error:
        return page(request, "start.html", _start_values(request, shop, str(error)), 422)
    return go(f"/jobs/{item.id}/part" if item.kind == "job" else "/")


@router.post("/look")
def look(typed: Typed) -> Response:
    """Change between dark and light, and go back to where the person was."""
    where = typed.get("here", "/")
    # Only a path of this server: two strokes at the front would name another one.
    safe = where.startswith("/") and not where.startswith(("//", "/\\"))
    answer = go(where if safe else "/")
    keep_look(answer, typed.get("look", ""))
    return answer


def _ago(now: datetime, then: datetime) -> str:
    minutes = int((now - then).total_seconds() // 60)
    if minutes < 1:
        return "just now"
    for size, word in ((60 * 24, "day"), (60, "hour"), (1, "minute")):
        if minutes >= size:
            count = minutes // size
            return f"{count} {word}{'s' if count > 1 else ''} ago"
    return "just now"
