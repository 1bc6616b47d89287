"""Two jobs at once in a real browser: one whose plan is being made, one whose plan is kept."""

from __future__ import annotations

import statistics
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import httpx
import pytest
import uvicorn

sys.path.append(str(Path(__file__).parent))

from browsing import browser

from strapwright.pages import workshop
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.shop_files.updating import update_job
from strapwright.store import Item, import_one, open_store
from strapwright.web import create_app

pytestmark = pytest.mark.browser
EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
HARD, EASY = "gangway rail bracket", "shelf bracket"
WAIT = 60.0  # s; a plan that is never let go on fails the test instead of the run
ASKED = 7  # times


class Own:
    """What a browser is opened at."""

    def __init__(self, address: str) -> None:
        self.address = address


class Shop:
    """The pages in this process, with the plan of one job held until it is let go on."""

    def __init__(self, port: int, hard: Item, easy: Item) -> None:
        self.address = f"http://127.0.0.1:{port}/"
        self.hard, self.easy = f"/jobs/{hard.id}/bends", f"/jobs/{easy.id}/bends"
        self.begun, self.allowed = threading.Event(), threading.Event()
        self.planned: list[str] = []

    def held(self, job: Any, *, keep_going: Callable[[], bool], **rest: Any) -> Plan:
        """Plan as ever, but work in Python on the hard job until it is allowed to end."""
        self.planned.append(job.part.name)
        if job.part.name != HARD:
            return plan(job, keep_going=keep_going, **rest)
        self.begun.set()
        end = time.monotonic() + WAIT
        while not self.allowed.is_set():
            sum(range(20_000))
            keep_going()
            assert time.monotonic() < end
        return plan(job, keep_going=keep_going, **rest)


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Shop]:
    with open_store(tmp_path / "store") as store:
        items = []
        for name in (HARD, EASY):
            text = (EXAMPLES / f"{name.replace(' ', '-')}.toml").read_text("utf-8")
            raw = update_job(text, {"part.name": name}).encode()
            items.append(import_one(store, f"{name}.toml", raw, workshop._now()))
        with serving(workshop.Workshop(store)) as port:
            made = Shop(port, *items)
            monkeypatch.setattr(workshop, "plan", made.held)
            yield made
            made.allowed.set()


@contextmanager
def serving(shop: workshop.Workshop) -> Iterator[int]:
    """Serve in this process at a free port."""
    settings = uvicorn.Config("", host="127.0.0.1", port=0, log_level="warning", ws="none")
    listening = settings.bind_socket()
    port = int(listening.getsockname()[1])
    settings.app = create_app(shop, port)
    server = uvicorn.Server(settings)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
    thread.start()
    try:
        yield port
    finally:
        server.should_exit = True
        thread.join()


def seconds(address: str) -> float:
    """How long an answer takes, in the middle of several."""
    taken = []
    for _ in range(ASKED):
        begun = time.perf_counter()
        assert httpx.get(address, timeout=WAIT, trust_env=False).status_code == 200
        taken.append(time.perf_counter() - begun)
    return statistics.median(taken)


def test_a_kept_plan_is_shown_while_the_plan_of_another_job_is_made(shop: Shop) -> None:
    with browser(Own(shop.address)) as page:  # type: ignore[arg-type]
        page.open(shop.easy)  # kept from here on
        assert page.find(".order li .step").text.startswith("Bend 1")
        first = page.driver.current_window_handle
        page.driver.execute_script("window.open(arguments[0])", shop.hard)
        page.until(shop.begun.is_set)
        page.driver.refresh()
        assert page.find(".order li .step").text.startswith("Bend 1")
        assert not shop.allowed.is_set()
        other = next(one for one in page.driver.window_handles if one != first)
        shop.allowed.set()
        page.driver.switch_to.window(other)
        page.until(lambda: page.says("Bend order"))


@pytest.mark.long
def test_a_kept_plan_is_given_about_as_soon_as_alone(shop: Shop) -> None:
    """Twice its time is meant; here other work shares the machine, so more is let pass."""
    easy = shop.address.rstrip("/") + shop.easy
    alone = seconds(easy)
    asking = threading.Thread(
        target=httpx.get, args=[shop.address.rstrip("/") + shop.hard],
        kwargs={"timeout": WAIT, "trust_env": False},
    )  # fmt: skip
    asking.start()
    assert shop.begun.wait(WAIT)
    beside = seconds(easy)
    assert not shop.allowed.is_set()
    shop.allowed.set()
    asking.join()
    assert shop.planned.count(EASY) == 1  # whatever the clock says: it was not made again
    assert beside < 6 * alone
