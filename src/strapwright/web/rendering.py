"""Templates: everything is escaped, only drawings of our own writing go in as they are."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from strapwright.pages.sharing.own_view import OwnView, kept_view
from strapwright.scene.lettering import as_fractions
from strapwright.web.assets import stamp

WHO = "bench"  # cookie: which browser, so that its half-typed edits are found again
LOOK = "look"  # cookie: dark or light where the person chose
NUMBERS = "numbers"  # cookie: in which units this device is shown figures
_WHO_LENGTH = 32

AnyResponse = TypeVar("AnyResponse", bound=Response)

_templates = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_templates.filters["drawn"] = Markup  # only ever given what our own SVG writer made
_templates.filters["set"] = as_fractions


def who_asks(request: Request) -> str:
    """Return the id of the browser, a new one where it has none."""
    known = request.cookies.get(WHO, "")
    if len(known) == _WHO_LENGTH and known.isalnum() and known.isascii():
        return known
    made = getattr(request.state, "who", "")
    if not made:
        made = secrets.token_hex(_WHO_LENGTH // 2)
        request.state.who = made
    return made


def own_view(request: Request) -> OwnView:
    """Return how the device that asks is shown figures."""
    return kept_view(request.cookies.get(NUMBERS, ""))


def piece(template: str, **values: Any) -> str:
    """Render a part of a page."""
    return _templates.get_template(template).render(**values)


def page(
    request: Request, template: str, values: Mapping[str, Any], status: int = 200
) -> HTMLResponse:
    """Render a whole page and see to it that its browser has an id."""
    look = request.cookies.get(LOOK)
    text = _templates.get_template(template).render(
        **values,
        assets=f"/assets/{stamp()}",
        look=look if look in ("dark", "light") else "",
        here=request.url.path,
        device=getattr(request.state, "device", None),
        shareable=getattr(request.app.state, "sharing", None) is not None,
    )
    return remembered(request, HTMLResponse(text, status))


def remembered(request: Request, answer: AnyResponse) -> AnyResponse:
    """Give a browser that has no id the one it was answered under."""
    who = who_asks(request)
    if request.cookies.get(WHO) != who:
        answer.set_cookie(WHO, who, max_age=315_360_000, httponly=True, samesite="lax", path="/")
    return answer


def go(where: str) -> RedirectResponse:
    """Send a browser on after a form was taken."""
    return RedirectResponse(where, 303)
