"""Make the pictures of the pages: ``python docs/make_page_pictures.py [FOLDER] [--whole]``.

Every page is opened in a real browser on jobs of a small shop: on a screen, on a phone and on a
phone on its side, each in the dark and in daylight.  ``--whole`` takes each page down to its end.
Needs Debian's chromium and its driver.
"""

from __future__ import annotations

import base64
import io
import sys
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
sys.path.append(str(ROOT / "tests" / "e2e"))

from browsing import JOB_PAGES, PHONE, WIDE, Page, browser, close_all, prefer, resize, served

A_SEARCH = 300  # s; the longest that a page lets a search for tooling run
SIDE = (844, 390)  # a phone on its side
SIZES = {"screen": WIDE, "phone": PHONE, "side": SIDE}
# Of the other pages a phone on its side shows nothing that the upright one does not.
SIDE_PAGES = frozenset(("part", "tooling", "bends", "bends-1", "bends-refused", "log"))
EXAMPLES = ROOT / "docs" / "examples"
# A leg that ends on the shoulder: no order makes it on this tooling, two changes would.
REFUSED = """format = 1
units = "inch"
[part]
name = "deck bracket"
quantity = 12
bar = "flat 3/16 x 1-1/2"
material = "1018 hot rolled"
shape = ["8", "up 90", "6", "up 90", "1-1/4"]
[press]
bore = "3-3/4"
rod = "2"
relief = "2200 psi"
stroke = "10"
daylight = "8"
bed_width = "16"
[tooling]
plate = { width = "4", thick = "3/4" }
nose = { shaft = "3/4", span = "2-1/2", web = { thick = "1/2", height = "4" } }
shoulders = { radius = "3/8", opening = "2-1/4", depth = "2-1/2", height = "4" }
"""
# After release and at the pressure gauge, on the first parts of a batch of brackets.
READ = (("88.6", "820"), ("89.4", "835"), ("90.1", "830"), ("89.7", "840"))
RATES = """format = 1
units = "inch"
[money]
currency = "USD"
labour = 45
[[price]]
price = 1.1
by = "lb"
"""
QUICK = "/bench?ask=force&bore=3-1%2F2&pressure=1500+psi&units=inch#force"
MONEY = "money?quantities=10%2C+50&minutes=25&a_year=200"
# Name of the picture -> address, on the jobs that the shop is filled with; a test holds it to have
# every page there is.
ADDRESSES: dict[str, str] = {
    **{path.replace("/", "-"): f"{{demo}}/{path}" for path in JOB_PAGES},
    "bends-refused": "{refused}/bends",
    "bends-1-refused": "{refused}/bends/1",
    "start": "/",
    "new": "/new",
    **{
        name: f"/{name}"
        for name in ("rack", "crib", "rates", "week", "lots", "sharing", "bench", "settings")
    },
    "bench-answer": QUICK,
    "cut": "/cut?{cut}",
    "strength": "{die}/strength",
    "propose": "{die}/propose",
    "making": "{die}/making",
    "making-changed": "{die}/making/change?before={hanger}",
    "log-kept": "{bracket}/log",
    "log-lines-kept": "{bracket}/log/lines",
    "log-learned-kept": "{bracket}/log/learned",
    "log-chart": "{bracket}/log/chart",
    "log-trial": "{bracket}/log/trial",
    "log-bar": "{bracket}/log/bar",
    "money": f"{{bracket}}/{MONEY}",
    "trouble": "/no/such/page",
    "sharing-open": "/sharing",
}
COLOURS = 256  # as many as a page's picture keeps, which makes it much smaller


