"""Settings: how this device is shown figures, and the backup of the shop."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, File, Request, UploadFile
from starlette.responses import Response

from strapwright.errors import joined
from strapwright.pages.sharing.own_view import read_view
from strapwright.service.backups import bring_into_open
from strapwright.store import StoreError
from strapwright.store.store_errors import damaged_words
from strapwright.web.rendering import LOOK, NUMBERS, AnyResponse, go, own_view, page
from strapwright.web.route_helpers import Shop, Typed

router = APIRouter(prefix="/settings")
_CHOOSE = "Choose a file first: a backup that this program made."
_NO_BACKUP = "The chosen file is no whole backup; nothing was changed. Choose another file."
KEPT_FOR = 315_360_000  # s, ten years


@router.get("")
def settings_page(request: Request, shop: Shop, said: str = "") -> Response:
    """Show what this device chose, and what can be backed up."""
    return _shown(request, shop, {"done": said[:300]})


@router.post("/mine")
def choose(typed: Typed) -> Response:
    """Keep in this browser how it is shown figures, and its theme."""
    view = read_view(typed.get("units", ""), typed.get("lengths", ""))
    answer = go(f"/settings?{urlencode({'said': 'Kept for this device.'})}")
    _keep(answer, NUMBERS, view.text.strip("."), view.text)
    keep_look(answer, typed.get("look", ""))
    return answer


def keep_look(answer: AnyResponse, chosen: str) -> None:
    """Keep the theme in the browser, or forget it where none was chosen."""
    _keep(answer, LOOK, chosen if chosen in ("dark", "light") else "", chosen)


def _keep(answer: AnyResponse, name: str, chosen: str, text: str) -> None:
    if chosen:
        answer.set_cookie(name, text, max_age=KEPT_FOR, httponly=True, samesite="lax")
    else:
        answer.delete_cookie(name)


@router.post("/restore")
def restore(
    request: Request, shop: Shop, file: Annotated[UploadFile | None, File()] = None
) -> Response:
    """Put a backup into the store, which has to be empty."""
    if file is None or not file.filename:
        return _shown(request, shop, {"said": _CHOOSE}, 422)
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder) / "backup.db"
        with there.open("wb") as copy:
            shutil.copyfileobj(file.file, copy)
        try:
            count = bring_into_open(there, shop.store)
        except StoreError as error:
            return _shown(request, shop, {"said": _refused(error, there)}, 422)
    things = "job or shop file" if count == 1 else "jobs and shop files"
    return go(f"/settings?{urlencode({'said': f'{count} {things} came back.'})}")


def _refused(error: StoreError, there: Path) -> str:
    """Say why a backup was not restored.

    The person knows the file they chose, not where it was put meanwhile, and where the store lies
    is not for every device.
    """
    if error.where != str(there):
        said = joined(error.problem, error.remedy)
        return said[:1].upper() + said[1:]
    if (error.problem, error.remedy) == damaged_words():
        return _NO_BACKUP
    return f"The chosen file: {joined(error.problem, error.remedy)}"


def _shown(request: Request, shop: Shop, more: dict[str, Any], status: int = 200) -> Response:
    view = own_view(request)
    jobs = len(shop.store.list()) + len(shop.store.list(archived=True))
    values: dict[str, Any] = {"said": "", "done": "", "view": view, "kept": jobs, **more}
    return page(request, "settings.html", values, status)
