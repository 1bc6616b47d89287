"""A real browser on a real server of its own, for the tests of the pages."""

from __future__ import annotations

import json
import re
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import axe_core_python
from selenium import webdriver
from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver.common.by import By
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import WebDriverWait

sys.path.append(str(Path(__file__).resolve().parents[1]))  # for scripts that borrow this module

from warm_serving import Started, start_server

CHROMIUM, DRIVER = "/usr/bin/chromium", "/usr/bin/chromedriver"
WIDE, PHONE = (1366, 900), (390, 844)
# Every page of a job, beneath its address.
JOB_PAGES = (
    *("part", "bar", "press", "tooling"),
    *("bends", "bends/1", "bends/whole", "print", "log", "history"),
    *("log/lines", "log/learned", "making/change"),
)
SHOP_PAGES = ("/", "/new", "/bench", "/settings")
_FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    "--disable-extensions",
    "--no-first-run",
    "--no-default-browser-check",
    "--no-proxy-server",
    "--force-device-scale-factor=1",
)
# What is too low for a finger, with all that folds opened; a box to tick is as high as its label.
LOW = """
for (const one of document.querySelectorAll("main details")) one.open = true;
const wanted = "main button, main input:not([type=hidden]):not([type=range]), main select,"
  + " main a.main";
const touched = (one) => (["checkbox", "radio"].includes(one.type) && one.closest("label")) || one;
return [...document.querySelectorAll(wanted)]
  .filter((one) => one.offsetParent && !one.classList.contains("unseen"))
  .map(touched).filter((one) => one.getBoundingClientRect().height < 43.5)
  .map((one) => one.outerHTML);
"""
# What axe looks at: each size once and each look once, since colours do not change with the size.
SIZES_AND_LOOKS = ((WIDE, "dark"), (PHONE, "light"))
UNFOLD = "document.querySelectorAll('details').forEach(one => { one.open = true; })"
PATIENCE = 60  # s; other work may share the machine


