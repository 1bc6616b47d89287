"""Make the pictures of the pages: ``python docs/make_page_pictures.py [FOLDER]``.

The pages are opened in a real browser on the demonstration job, on a screen in the dark and on a
phone in daylight.  Needs Debian's chromium and its driver.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.append(str(ROOT / "tests" / "e2e"))

from browsing import PHONE, WIDE, Page, browser, served  # noqa: E402  found by the line above

PAGES = ("part", "bar", "press", "tooling", "bends", "bends/1", "print", "history")


def main(folder: Path) -> None:
    """Take every page in both looks.

    Parameters
    ----------
    folder
        Where the pictures go.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as store, served(Path(store)) as server:
        for size, dark, name in ((WIDE, True, "screen"), (PHONE, False, "phone")):
            with browser(server, size, dark=dark) as page:
                page.open("/")
                page.press("Try the demonstration")
                root = page.path.removesuffix("/part")
                take(page, folder, f"{name}-start", "/")
                take(page, folder, f"{name}-new", "/new")
                for path in PAGES:
                    take(page, folder, f"{name}-{path.replace('/', '-')}", f"{root}/{path}")


def take(page: Page, folder: Path, name: str, path: str) -> None:
    """Open a page, wait until it stands, and save what is seen."""
    page.open(path)
    if path.endswith("/part"):
        page.until(lambda: page.find(".bench").get_attribute("data-results") == "fresh")
    if "/bends/" in path:
        page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
    page.driver.execute_async_script("document.fonts.ready.then(arguments[0])")
    page.driver.save_screenshot(str(folder / f"{name}.png"))


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "docs" / "pictures")
