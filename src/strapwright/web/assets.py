"""What pages load beside themselves: style, modules and one face, all from this server."""

from __future__ import annotations

import hashlib
import io
import json
from contextlib import closing
from functools import cache
from pathlib import Path

from fastapi import APIRouter, HTTPException
from starlette.responses import Response

from strapwright.scene.svg import page_rules

STATIC = Path(__file__).parent / "static"
_KINDS = {
    ".css": "text/css",
    ".js": "text/javascript",
    ".svg": "image/svg+xml",
    ".png": "image/png",
}
_FACES = {"regular.otf": "SourceSansPro-Regular.otf", "semibold.otf": "SourceSansPro-Semibold.otf"}
_FOREVER = {"cache-control": "public, max-age=31536000, immutable"}
# Latin with its marks, and the signs that drawings use.
_LETTERS = [
    *range(0x20, 0x7F),
    *range(0xA0, 0x180),
    *range(0x2010, 0x2050),
    0x2009,
    0x202F,
    0x2190,
    0x2191,
    0x2192,
    0x2193,
    0x2212,
    0x25A0,
    0x25B2,
    0x25CB,
    0x03C0,
    0x00B0,
    0x2713,
    0x2716,
]
_FEATURES = ["kern", "liga", "tnum", "lnum", "frac", "numr", "dnom", "mark", "mkmk", "ccmp"]

router = APIRouter()


@router.get("/shop.webmanifest")
def manifest() -> Response:
    """Say how the pages stand on a home screen.

    Nothing of them is kept on the device: every page is asked for when it is opened, so that no old
    figure is ever shown.
    """
    icons = [
        {
            "src": f"/assets/{stamp()}/mark-{size}.png",
            "sizes": f"{size}x{size}",
            "type": "image/png",
        }
        for size in (180, 512)
    ]
    content = {
        "name": "Strapwright", "short_name": "Strapwright", "start_url": "/", "scope": "/",
        "display": "standalone", "background_color": "#101317", "theme_color": "#101317",
        "icons": icons,
    }  # fmt: skip
    return Response(json.dumps(content), media_type="application/manifest+json")


@cache
def stamp() -> str:
    """Return what changes in the address of every asset when one of them changes."""
    seen = hashlib.sha256(drawing_rules().encode())
    for path in sorted(STATIC.iterdir()):
        seen.update(path.read_bytes())
    return seen.hexdigest()[:10]


@cache
def drawing_rules() -> str:
    """Style of the drawings: dark, and light where the person or the machine asks for it."""
    dark = page_rules("dark", ":root")
    light = page_rules("light", ":root[data-look=light]")
    by_machine = page_rules("light", ":root:not([data-look])")
    paper = page_rules("paper", ":root:root")  # as strong as the looks that it takes over from
    return (
        f"{dark}\n{light}\n@media (prefers-color-scheme: light){{{by_machine}}}\n"
        f"@media print{{{paper}}}\n"
    )


@cache
def face(name: str) -> bytes:
    """Return one face with the letters the pages use.

    The package carries several thousand glyphs, more than a phone should wait for.  A face that is
    cut down may not keep its reserved name (SIL Open Font License 1.1, clause 3), so names go.
    """
    from font_source_sans_pro import font_directory  # noqa: PLC0415  on first use
    from fontTools import subset  # noqa: PLC0415  slow to load, needed once

    options = subset.Options()
    options.layout_features = _FEATURES
    options.name_IDs = [0, 13, 14]  # copyright and licence stay
    options.hinting = False
    options.desubroutinize = True
    whole = subset.load_font(str(Path(font_directory) / _FACES[name]), options)
    with closing(whole):
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=_LETTERS)
        cutter.subset(whole)
        out = io.BytesIO()
        subset.save_font(whole, out, options)
        return out.getvalue()


@router.get("/assets/{mark}/{name}")
def asset(mark: str, name: str) -> Response:
    """Serve one asset by its plain name."""
    del mark  # only makes the address new
    if name == "drawing.css":
        return Response(drawing_rules(), media_type="text/css", headers=_FOREVER)
    if name in _FACES:
        try:
            return Response(face(name), media_type="font/otf", headers=_FOREVER)
        except OSError as error:  # the package of the face is damaged: a browser takes its own
            raise HTTPException(404) from error
    # Looked up among what is there, so that no name leads out of the folder.
    for path in STATIC.iterdir():
        if path.name == name and path.suffix in _KINDS:
            return Response(path.read_bytes(), media_type=_KINDS[path.suffix], headers=_FOREVER)
    raise HTTPException(404)
