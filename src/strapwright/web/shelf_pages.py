"""Rack and tool crib of the shop: a piece a line, or brought in as a file."""

from __future__ import annotations

from typing import Annotated, cast

from fastapi import APIRouter, HTTPException, Request, UploadFile
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages.page_statements import told, told_of_file
from strapwright.pages.shelf_forms import ShelfForm, shelf_form, with_piece, without_piece
from strapwright.pages.shelves import Shelf, keep, kept, read_shelf
from strapwright.pages.workshop import Workshop
from strapwright.store import Conflict, Item
from strapwright.web.downloads import given
from strapwright.web.rendering import go, own_view, page
from strapwright.web.route_helpers import Shop, Typed, job_of, number_in

router = APIRouter()
_LARGEST_FILE = 200_000  # bytes
_ID = 32  # digits of a job's id
_WORDS = {
    "rack": (
        "Stock on the rack",
        "The shafts, flats, plates and off-cuts you have or can buy. Tooling is found from these.",
    ),
    "crib": (
        "Tool crib",
        "The cutters you own. If they cannot make a hole, you are told and given alternatives.",
    ),
    "rates": (
        "Rates of the shop",
        (
            "Your saw, times, prices and hours. Every quote and every week is worked out from "
            "these. For what you leave empty a usual figure is used."
        ),
    ),
}


@router.get("/rack.toml")
@router.get("/crib.toml")
@router.get("/rates.toml")
def take_away(request: Request, shop: Shop) -> Response:
    """Give rack or crib as a file."""
    shelf = _shelf(request.url.path.strip("/").removesuffix(".toml"))
    there = kept(shop, shelf)
    if not there.id:
        raise HTTPException(404)
    return given(there.file, there.text.encode(), "application/toml", keep=True)


@router.get("/rack")
@router.get("/crib")
@router.get("/rates")
def shelf_page(request: Request, shop: Shop) -> Response:
    """Show what lies there."""
    shelf = _shelf(request.url.path.strip("/"))
    there = kept(shop, shelf)
    try:
        form = shelf_form(shelf, there.text, own=own_view(request).units)
    except InputError as error:  # kept by another way than these pages
        return _shown(request, shop, shelf, shelf_form(shelf, ""), told_of_file(error))
    return _shown(request, shop, shelf, form)


@router.post("/rack")
@router.post("/crib")
@router.post("/rates")
def save_shelf(request: Request, shop: Shop, typed: Typed) -> Response:
    """Save what was typed, with a piece more or less where a button says so."""
    shelf = _shelf(request.url.path.strip("/"))
    word, _, number = typed.get("do", "save").partition(":")
    there = kept(shop, shelf)
    form = shelf_form(shelf, there.text, typed, own_view(request).units)
    text = form.text
    try:
        if word == "add" and shelf == "rack":
            text = with_piece(text)
        elif word == "drop" and shelf == "rack" and number.isdecimal() and len(number) < 6:
            text = without_piece(text, int(number))
        keep(shop, shelf, text, number_in(typed, "base", there.version))
    except Conflict:
        said = "Someone else saved this in the meantime. Your entries are shown; save again to "
        said += "replace the saved version."
        return _shown(request, shop, shelf, form, said)
    except InputError as error:
        return _shown(request, shop, shelf, form, _sentence(error))
    count = len([name for name in shelf_form(shelf, text).groups if name.startswith("Piece")])
    # A field in it: the browser opens what it stands in.
    return go(f"/{shelf}{_with_job(request)}" + (f"#stock[{count}].size" if word == "add" else ""))


@router.post("/rack/bring")
@router.post("/crib/bring")
@router.post("/rates/bring")
def bring(request: Request, shop: Shop, file: Annotated[UploadFile, ...]) -> Response:
    """Take a file that was made elsewhere in place of what is there; undone from the store."""
    shelf = _shelf(request.url.path.strip("/").removesuffix("/bring"))
    there = kept(shop, shelf)
    raw = file.file.read(_LARGEST_FILE + 1)
    try:
        text = _read(raw, shelf)
        keep(shop, shelf, text, there.version, "imported")
    except InputError as error:
        form = shelf_form(shelf, there.text)
        said = f"Nothing was changed. {_place(error)}{told_of_file(error)}"
        return _shown(request, shop, shelf, form, said)
    return go(f"/{shelf}{_with_job(request)}")


def _came_from(request: Request) -> Item | None:
    """Return the job that the person came from, to be kept in sight."""
    try:
        return job_of(request, request.query_params.get("job", "")).item
    except HTTPException:
        return None


def _with_job(request: Request) -> str:
    job = request.query_params.get("job", "")
    return f"?job={job}" if len(job) == _ID and job.isalnum() and job.isascii() else ""


def _read(raw: bytes, shelf: Shelf) -> str:
    if len(raw) > _LARGEST_FILE:
        raise InputError(shelf, "the file is larger than 200 kB", f"give the file of a {shelf}")
    try:
        text = raw.decode()
    except UnicodeDecodeError as error:
        raise InputError(shelf, "this is not a text file", f"give the file of a {shelf}") from error
    read_shelf(shelf, text)
    return text


def _shelf(name: str) -> Shelf:
    return cast("Shelf", name)  # the routes name no others


def _sentence(error: InputError) -> str:
    return f"{_place(error)}{told(error)}"


def _place(error: InputError) -> str:
    return f"{error.where}: " if error.where not in ("rack", "crib", "rates") else ""


def _shown(
    request: Request, shop: Workshop, shelf: Shelf, form: ShelfForm, said: str = ""
) -> Response:
    there = kept(shop, shelf)
    title, lead = _WORDS[shelf]
    values = {
        "shelf": shelf,
        "title": title,
        "lead": lead,
        "there": there,
        "form": form,
        "units": form.units or "",
        "said": said,
        "fresh": not there.id,
        "job": _came_from(request),
        "with_job": _with_job(request),
    }
    return page(request, "shelf.html", values, 422 if said else 200)
