"""Set pages and sheets of an earlier state beside those of now.

``python docs/make_before_after.py CHECKOUT [FOLDER]``: CHECKOUT is a working tree of the earlier
state, for example from ``git worktree add ../before 3988db7``.  Both are served on the same jobs
and opened in a real browser on a screen, on a phone and on a phone on its side, in the dark and in
daylight.  Needs Debian's chromium, its driver and poppler-utils.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PIL import Image, ImageDraw

ROOT = Path(__file__).resolve().parent.parent
sys.path += [str(ROOT / "tests" / "e2e"), str(ROOT / "tests")]

from browsing import PHONE, WIDE, Page, browser, close_all, prefer, resize, served
from make_page_pictures import REFUSED, SIDE

from warm_serving import forget

SCREENS = {"screen": WIDE, "phone": PHONE, "side": SIDE}
BRACKET = ROOT / "docs" / "examples" / "shelf-bracket.toml"
# Name of the picture -> job, page.
SUBJECTS = {
    "bends-sound": ("sound", "bends"),
    "bends-refused": ("refused", "bends"),
    "part": ("sound", "part"),
    "tooling": ("bare", "tooling"),
}
SHARE = 0.5  # of its size that a page is shown at
DPI = 50  # of a sheet
GAP, HEAD, COLOURS = 12, 22, 128
SETTLING = 2.5  # s that a page is given to draw itself
REMEDIES = 240  # s that the search beside a refused part is given
Pictures = dict[tuple[str, str, bool], Image.Image]


def main(checkout: Path, folder: Path) -> None:
    """Make all pictures and count the words of a plan.

    Parameters
    ----------
    checkout
        Of the earlier state.
    folder
        Where the pictures go.
    """
    folder.mkdir(parents=True, exist_ok=True)
    trees = {"before": checkout, "now": ROOT}
    # The paper first: it compiles what the pages would otherwise wait for.
    with tempfile.TemporaryDirectory() as papers:
        found = {}
        for when, tree in trees.items():
            with source(tree):
                said, found[when] = paper(Path(papers) / when)
            print(f"{when}: the plan of a bracket has {len(said.split())} words")  # noqa: T201
        save(rows(list(found.items())), folder / "sheet.png")
    taken = {}
    for when, tree in trees.items():
        with source(tree):
            taken[when] = pages()
    for name in SUBJECTS:
        for dark in (True, False):
            look = "dark" if dark else "light"
            save(beside(taken, name, dark=dark), folder / f"{name}.{look}.png")


@contextmanager
def source(tree: Path) -> Iterator[None]:
    """Let what is started within run from the source of a tree."""
    kept = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = str(tree / "src")
    try:
        yield
    finally:
        forget()  # the server that others are copied from: the next is of another tree
        if kept is None:
            del os.environ["PYTHONPATH"]
        else:
            os.environ["PYTHONPATH"] = kept


def pages() -> Pictures:
    """Take every subject on every screen in both looks."""
    demo = ROOT / "src" / "strapwright" / "service" / "demo_jobs" / "fender-hanger.toml"
    bracket = BRACKET.read_text(encoding="utf-8")
    texts = {
        "sound": demo.read_text(encoding="utf-8"),
        "refused": REFUSED,
        "bare": bracket.partition("[tooling]")[0],
    }
    taken: Pictures = {}
    with (
        tempfile.TemporaryDirectory() as store,
        served(Path(store)) as server,
        browser(server, WIDE) as page,
    ):
        roots = {name: bring(page, Path(store), name, text) for name, text in texts.items()}
        settle(page, f"{roots['refused']}/bends")
        for name, (job, path) in SUBJECTS.items():
            for screen, size in SCREENS.items():
                resize(page, size)
                for dark in (True, False):
                    prefer(page, "dark" if dark else "light")
                    page.open(f"{roots[job]}/{path}")
                    time.sleep(SETTLING)
                    seen = io.BytesIO(page.driver.get_screenshot_as_png())
                    taken[name, screen, dark] = Image.open(seen).convert("RGB")
    return taken


def bring(page: Page, folder: Path, name: str, text: str) -> str:
    """Import a job by the form, whatever its button says, and return the address of the job."""
    file = folder / f"{name}.toml"
    file.write_text(text, encoding="utf-8")
    page.open("/")
    page.field("file").send_keys(str(file))
    page.driver.execute_script("document.getElementById('file').form.requestSubmit()")
    page.until(lambda: page.path.startswith("/jobs/") and page.ready())
    return page.path.rpartition("/")[0]


def settle(page: Page, path: str) -> None:
    """Wait until the search beside a refused part has ended."""
    end = time.monotonic() + REMEDIES
    while time.monotonic() < end:
        page.open(path)
        if "Looking for" not in page.find("body").text:
            return
        time.sleep(2.0)


def paper(folder: Path) -> tuple[str, Image.Image]:
    """Plan a bracket; return what the command says and its paper, page beside page."""
    said = subprocess.run(  # noqa: S603
        [sys.executable, "-m", "strapwright", "plan", str(BRACKET), "--out", str(folder)],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    seen = []
    for name in ("sheet", "template"):
        stem = folder / name
        command = ["pdftoppm", "-r", str(DPI), "-png", f"{stem}.pdf", str(stem)]
        subprocess.run(  # noqa: S603
            command,
            check=True,
            capture_output=True,
        )
        seen += [Image.open(one).convert("RGB") for one in sorted(folder.glob(f"{name}-*.png"))]
    return said, in_a_row(seen, "#808080")


def beside(taken: dict[str, Pictures], name: str, *, dark: bool) -> Image.Image:
    """Set before and now of one subject beside each other, one screen under another."""
    ground = "#000000" if dark else "#d8dde1"
    found = []
    for when, pictures in taken.items():
        one = {screen: shrunk(pictures[name, screen, dark]) for screen in SCREENS}
        low = in_a_row([one["phone"], one["side"]], ground)
        tall = Image.new(
            "RGB", (max(one["screen"].width, low.width), one["screen"].height + GAP + low.height),
            ground,
        )  # fmt: skip
        tall.paste(one["screen"], (0, 0))
        tall.paste(low, (0, one["screen"].height + GAP))
        found.append(titled(tall, when, dark=dark))
    return in_a_row(found, ground)


def rows(found: list[tuple[str, Image.Image]]) -> Image.Image:
    """Set pictures under each other, each with its word."""
    named = [titled(one, when, dark=False) for when, one in found]
    whole = Image.new(
        "RGB", (max(one.width for one in named), sum(one.height for one in named)), "#808080"
    )
    at = 0
    for one in named:
        whole.paste(one, (0, at))
        at += one.height
    return whole


def in_a_row(pictures: list[Image.Image], ground: str) -> Image.Image:
    """Set pictures beside each other."""
    wide = sum(one.width for one in pictures) + GAP * (len(pictures) - 1)
    row = Image.new("RGB", (wide, max(one.height for one in pictures)), ground)
    at = 0
    for one in pictures:
        row.paste(one, (at, 0))
        at += one.width + GAP
    return row


def titled(picture: Image.Image, words: str, *, dark: bool) -> Image.Image:
    """Write a word above a picture."""
    ground, ink = ("#000000", "#e6edf3") if dark else ("#d8dde1", "#14191e")
    whole = Image.new("RGB", (picture.width, picture.height + HEAD), ground)
    ImageDraw.Draw(whole).text((4, 3), words, fill=ink, font_size=14)
    whole.paste(picture, (0, HEAD))
    return whole


def shrunk(picture: Image.Image) -> Image.Image:
    """Make a page smaller."""
    size = (round(picture.width * SHARE), round(picture.height * SHARE))
    return picture.resize(size, Image.Resampling.LANCZOS)


def save(picture: Image.Image, file: Path) -> None:
    """Save with few colours, which keeps it small."""
    few = picture.quantize(COLOURS, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
    few.save(file, optimize=True)


if __name__ == "__main__":
    try:
        main(
            Path(sys.argv[1]).resolve(),
            Path(sys.argv[2]) if len(sys.argv) > 2 else ROOT / "docs" / "pictures" / "before-after",
        )
    finally:
        close_all()
