"""Make the pictures that the documents show: ``python docs/make_pictures.py [NAME ...]``.

Parts are those of the demonstration and of ``docs/examples``.  Drawings become PNG by
``rsvg-convert`` (librsvg2-bin), pages by ``pdftoppm`` (poppler-utils), with the project's own type.
With names, only pictures that begin with one of them are made.
"""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Literal

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()  # before anything that is compiled is imported

import font_source_sans_pro
from PIL import Image

from strapwright.drawing import (
    PHONE,
    WIDE,
    Frame,
    Scene,
    bend_scene,
    blank_scene,
    curve_scene,
    part_scene,
    to_svg,
)
from strapwright.planning.plan_values import Plan
from strapwright.service.demo import JOBS
from strapwright.service.plan_files import plan_job
from strapwright.service.several_dies.shared_making import dies_files, load_dies
from strapwright.sheets import setup_sheet
from strapwright.sheets.template_sheet import template_pdf

HERE = Path(__file__).resolve().parent
PICTURES = HERE / "pictures"
LARGEST = (1366.0, 900.0)  # px; a small laptop
ZOOM = 1.5
DOTS = 110  # an inch, of pages
HEAVIEST = 200_000  # bytes of one picture
HEAVIEST_IN_ALL = 4_000_000

Theme = Literal["dark", "light"]


class Stopped(Exception):  # noqa: N818 - it is the person's turn, nothing is broken
    """What is missing and what to do about it."""


def scene_of(plan: Plan, what: str, frame: Frame) -> Scene:
    """Draw ``part``, ``blank``, ``bend-2-stroke`` or ``bend-2-curve``."""
    if what == "part":
        return part_scene(plan, frame)
    if what == "blank":
        return blank_scene(plan, frame)
    _, number, pose = what.split("-")
    step = next(one for one in plan.steps if one.bend == int(number))
    if pose == "curve":
        return curve_scene(plan, step, frame)
    poses: dict[str, Literal["rest", "stroke", "released"]] = {
        "rest": "rest",
        "stroke": "stroke",
        "released": "released",
    }
    return bend_scene(plan, step, poses[pose], frame)


def drawing(what: str, theme: Theme, frame: Frame = WIDE) -> Callable[[Plan], bytes]:
    """Make a picture of a drawing."""

    def make(plan: Plan) -> bytes:
        scene = scene_of(plan, what, frame)
        left, bottom, right, top = scene.bounds
        wide, high = (right - left) * scene.scale, (top - bottom) * scene.scale
        zoom = 2.0 if frame is PHONE else min(ZOOM, LARGEST[0] / wide, LARGEST[1] / high)
        done = subprocess.run(  # noqa: S603  our own drawing
            ["rsvg-convert", "--zoom", f"{zoom:.4f}"],  # noqa: S607  wherever it is installed
            input=to_svg(scene, theme).encode(),
            env={**os.environ, "FONTCONFIG_FILE": str(font_settings())},
            capture_output=True,
            check=True,
        )
        return done.stdout

    return make


def page(of: Callable[[Plan], bytes], words: str) -> Callable[[Plan], bytes]:
    """Make a picture of the first page that has these words."""

    def read(command: list[str], sheet: bytes) -> bytes:
        done = subprocess.run(  # noqa: S603  our own page
            command, input=sheet, capture_output=True, check=True
        )
        return done.stdout

    def make(plan: Plan) -> bytes:
        sheet = of(plan)
        pages = read(["pdftotext", "-layout", "-", "-"], sheet).decode().split("\f")
        number = 1 + next(k for k, text in enumerate(pages) if words in text)
        command = ["pdftoppm", "-png", "-gray", "-r", str(DOTS), "-f", str(number), "-singlefile"]
        return read([*command, "-"], sheet)

    return make


@cache
def two_dies() -> dict[str, bytes]:
    """Make the files of the two dies on one push plate."""
    return dies_files(load_dies([job_of("cleat-bracket-die"), job_of("fender-strap-die")]))


def of_two_dies(name: str) -> Callable[[Plan], bytes]:
    """Make a sheet of the two dies on one push plate, by the name of its file."""
    return lambda _: two_dies()[name]


def both(name: str, what: str) -> dict[str, Callable[[Plan], bytes]]:
    """Name a drawing in the dark and in daylight."""
    return {
        f"{name}-{what}.dark.png": drawing(what, "dark"),
        f"{name}-{what}.light.png": drawing(what, "light"),
    }


def phone(name: str, what: str) -> dict[str, Callable[[Plan], bytes]]:
    """Name a drawing as a telephone shows it."""
    return {f"{name}-{what}.phone.png": drawing(what, "dark", PHONE)}