def main(folder: Path, *, whole: bool = False, only: str = "") -> None:
    """Take every page in all its looks.

    Parameters
    ----------
    folder
        Where the pictures go.
    whole
        Whether each page is taken down to its end, and all of them on a phone on its side too.
    only
        Part of the name of the pages that are taken; empty for all.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with (
        tempfile.TemporaryDirectory() as store,
        served(Path(store), "--address", "127.0.0.2") as server,
        browser(server) as page,
    ):
        for name, path in subjects(page, Path(store)).items():
            if only not in name:
                continue
            for size, screen in SIZES.items():
                if size == "side" and not whole and name not in SIDE_PAGES:
                    continue
                resize(page, screen)
                for look in ("dark", "light"):
                    prefer(page, look)
                    share(page, shared=name == "sharing-open")
                    stands(page, path)
                    take(page, folder / f"{size}-{look}-{name}.png", whole=whole)


def subjects(page: Page, store: Path) -> dict[str, str]:
    """Fill a shop, and return the address of every page by the name of its picture."""
    page.open("/")
    page.press("Open the example")
    demo = page.path.removesuffix("/part")
    refused = bring(page, store / "deck bracket.toml", REFUSED)
    bracket = bring(page, store / "shelf bracket.toml", due(EXAMPLES / "shelf-bracket.toml"))
    for angle, gauge in READ:
        log(page, f"{bracket}/log", angle, gauge)
    (store / "rates.toml").write_text(RATES, encoding="utf-8")
    for shelf, file in (("rack", EXAMPLES / "dock-rack.toml"), ("rates", store / "rates.toml")):
        page.open(f"/{shelf}")
        page.field("file").send_keys(str(file))
        page.press("Import")
    hook = (EXAMPLES / "mooring-hook-die.toml").read_text("utf-8")
    die = bring(page, store / "mooring hook.toml", hook)
    page.open(f"{die}/propose")
    page.press("Find tooling")
    page.until(lambda: page.says("Drawbacks"), A_SEARCH)
    jobs = {
        "demo": demo,
        "refused": refused,
        "bracket": bracket,
        "die": die,
        "hanger": demo.rpartition("/")[2],
        "cut": "&".join(f"job={one.rpartition('/')[2]}" for one in (bracket, demo)),
    }
    return {name: path.format_map(jobs) for name, path in ADDRESSES.items()}


def share(page: Page, *, shared: bool) -> None:
    """Open the pages to the network, or shut them."""
    if page.path != "/sharing" and not shared:
        return
    page.open("/sharing")
    wanted = "Share on the network" if shared else "Stop sharing"
    if page.says(wanted):
        page.press(wanted)


def bring(page: Page, file: Path, text: str) -> str:
    """Import a job by way of a file, and return its address."""
    file.write_text(text, encoding="utf-8")
    page.open("/")
    page.field("file").send_keys(str(file))
    page.press("Import")
    file.unlink()
    return page.path.removesuffix("/part")


def due(file: Path) -> str:
    """Return a job that is due in a week."""
    day = (datetime.now(UTC) + timedelta(days=7)).date()
    return file.read_text("utf-8").replace("[part]", f'[part]\ndue = "{day}"', 1)


def log(page: Page, path: str, angle: str, gauge: str) -> None:
    """Log one push as a person at the press does."""
    page.open(path)
    page.type("angle", angle)
    page.type("gauge", gauge)
    page.press("Keep, next bend")


def stands(page: Page, path: str) -> None:
    """Open a page and wait until it stands."""
    page.open(path)
    if path.endswith("/part"):
        page.until(lambda: page.find(".bench").get_attribute("data-words") == "careful")
    if page.driver.find_elements("css selector", "[data-ram]"):  # a refused bend has no stroke
        page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
    page.until(lambda: not _seeking(page, path), A_SEARCH)
    page.driver.execute_async_script("document.fonts.ready.then(arguments[0])")


def _seeking(page: Page, path: str) -> bool:
    """Whether remedies are looked for yet; the page is opened again to see what was found."""
    if not page.says("Looking for a way to make it"):
        return False
    page.open(path)
    return True


def take(page: Page, file: Path, *, whole: bool) -> None:
    """Save what is seen."""
    seen = Image.open(io.BytesIO(shot(page, whole=whole))).convert("RGB")
    few = seen.quantize(COLOURS, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
    few.save(file, optimize=True)


def shot(page: Page, *, whole: bool) -> bytes:
    """Return the picture of the screen, or of the page down to its end."""
    if not whole:
        raw: bytes = page.driver.get_screenshot_as_png()
        return raw
    taken = page.driver.execute_cdp_cmd("Page.captureScreenshot", {"captureBeyondViewport": True})
    return base64.b64decode(taken["data"])


if __name__ == "__main__":
    wanted = [one for one in sys.argv[1:] if not one.startswith("--")]
    try:
        main(
            Path(wanted[0]) if wanted else ROOT / "docs" / "pictures" / "pages",
            whole="--whole" in sys.argv,
            only=next((one[7:] for one in sys.argv if one.startswith("--only=")), ""),
        )
    finally:
        close_all()
