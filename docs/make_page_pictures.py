"""Make the pictures of the pages: ``python docs/make_page_pictures.py [FOLDER]``.

The pages are opened in a real browser on the demonstration job: on a screen, on a phone and on a
phone on its side, each in the dark and in daylight.  Needs Debian's chromium and its driver.
"""

from __future__ import annotations

import io
import sys
import tempfile
from pathlib import Path

from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
sys.path.append(str(ROOT / "tests" / "e2e"))

from browsing import JOB_PAGES, PHONE, WIDE, Page, browser, served

A_SEARCH = 300  # s; the longest that a page lets a search for tooling run
SIDE = (844, 390)  # a phone on its side
SIDE_PAGES = ("part", "tooling", "bends", "bends/1")
# A box that closes on the nose: no order makes it on this tooling.
REFUSED = """format = 1
units = "inch"
[part]
name = "cable box"
bar = "flat 1/4 x 1-1/2"
material = "A36 hot rolled"
shape = ["5", "up 90", "3", "up 90", "4", "up 90", "5"]
[press]
bore = "3-1/2"
relief = "2000 psi"
[tooling]
nose = { shaft = "1", reach = "4-1/2" }
shoulders = { radius = "3/8", opening = "2-1/2", height = "5" }
"""
COLOURS = 256  # as many as a page's picture keeps, which makes it much smaller


def main(folder: Path) -> None:
    """Take every page in all its looks.

    Parameters
    ----------
    folder
        Where the pictures go.
    """
    folder.mkdir(parents=True, exist_ok=True)
    looks = [
        (size, dark, f"{name}-{'dark' if dark else 'light'}")
        for size, name in ((WIDE, "screen"), (PHONE, "phone"), (SIDE, "side"))
        for dark in (True, False)
    ]
    for size, dark, name in looks:
        with (
            tempfile.TemporaryDirectory() as store,  # of its own, or jobs would pile up
            served(Path(store)) as server,
            browser(server, size, dark=dark) as page,
        ):
            page.open("/")
            page.press("Open the example")
            root = page.path.removesuffix("/part")
            for path in SIDE_PAGES if size == SIDE else JOB_PAGES:
                take(page, folder, f"{name}-{path.replace('/', '-')}", f"{root}/{path}")
            take_refused(page, folder, name)
            if size == SIDE:
                continue
            take(page, folder, f"{name}-start", "/")
            take(page, folder, f"{name}-new", "/new")
            take_tooling(page, folder, name)


def take_refused(page: Page, folder: Path, name: str) -> None:
    """Take the bends of a part that cannot be made, with what was found to help."""
    file = folder / "refused.toml"
    file.write_text(REFUSED, encoding="utf-8")
    page.open("/")
    page.field("file").send_keys(str(file.resolve()))
    page.press("Import")
    file.unlink()
    take(page, folder, f"{name}-bends-refused", f"{page.path.removesuffix('/part')}/bends")


def take_tooling(page: Page, folder: Path, name: str) -> None:
    """Take the pages about the tooling, on a die that is stated in full and a rack."""
    for file, where in (("dock-rack.toml", "/rack"), ("mooring-hook-die.toml", "/")):
        page.open(where)
        page.field("file").send_keys(str(ROOT / "docs" / "examples" / file))
        page.press("Import")
    root = page.path.removesuffix("/part")
    page.open(f"{root}/propose")
    page.press("Find tooling")
    page.until(lambda: page.says("Drawbacks"), A_SEARCH)
    for path in ("/rack", "/crib", f"{root}/strength", f"{root}/propose", f"{root}/making"):
        take(page, folder, f"{name}-{path.rpartition('/')[2]}", path)


def take(page: Page, folder: Path, name: str, path: str) -> None:
    """Open a page, wait until it stands, and save what is seen."""
    page.open(path)
    if path.endswith("/part"):
        page.until(lambda: page.find(".bench").get_attribute("data-words") == "careful")
    if "/bends/" in path:
        page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
    page.driver.execute_async_script("document.fonts.ready.then(arguments[0])")
    seen = Image.open(io.BytesIO(page.driver.get_screenshot_as_png())).convert("RGB")
    few = seen.quantize(COLOURS, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
    few.save(folder / f"{name}.png", optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "docs" / "pictures" / "pages")