HANGER, HOOK, RING = "fender-hanger", "mooring-line-hook", "winch-drum-ring"
ROD, SADDLE = "oar-hanger", "pipe-saddle"
# One bend in each of five typical bars, for their stroke curves.
BARS = ("flat-quarter", "square-half", "rod-three-eighths", "aluminium-flat", "thick-half")
WANTED: dict[str, dict[str, Callable[[Plan], bytes]]] = {
    HANGER: {
        **both(HANGER, "part"),
        **both(HANGER, "blank"),
        **both(HANGER, "bend-1-stroke"),
        **both(HANGER, "bend-1-curve"),
        **both(HANGER, "bend-1-released"),
        **both(HANGER, "bend-2-rest"),
        **phone(HANGER, "part"),
        **phone(HANGER, "blank"),
        **phone(HANGER, "bend-1-stroke"),
        **phone(HANGER, "bend-1-curve"),
        f"{HANGER}-sheet.png": page(setup_sheet, "Quantity"),
        f"{HANGER}-sheet-blank.png": page(setup_sheet, "Cut and mark the blank"),
        f"{HANGER}-sheet-bend.png": page(setup_sheet, "1st Bend"),
        f"{HANGER}-template.png": page(template_pdf, ""),
    },
    RING: {**both(RING, "part"), **phone(RING, "part"), **both(RING, "bend-4-stroke")},
    HOOK: {**both(HOOK, "part"), **both(HOOK, "bend-2-stroke"), **phone(HOOK, "bend-2-stroke")},
    ROD: {**both(ROD, "part"), **phone(ROD, "part"), **both(ROD, "bend-2-stroke")},
    SADDLE: {
        **both(SADDLE, "part"),
        **both(SADDLE, "blank"),
        **phone(SADDLE, "part"),
        **phone(SADDLE, "blank"),
        **both(SADDLE, "bend-2-stroke"),
        f"{SADDLE}-sheet-bend.png": page(setup_sheet, "2nd Bend"),
    },
    **{bar: both(bar, "bend-1-curve") for bar in BARS},
    "cleat-bracket-die": {
        "shared-plate-holes.png": page(
            of_two_dies("harbour-plate-making.pdf"), "Push plate, existing"
        ),
        "shared-plate-change.png": page(
            of_two_dies("change-cleat-bracket-to-fender-strap.pdf"), "Comes off"
        ),
    },
}


def font_settings() -> Path:
    """Write settings that show nothing but the project's own type; return the file."""
    folder = Path(tempfile.gettempdir()) / f"strapwright-pictures-{os.getpid()}"
    file = folder / "fonts.conf"
    if not file.exists():
        folder.mkdir(exist_ok=True)
        for face in sorted(Path(font_source_sans_pro.font_directory).glob("*.otf")):
            shutil.copyfile(face, folder / face.name)
        file.write_text(
            '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">'
            f"<fontconfig><dir>{folder}</dir><cachedir>{folder / 'cache'}</cachedir></fontconfig>",
            encoding="utf-8",
        )
    return file


def small(picture: bytes) -> bytes:
    """Keep 256 tones: glow and hairlines look the same, at half the weight."""
    with Image.open(io.BytesIO(picture)) as image:
        kept = io.BytesIO()
        plain = image.convert("RGB")
        plain.quantize(256, dither=Image.Dither.NONE).save(kept, "PNG", optimize=True)
    return kept.getvalue()


def job_of(name: str) -> Path:
    """Where the job of a part lies."""
    examples = HERE / "examples"
    folders = (examples, examples / "bars", examples / "shared-plate", JOBS)
    return next(file for folder in folders if (file := folder / f"{name}.toml").exists())


def main(names: list[str]) -> int:
    """Make the pictures; return the exit code."""
    for program in ("rsvg-convert", "pdftoppm"):
        if shutil.which(program) is None:
            raise Stopped(f"{program} is not here; install librsvg2-bin and poppler-utils")
    PICTURES.mkdir(exist_ok=True)
    for part, pictures in WANTED.items():
        chosen = {
            name: make
            for name, make in pictures.items()
            if not names or any(name.startswith(one) for one in names)
        }
        if not chosen:
            continue
        plan = plan_job(job_of(part))
        for name, make in chosen.items():
            picture = small(make(plan))
            if len(picture) > HEAVIEST:
                raise Stopped(f"{name} has {len(picture)} bytes, more than {HEAVIEST}")
            (PICTURES / name).write_bytes(picture)
            sys.stdout.write(f"{len(picture) / 1000:6.0f} kB  {name}\n")
    known = {name for pictures in WANTED.values() for name in pictures}
    for file in sorted(PICTURES.glob("*.png")):
        if file.name not in known:
            sys.stdout.write(f"not made here: {file.name}\n")
    whole = sum(file.stat().st_size for file in PICTURES.glob("*.png"))
    if whole > HEAVIEST_IN_ALL:
        raise Stopped(f"all pictures together have {whole} bytes, more than {HEAVIEST_IN_ALL}")
    return 0


if __name__ == "__main__":
    try:
        raise SystemExit(main(sys.argv[1:]))
    except Stopped as reason:
        raise SystemExit(str(reason)) from None
