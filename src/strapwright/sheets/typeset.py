"""Templates and data to PDF bytes, with our own fonts and nothing from the machine or network."""

from __future__ import annotations

import atexit
import json
import shutil
import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import font_source_sans_pro
import typst

from strapwright.errors import StrapwrightError

_TEMPLATES = Path(__file__).parent / "templates"
_FAMILY = "Source Sans Pro"


def compile_pdf(template: str, data: Mapping[str, Any], drawings: Mapping[str, str]) -> bytes:
    """Lay a sheet out.

    Parameters
    ----------
    template
        Name of a file in the templates folder, e.g. ``setup.typ``.
    data
        Strings, lists and mappings of strings; it reaches the template as ``data.json``, so that
        nothing a person typed is ever read as markup.
    drawings
        File name -> SVG.

    Returns
    -------
    bytes
        PDF; the same input gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the layout engine reports anything at all: a missing font or picture would otherwise
        be replaced in silence.
    """
    files = {path.name: path.read_bytes() for path in sorted(_TEMPLATES.glob("*.typ"))}
    files["main.typ"] = f'#include "{template}"\n'.encode()
    files["data.json"] = json.dumps(data, ensure_ascii=False).encode()
    files.update((name, svg.encode()) for name, svg in drawings.items())
    try:
        # The engine takes a mapping of files; its type stubs do not know.
        pdf, warnings = typst.compile_with_warnings(  # type: ignore[call-overload]
            files, font_paths=_fonts(), timestamp=0
        )
    except typst.TypstError as error:
        raise StrapwrightError(f"the sheet {template} cannot be laid out: {error}") from error
    if warnings:
        said = "; ".join(str(warning.message) for warning in warnings)
        raise StrapwrightError(f"the sheet {template} was laid out with warnings: {said}")
    return bytes(pdf)


@cache
def _fonts() -> typst.Fonts:
    # The package has every face twice, as otf and as ttf, and which of them a folder yields first
    # differs between machines.  The engine takes folders only, and reads faces when it needs
    # them: one kind is laid into a folder that lasts as long as the program.
    folder = tempfile.mkdtemp(prefix="strapwright-type-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    for face in sorted(Path(font_source_sans_pro.font_directory).glob("*.otf")):
        shutil.copyfile(face, Path(folder) / face.name)
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]
    )
    if fonts.families() != [_FAMILY]:
        raise StrapwrightError(
            f"the fonts for paper are not {_FAMILY} alone but {fonts.families()}; "
            "install font-source-sans-pro again"
        )
    return fonts
