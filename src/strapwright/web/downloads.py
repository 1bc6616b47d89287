"""Paper and files: the print page, the sheets, the job file, the plan, the drawings."""

from __future__ import annotations

import io
import tempfile
import zipfile
from collections.abc import Mapping
from pathlib import Path
from urllib.parse import quote

from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.pages import plan_page
from strapwright.pages.edited_job import plan_or_said, settled_plan
from strapwright.pages.shop_work.cut_page import bars_of
from strapwright.pages.shop_work.limits_page import limits_page
from strapwright.pages.shop_work.packet_page import packet_of
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data, to_text
from strapwright.service.backups import take_backup
from strapwright.service.plan_files import plan_files
from strapwright.store import export_one, export_zip
from strapwright.web.job_view import head
from strapwright.web.rendering import page
from strapwright.web.route_helpers import Opened, Shop, attended

router = APIRouter(dependencies=[Depends(attended)])
_ATTRIBUTE = "!#$&+^`|"  # what stands unencoded beside letters, digits and -._~ (RFC 8187, 3.2.1)
_KINDS = {
    "sheet.pdf": "application/pdf",
    "template.pdf": "application/pdf",
    "papers.pdf": "application/pdf",
    "inspection.pdf": "application/pdf",
    "packet.pdf": "application/pdf",
    "plan.json": "application/json",
    "plan.zip": "application/zip",
}


@router.get("/jobs/{job}/print")
def print_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show what can be printed and carried away."""
    made, refusal = plan_or_said(shop, opened.text)
    refused = made is not None and any(said.kind == "refusal" for said in plan_page.findings(made))
    values = {
        **head(shop, opened, "print", made),
        "refusal": refusal,
        "ready": made is not None,
        "refused": refused,
        "paper": "letter" if made is None or made.job.units == "inch" else "A4",
        "bars": bars_of(shop, opened.item.id),
        "count": 0 if made is None else len(made.steps),
        "blank": None if made is None else plan_page.blank_number(made),
        "limits": None if made is None else limits_page(made),
    }
    return page(request, "print.html", values)


@router.get("/jobs/{job}/files/{name}")
def download(name: str, opened: Opened, shop: Shop) -> Response:
    """Give one file of a job by its fixed name."""
    if name == "job.toml":
        file, raw = export_one(shop.store, opened.item.id)
        return given(file, raw, "application/toml", keep=True)
    if name not in _KINDS:
        raise HTTPException(404)
    made, refusal = settled_plan(shop, opened)
    if made is None:
        raise HTTPException(404, "" if refusal is None else refusal.text)
    stem = opened.item.file.removesuffix(".toml")
    if name == "plan.zip":
        raw = zipped(plan_files(made, bars_of(shop, opened.item.id)))
    elif name == "packet.pdf":
        raw = packet_of(shop, opened.item.id, opened.text, made)
    else:
        raw = _made(name, made, bars_of(shop, opened.item.id))
    return given(f"{stem} {name}", raw, _KINDS[name], keep=name in ("plan.json", "plan.zip"))


def _made(name: str, made: Plan, bars: str) -> bytes:
    # Typesetting takes a while to load, and most pages need none.
    from strapwright.sheets import setup_sheet  # noqa: PLC0415
    from strapwright.sheets.inspection_sheet import inspection_sheet  # noqa: PLC0415
    from strapwright.sheets.template_sheet import template_pdf  # noqa: PLC0415

    if name == "sheet.pdf":
        return setup_sheet(made, bars=bars)
    if name == "papers.pdf":
        from strapwright.sheets.job_packet import job_packet  # noqa: PLC0415

        both = (("Setup sheet", setup_sheet(made, bars=bars)), ("1:1 template", template_pdf(made)))
        return job_packet(both)
    if name == "template.pdf":
        return template_pdf(made)
    if name == "inspection.pdf":
        return inspection_sheet(made)
    return to_text(plan_to_data(made)).encode()


@router.get("/everything.zip")
def everything(shop: Shop) -> Response:
    """Give every job and shop file in one archive."""
    return given("strapwright.zip", export_zip(shop.store), "application/zip", keep=True)


@router.get("/backup.db")
def backup(shop: Shop) -> Response:
    """Give the whole store, every version of everything, as one file to restore from."""
    with tempfile.TemporaryDirectory() as folder:
        made = take_backup(Path(folder), shop.store.folder)
        return given(made.name, made.read_bytes(), "application/vnd.sqlite3", keep=True)


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Return files as one archive."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, raw in files.items():
            archive.writestr(name, raw)
    return out.getvalue()


def given(file: str, raw: bytes, kind: str, *, keep: bool) -> Response:
    """Answer with a file under its name, to be kept or to be looked at.

    A name of other letters stands in ``filename*`` (RFC 6266, section 4.3, encoded as RFC 8187
    says), and a plain one beside it for what does not read that.
    """
    plain = "".join(one if one.isascii() and one.isprintable() else "-" for one in file)
    plain = plain.replace('"', "-").replace("\\", "-").replace("%", "-")
    how = f'{"attachment" if keep else "inline"}; filename="{plain}"'
    if plain != file:
        how += f"; filename*=UTF-8''{quote(file, safe=_ATTRIBUTE)}"
    return Response(raw, media_type=kind, headers={"content-disposition": how})
