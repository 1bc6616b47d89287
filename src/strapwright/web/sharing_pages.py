"""Let devices of the shop's network in: the code to scan, who is in, and shutting them out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages.page_statements import told
from strapwright.pages.sharing.device_list import day_of, listed_devices
from strapwright.pages.sharing.device_names import device_name
from strapwright.pages.sharing.device_passes import Rights
from strapwright.pages.sharing.sharing_now import SharingNow
from strapwright.sheets.joining_code import code_drawn
from strapwright.web.rendering import go, page
from strapwright.web.request_guard import DEVICE, address_of, came_from_this_machine, too_many_tries
from strapwright.web.route_helpers import Typed, number_in

_OVER = "This code does not hold any more. Ask for a new one at the machine that serves the pages."


def sharing_of(request: Request) -> SharingNow:
    """Return door and passes; 404 where the pages cannot be shared."""
    sharing = request.app.state.sharing
    if sharing is None:
        raise HTTPException(404)
    return cast("SharingNow", sharing)


def own_machine(request: Request) -> SharingNow:
    """Return door and passes to whoever sits at this machine; the guard keeps others away too."""
    if not came_from_this_machine(request.scope):
        raise HTTPException(404)
    return sharing_of(request)


router = APIRouter()
own_router = APIRouter(prefix="/sharing", dependencies=[Depends(own_machine)])


@router.get("/join")
def join(request: Request) -> Response:
    """Turn an invitation into a pass of this device, and out of the address."""
    if came_from_this_machine(request.scope):
        return go("/")
    sharing, address = sharing_of(request), address_of(request.scope)
    made = sharing.passes.join(
        request.query_params.get("pass", ""),
        device_name(request.headers.get("user-agent", "")),
        secure=request.url.scheme == "https",
    )
    if made is None:  # a right code is never slowed down
        waiting = sharing.limit.wait(address)
        if waiting > 0:
            refusal = too_many_tries(waiting)
            answer: Response = page(request, "trouble.html", {"said": refusal.sentence}, 429)
            answer.headers["retry-after"] = str(refusal.wait)
            return answer
        sharing.limit.wrong(address)
        return page(request, "trouble.html", {"said": _OVER}, 403)
    sharing.limit.right(address)
    kept, token = made
    answer = go("/")
    answer.set_cookie(
        DEVICE, token, max_age=max(int(kept.until - kept.made), 1), httponly=True, samesite="lax",
        secure=request.url.scheme == "https", path="/",
    )  # fmt: skip
    return answer


@router.post("/leave")
def leave(request: Request) -> Response:
    """End the pass of the device that asks."""
    device = getattr(request.state, "device", None)
    if device is None:
        return go("/")
    sharing_of(request).passes.revoke(device.id)
    answer = page(request, "trouble.html", {"said": "This device is out. Scan the code again."})
    answer.delete_cookie(DEVICE, path="/", httponly=True, samesite="lax")
    return answer


@own_router.get("")
def sharing_page(request: Request) -> Response:
    """Show whether the pages are shared, the code, and the devices."""
    return _page(request)


@own_router.post("/start")
def start(request: Request, typed: Typed) -> Response:
    """Open the door, with an invitation to show."""
    sharing = sharing_of(request)
    try:
        sharing.begin(secure=typed.get("secure") == "1")
        if sharing.shown is None:
            sharing.invite("first code", "work", 1)
    except InputError as error:
        return _page(request, told(error))
    return go("/sharing")


@own_router.post("/stop")
def stop(request: Request) -> Response:
    """Shut the door."""
    sharing_of(request).end()
    return go("/sharing")


@own_router.post("/invite")
def invite(request: Request, typed: Typed) -> Response:
    """Make a new code."""
    sharing = sharing_of(request)
    rights: Rights = "work" if typed.get("rights") == "work" else "look"
    try:
        sharing.invite(typed.get("name", ""), rights, number_in(typed, "days", 0))
    except InputError as error:
        return _page(request, told(error), typed)
    return go("/sharing")


@own_router.post("/rename")
def rename(request: Request, typed: Typed) -> Response:
    """Call a device something else."""
    sharing_of(request).passes.rename(typed.get("id", ""), typed.get("name", ""))
    return go("/sharing")


@own_router.post("/revoke")
def revoke(request: Request, typed: Typed) -> Response:
    """Shut one device out, or take a code back."""
    sharing_of(request).passes.revoke(typed.get("id", ""))
    return go("/sharing")


@own_router.post("/revoke-all")
def revoke_all(request: Request) -> Response:
    """Shut every device out, and take every code back."""
    sharing_of(request).passes.revoke_all()
    return go("/sharing")


def _page(request: Request, said: str = "", typed: Mapping[str, str] | None = None) -> Response:
    sharing = sharing_of(request)
    door, shown = sharing.door, sharing.shown
    link = "" if door is None or shown is None else door.join(shown[1])
    values: dict[str, Any] = {
        "said": said,
        "typed": typed or {},
        "door": door,
        "link": link,
        "code": code_drawn(link) if link else "",
        "shown": None if shown is None else shown[0],
        "until": "" if shown is None else day_of(shown[0].until),
        "devices": listed_devices(sharing.passes),
    }
    return page(request, "sharing.html", values, 422 if said else 200)


router.include_router(own_router)
