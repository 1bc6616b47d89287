"""Plans are made outside any lock, once for all who ask, and only while somebody waits."""

from __future__ import annotations

import asyncio
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from strapwright.pages import workshop
from strapwright.pages.long_work.attendance import AbandonedError, attended_by
from strapwright.pages.long_work.kept_plans import KeptPlans
from strapwright.pages.long_work.order_worker import AskedOrder
from strapwright.pages.long_work.searching_on import SearchingOn
from strapwright.planning.plan_values import Plan
from strapwright.service.demo import JOBS, NAMES
from strapwright.shop_files.reading_job import read_job
from strapwright.store import import_one, open_store
from strapwright.web import create_app

WAIT = 10.0  # s; a thread that hangs fails the test instead of the run
EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"


class Maker:
    """Makes a plan when it is let; asks meanwhile whether anybody waits."""

    def __init__(self) -> None:
        self.begun, self.allowed = threading.Event(), threading.Event()
        self.times = 0

    def __call__(self, keep_going: Callable[[], bool]) -> Plan:
        self.times += 1
        self.begun.set()
        end = time.monotonic() + WAIT
        while not self.allowed.wait(0.005):
            keep_going()
            assert time.monotonic() < end
        return object()  # type: ignore[return-value]


@pytest.fixture
def threads() -> Any:
    with ThreadPoolExecutor(4) as pool:
        yield pool


def ask(plans: KeptPlans, text: str, maker: Maker, left: threading.Event | None = None) -> Plan:
    with attended_by((left or threading.Event()).is_set):
        return plans.get((text, ()), maker)


def joined(plans: KeptPlans, text: str, count: int) -> None:
    """Wait until so many wait for one plan."""
    end = time.monotonic() + WAIT
    while len(plans._making[text, ()].waiting) < count:
        assert time.monotonic() < end
        time.sleep(0.002)


def test_two_who_ask_for_the_same_are_given_one_plan(threads: ThreadPoolExecutor) -> None:
    plans, maker = KeptPlans(), Maker()
    asked = [threads.submit(ask, plans, "a", maker) for _ in range(2)]
    assert maker.begun.wait(WAIT)
    joined(plans, "a", 2)
    maker.allowed.set()
    first, second = (one.result(WAIT) for one in asked)
    assert first is second
    assert ask(plans, "a", maker) is first
    assert maker.times == 1


def test_another_plan_is_made_and_a_kept_one_given_while_one_is_made(
    threads: ThreadPoolExecutor,
) -> None:
    plans, slow, quick = KeptPlans(), Maker(), Maker()
    quick.allowed.set()
    kept = ask(plans, "b", quick)
    waiting = threads.submit(ask, plans, "a", slow)
    assert slow.begun.wait(WAIT)
    assert ask(plans, "b", quick) is kept
    assert ask(plans, "c", quick) is not kept
    assert not waiting.done()
    slow.allowed.set()
    waiting.result(WAIT)


def test_work_nobody_waits_for_stops_and_is_begun_again(threads: ThreadPoolExecutor) -> None:
    plans, maker, left = KeptPlans(), Maker(), threading.Event()
    asked = threads.submit(ask, plans, "a", maker, left)
    assert maker.begun.wait(WAIT)
    left.set()
    with pytest.raises(AbandonedError):
        asked.result(WAIT)
    maker.allowed.set()
    ask(plans, "a", maker)
    assert maker.times == 2


@pytest.mark.parametrize("leaves", [0, 1])
def test_work_goes_on_while_one_of_two_waits(threads: ThreadPoolExecutor, leaves: int) -> None:
    plans, maker = KeptPlans(), Maker()
    left = [threading.Event(), threading.Event()]
    asked: list[Future[Plan]] = []
    for count, one in enumerate(left, start=1):
        asked.append(threads.submit(ask, plans, "a", maker, one))
        assert maker.begun.wait(WAIT)
        joined(plans, "a", count)
    left[leaves].set()
    if leaves == 1:  # the one that makes it cannot leave before it is made
        with pytest.raises(AbandonedError):
            asked[1].result(WAIT)
    maker.allowed.set()
    asked[1 - leaves].result(WAIT)
    assert maker.times == 1