class Server:
    """``strapwright serve`` as its own process, to be killed and started again."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.folder = folder
        self.words = words
        self.port = 0
        self.process: Started | None = None

    def start(self) -> None:
        self.process = start_server(
            ["serve", "--port", str(self.port), "--store", str(self.folder), *self.words]
        )
        said = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", said)
        assert found is not None, said
        self.port = int(found[1])
        # It listens before it says so; what is asked from here on waits for it.

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    def kill(self) -> None:
        """End it as a power cut would."""
        if self.process is not None:
            self.process.kill()
            self.process = None


@contextmanager
def served(folder: Path, *words: str) -> Iterator[Server]:
    server = Server(folder, *words)
    server.start()
    try:
        yield server
    finally:
        server.kill()


class Page:
    """A browser at a server, with the few moves that a person makes."""

    def __init__(self, driver: webdriver.Chrome, server: Server) -> None:
        self.driver = driver
        self.server = server

    def open(self, path: str = "/") -> None:
        self.driver.get(self.server.address.rstrip("/") + path)

    def find(self, css: str) -> WebElement:
        return self.driver.find_element(By.CSS_SELECTOR, css)

    def field(self, name: str) -> WebElement:
        return self.driver.find_element(By.ID, name)

    def until(self, told: Callable[[], Any], patience: float = PATIENCE) -> Any:
        # A piece may be set anew between finding it and reading it.
        waiting = WebDriverWait(self.driver, patience, 0.05, [StaleElementReferenceException])
        return waiting.until(lambda _: told())

    def type(self, name: str, text: str) -> None:
        """Replace what stands in a field, as a person would: all marked, typed over."""
        field = self.field(name)
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", field)
        field.click()
        self.driver.execute_script("arguments[0].select()", field)
        field.send_keys(text)

    def press(self, words: str) -> None:
        """Press the button or follow the link that says so."""
        path = (
            f"//*[self::button or self::a][not(contains(@class, 'unseen'))]"
            f"[starts-with(normalize-space(.), {words!r})][not(@disabled)]"
        )
        before = self.find("html")

        def pressed() -> bool:
            button = self.driver.find_element(By.XPATH, path)
            self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", button)
            button.click()
            return True

        self.until(pressed)
        self.until(lambda: _gone(before) and self.ready())

    def ready(self) -> bool:
        return bool(self.driver.execute_script("return document.readyState === 'complete'"))

    def says(self, text: str) -> bool:
        return text in self.find("body").text

    @property
    def path(self) -> str:
        return self.driver.current_url.removeprefix(self.server.address.rstrip("/"))

    def asked(self) -> set[str]:
        """Addresses asked for since the last call, from the own log of a browser that is watched.

        Who else looks is asked every few seconds on every page, whatever is done there.
        """
        found = set()
        for entry in self.driver.get_log("performance"):  # type: ignore[no-untyped-call]
            message = json.loads(entry["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                found.add(message["params"]["request"]["url"])
        return {one for one in found if not re.search(r"/live/[0-9a-f]{32}/now\?", one)}

    def complaints(self) -> list[str]:
        """What the browser itself found wrong: scripts that fail, what the policy blocked."""
        log = self.driver.get_log("browser")  # type: ignore[no-untyped-call]
        return [entry["message"] for entry in log if "ERR_CONNECTION" not in entry["message"]]


def _gone(element: WebElement) -> bool:
    try:
        element.is_enabled()
    except Exception:  # noqa: BLE001 - the driver has several ways to say that a page is left
        return True
    return False


def resize(page: Page, size: tuple[int, int]) -> None:
    """Give a browser another screen."""
    wide, high = size
    metrics = {"width": wide, "height": high, "deviceScaleFactor": 1, "mobile": wide < 500}
    page.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)


def prefer(page: Page, look: str, *, calm: bool = False) -> None:
    """Say what the machine of the browser prefers, which a page follows that nobody set."""
    features = [
        {"name": "prefers-color-scheme", "value": look},
        {"name": "prefers-reduced-motion", "value": "reduce" if calm else "no-preference"},
    ]
    page.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": features})


def too_low(page: Page) -> list[str]:
    """Return what is too low for a finger on a page, with all that folds opened."""
    low: list[str] = page.driver.execute_script(LOW)
    return low


def axe_finds(page: Page, engine: str, look: str) -> list[object]:
    """Return what is hard to use on a page as it stands, in the dark or the light look."""
    # By the debugger, for the page's own policy lets no other script in.
    page.driver.execute_cdp_cmd("Runtime.evaluate", {"expression": engine})
    prefer(page, look)
    found: list[object] = page.driver.execute_async_script(
        "const [done] = arguments; axe.run({resultTypes: ['violations']})"
        ".then(all => done(all.violations.map(one => [one.id, one.nodes.map("
        "node => node.html.slice(0, 160))])))"
    )
    return found


def nothing_is_in_the_way(page: Page, paths: Iterable[str], *, unfolded: bool = False) -> None:
    """Check that axe finds nothing on pages, nothing runs out of them, and targets are large.

    Each at both sizes, one in the dark and one in the light.
    """
    engine = Path(axe_core_python.__file__).with_name("axe.min.js").read_text(encoding="utf-8")
    for size, look in SIZES_AND_LOOKS:
        resize(page, size)
        for path in paths:
            page.open(path)
            if unfolded:
                page.driver.execute_script(UNFOLD)
            assert axe_finds(page, engine, look) == [], (path, size, look)
            wide = page.driver.execute_script("return document.documentElement.scrollWidth")
            assert wide <= size[0], (path, size)
            assert too_low(page) == [], (path, size)


_idle: dict[tuple[bool, bool], list[webdriver.Chrome]] = defaultdict(list)


def _started(*, script: bool, watched: bool) -> webdriver.Chrome:
    options = webdriver.ChromeOptions()
    options.binary_location = CHROMIUM
    for flag in _FLAGS:
        options.add_argument(flag)
    logs = {"performance": "ALL", "browser": "ALL"} if watched else {"browser": "ALL"}
    options.set_capability("goog:loggingPrefs", logs)
    preferences: dict[str, Any] = {"plugins.always_open_pdf_externally": True}
    if not script:
        preferences["profile.managed_default_content_settings.javascript"] = 2
    options.add_experimental_option("prefs", preferences)
    return webdriver.Chrome(options=options, service=webdriver.ChromeService(DRIVER))


def _as_new(driver: webdriver.Chrome, address: str) -> None:
    """Leave nothing of a visit behind."""
    first, *others = driver.window_handles
    for one in others:
        driver.switch_to.window(one)
        driver.close()
    driver.switch_to.window(first)
    driver.get("about:blank")
    driver.execute_cdp_cmd("Network.clearBrowserCookies", {})
    driver.execute_cdp_cmd(
        "Storage.clearDataForOrigin", {"origin": address.rstrip("/"), "storageTypes": "all"}
    )
    driver.execute_cdp_cmd("Page.resetNavigationHistory", {})
    for log in driver.log_types:
        driver.get_log(log)  # type: ignore[no-untyped-call]


@contextmanager
def browser(
    server: Server,
    size: tuple[int, int] = WIDE,
    *,
    dark: bool = True,
    script: bool = True,
    calm: bool = False,
    watched: bool = False,
    saves_to: Path | None = None,
) -> Iterator[Page]:
    """Lend a browser that knows nothing of earlier visits; one that was in trouble is not kept.

    One that is ``watched`` writes down what it asks for, which takes its time.
    """
    idle = _idle[script, watched]
    driver = idle.pop() if idle else _started(script=script, watched=watched)
    try:
        page = Page(driver, server)
        saving = (
            {"behavior": "deny"}
            if saves_to is None
            else {"behavior": "allow", "downloadPath": str(saves_to)}
        )
        driver.execute_cdp_cmd("Browser.setDownloadBehavior", saving)
        resize(page, size)
        prefer(page, "dark" if dark else "light", calm=calm)
        yield page
        _as_new(driver, server.address)
    except BaseException:
        driver.quit()
        raise
    idle.append(driver)


def close_all() -> None:
    """End the browsers that are kept."""
    for drivers in _idle.values():
        while drivers:
            drivers.pop().quit()


def wait_for_file(folder: Path, name: str) -> Path:
    """Wait until the browser has saved a file."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        for path in folder.glob(f"*{name}"):
            if path.stat().st_size > 0:
                return path
        time.sleep(0.1)
    raise AssertionError(f"{name} was not saved: {list(folder.iterdir())}")
