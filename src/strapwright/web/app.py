"""The application: guard, routes, and errors as sentences."""

from __future__ import annotations

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import Response

from strapwright.errors import StrapwrightError
from strapwright.pages.long_work.attendance import AbandonedError
from strapwright.pages.sharing.sharing_now import SharingNow
from strapwright.pages.workshop import Workshop
from strapwright.web import (
    assets,
    bend_pages,
    downloads,
    field_pages,
    live_answers,
    log_pages,
    lot_pages,
    making_pages,
    quick_pages,
    search_pages,
    settings_pages,
    sharing_pages,
    shelf_pages,
    shop_work_pages,
    start_pages,
    strength_pages,
    version_pages,
)
from strapwright.web.rendering import page
from strapwright.web.request_guard import Guard, too_large_words

_SAID = {
    404: "There is no such page here. The job may have another address now.",
    405: "That is not possible on this page.",
    400: "This request could not be read.",
    422: "This request could not be read.",
}


def create_app(workshop: Workshop, port: int, sharing: SharingNow | None = None) -> FastAPI:
    """Make the application.

    Parameters
    ----------
    workshop
        What it works on.
    port
        Port it is served on at the loopback address.
    sharing
        Door and passes of the shop's network; the pages stay on this machine without.

    Returns
    -------
    FastAPI
        Without the framework's own documentation pages.
    """
    app = FastAPI(title="Strapwright", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.workshop = workshop
    app.state.sharing = sharing
    for module in (
        assets,
        start_pages,
        live_answers,
        bend_pages,
        downloads,
        version_pages,
        strength_pages,
        search_pages,
        making_pages,
        log_pages,
        lot_pages,
        shelf_pages,
        shop_work_pages,
        sharing_pages,
        quick_pages,
        settings_pages,
        field_pages,  # last: it takes the names of pages that no other module took
    ):
        app.include_router(module.router)

    @app.exception_handler(HTTPException)
    def not_found(request: Request, error: HTTPException) -> Response:
        said = _SAID.get(error.status_code, "This cannot be answered.")
        if error.status_code == 413:
            said = too_large_words(request.url.path)
        return page(request, "trouble.html", {"said": said}, error.status_code)

    @app.exception_handler(RequestValidationError)
    def unread(request: Request, error: RequestValidationError) -> Response:
        del error
        return page(request, "trouble.html", {"said": _SAID[404]}, 404)

    @app.exception_handler(StrapwrightError)
    def refused(request: Request, error: StrapwrightError) -> Response:
        return page(request, "trouble.html", {"said": str(error)}, 400)

    @app.exception_handler(AbandonedError)
    def unheard(request: Request, error: AbandonedError) -> Response:
        del request, error
        return Response(status_code=408)  # the browser left before its answer; nobody reads this

    app.add_middleware(GZipMiddleware, minimum_size=800, compresslevel=5)
    app.add_middleware(Guard, port=port, sharing=sharing)
    return app