def test_a_request_whose_browser_leaves_ends_its_plan(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    maker = Maker()
    monkeypatch.setattr(workshop, "plan", lambda _, *, keep_going, **rest: maker(keep_going))  # noqa: ARG005
    raw = (EXAMPLES / "rail-stay.toml").read_bytes()
    with open_store(tmp_path / "store") as store:
        item = import_one(store, "rail.toml", raw, workshop._now())
        app = create_app(workshop.Workshop(store), 8117)
        scope = {
            "type": "http",
            "asgi": {"version": "3.0"},
            "http_version": "1.1",
            "method": "GET",
            "path": f"/jobs/{item.id}/bends",
            "raw_path": b"",
            "query_string": b"",
            "headers": [(b"host", b"127.0.0.1:8117")],
            "server": ("127.0.0.1", 8117),
        }
        body = iter(({"type": "http.request", "body": b"", "more_body": False},))

        async def receive() -> dict[str, Any]:
            for one in body:
                return one
            await asyncio.to_thread(maker.begun.wait, WAIT)
            return {"type": "http.disconnect"}

        sent: list[dict[str, Any]] = []

        async def send(message: dict[str, Any]) -> None:
            sent.append(message)

        asyncio.run(app(scope, receive, send))  # type: ignore[arg-type]
    assert maker.times == 1
    assert sent[0]["status"] == 408


def plan_by_hand() -> Plan:
    return object()  # type: ignore[return-value]


def test_a_plan_of_a_long_search_outlasts_the_plans_made_in_passing() -> None:
    plans = KeptPlans()
    first = plans.get(("mine", ()), lambda _: plan_by_hand())
    for number in range(12):  # as many as are kept: the first is forgotten
        plans.get((f"other {number}", ()), lambda _: plan_by_hand())
    better = plan_by_hand()
    plans.put("job", ("mine", ()), better)
    for number in range(40):
        plans.get((f"later {number}", ()), lambda _: plan_by_hand())
    assert plans.get(("mine", ()), lambda _: plan_by_hand()) is better is not first
    newer = plan_by_hand()
    plans.put("job", ("newer", ()), newer)  # of the same job: the old text's plan has had its day
    assert plans.get(("newer", ()), lambda _: plan_by_hand()) is newer
    assert plans.get(("mine", ()), lambda _: plan_by_hand()) is not better


def test_plans_of_long_searches_are_capped() -> None:
    plans, better = KeptPlans(), plan_by_hand()
    plans.put("first", ("first", ()), better)
    for number in range(24):
        plans.put(number, (f"text {number}", ()), plan_by_hand())
    assert plans.get(("first", ()), lambda _: plan_by_hand()) is not better


def sleeping() -> subprocess.Popen[bytes]:
    """A process that takes what it is asked and never answers."""
    words = "import sys, time; sys.stdin.buffer.read(1); time.sleep(600)"
    return subprocess.Popen(
        [sys.executable, "-c", words], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )


def ending() -> subprocess.Popen[bytes]:
    """A process that ends without an answer."""
    return subprocess.Popen(
        [sys.executable, "-c", ""], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )


def asked() -> AskedOrder:
    text = (JOBS / f"{NAMES[0]}.toml").read_text(encoding="utf-8")
    return AskedOrder(job=read_job(text), learned=None, seconds=300.0)


def until(what: Callable[[], object]) -> None:
    end = time.monotonic() + WAIT
    while not what():
        assert time.monotonic() < end
        time.sleep(0.002)


def test_a_search_tells_how_far_it_is_and_a_newer_text_of_its_job_ends_it() -> None:
    made: list[subprocess.Popen[bytes]] = []

    def start() -> subprocess.Popen[bytes]:
        made.append(sleeping())
        return made[-1]

    searching, ended = SearchingOn(start), list[Plan | None]()
    assert searching.begin("job", "old text", asked(), ended.append)
    assert not searching.begin("job", "old text", asked(), ended.append)  # runs already
    until(lambda: made)
    far = searching.runs("old text")
    assert far is not None
    assert 0.0 <= far.share < 0.2
    until(lambda: str(searching.runs("old text").text).endswith(" of at most 5 min"))  # type: ignore[union-attr]
    searching.begin("job", "new text", asked(), ended.append)
    assert made[0].wait(WAIT) != 0
    until(lambda: len(made) == 2)
    assert searching.runs("old text") is None
    assert searching.runs("new text") is not None
    assert searching.said("job", "new text") == ""
    assert not searching.stop("job", "old text")  # is no more
    assert searching.runs("new text") is not None
    assert not searching.ended_within("new text", 0.0)
    assert searching.stop("job", "new text")
    assert made[1].wait(WAIT) != 0
    assert searching.runs("new text") is None
    assert searching.ended_within("new text", 0.0)
    assert "You stopped" in searching.said("job", "new text")
    assert searching.said("job", "old text") == ""
    searching.forget("job")
    assert searching.said("job", "new text") == ""
    assert ended == []


def test_a_search_that_breaks_says_so() -> None:
    searching, ended = SearchingOn(ending), list[Plan | None]()
    searching.begin("job", "text", asked(), ended.append)
    until(lambda: searching.said("job", "text"))
    assert "ended without an answer" in searching.said("job", "text")
    assert searching.runs("text") is None
    assert ended == [None]


def test_two_searches_run_and_the_others_wait_their_turn() -> None:
    made: list[subprocess.Popen[bytes]] = []

    def start() -> subprocess.Popen[bytes]:
        made.append(sleeping())
        return made[-1]

    many = SearchingOn(start)
    for number in range(2):
        many.begin(number, f"text {number}", asked(), lambda _: None)
    until(lambda: len(made) == 2)
    for number in (2, 3):
        many.begin(number, f"text {number}", asked(), lambda _: None)
    until(lambda: many.runs("text 2").text == "waits for other searches to end")  # type: ignore[union-attr]
    many.stop(2, "text 2")  # never begun, and never will be
    assert all(many.runs(f"text {number}") for number in (0, 1, 3))
    many.stop(0, "text 0")
    until(lambda: len(made) == 3)
    until(lambda: many.runs("text 3").text.endswith(" of at most 5 min"))  # type: ignore[union-attr]
    assert [one.poll() for one in made].count(None) == 2
    for number in (1, 3):
        many.stop(number, f"text {number}")
    assert all(one.wait(WAIT) != 0 for one in made)
    assert len(made) == 3
