"""What a first look leaves open is searched beside the pages, and outlives the server."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from test_web import PORT, Browser

from strapwright.findings import Finding, KeyAt, Severity, Yes
from strapwright.pages import workshop
from strapwright.pages.long_work import found_orders, seeking
from strapwright.pages.long_work.found_orders import ORDERS, FoundOrders
from strapwright.pages.long_work.searching_on import hasty, undecided
from strapwright.pages.workshop import Workshop
from strapwright.planning.hits_and_stacks.ordered_bends import FoundOrder
from strapwright.planning.plan import plan
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.shop_log.logged_push import JobText, log_push
from strapwright.shop_files.reading_job import read_job
from strapwright.store import Store, StoreError, open_store
from strapwright.web import create_app

HANGER = (JOBS / f"{NAMES[0]}.toml").read_text(encoding="utf-8")
HAT = (JOBS / f"{NAMES[2]}.toml").read_text(encoding="utf-8")
WAIT = 300.0  # s; what hangs fails the test instead of the run


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with open_store(tmp_path / "store") as kept:
        yield kept


@pytest.fixture
def hurried(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing but what takes no time is found at a first look."""
    monkeypatch.setattr(workshop, "first_look", lambda: lambda: False)


def sleeping() -> subprocess.Popen[bytes]:
    words = "import sys, time; sys.stdin.buffer.read(1); time.sleep(600)"
    return subprocess.Popen(
        [sys.executable, "-c", words], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )


def demonstrated(store: Store) -> tuple[Workshop, Browser, str, str]:
    """A shop with the demonstration, its pages, and where its job is."""
    shop = Workshop(store)
    client = Browser(create_app(shop, PORT))
    root = client.post("/demo", follow=False).headers["location"].removesuffix("/part")
    return shop, client, root, root.rpartition("/")[2]


def until(what: Callable[[], object]) -> None:
    end = time.monotonic() + WAIT
    while not what():
        assert time.monotonic() < end
        time.sleep(0.02)


@pytest.mark.usefixtures("searches_start_anew")
def test_a_first_look_shows_a_page_and_the_search_goes_on_beside_every_page(
    store: Store, hurried: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    del hurried
    shop, client, root, job = demonstrated(store)
    assert client.get(f"{root}/bends/1").status_code == 200
    # Whichever page comes first begins it, and every page of the job says that it runs.
    for path in ("part", "bends/1", "print", "log"):
        text = client.get(f"{root}/{path}").text
        assert "<small>searching</small>" in text or shop.seeking.ends(job), path
    text = client.get(f"{root}/bends").text
    assert "of at most 30 s" in text or shop.seeking.ends(job)
    # Paper waits for it: the order is proven, though no page was asked for since.
    monkeypatch.setattr(seeking, "_PATIENCE", WAIT)
    made = client.get(f"{root}/files/plan.json").text
    assert "order-not-" not in made
    assert "coming-off-no-time" not in made
    assert client.get(f"/live/{job}/now").json()["searched"] == 1
    text = client.get(f"{root}/bends").text
    assert "Still searching" not in text
    assert "Go on searching" not in text
    assert "<small>searching</small>" not in text
    assert 'data-searched="1"' in text


def test_a_full_disk_refuses_no_page_and_searches_once(
    store: Store, hurried: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    del hurried
    shop, client, root, job = demonstrated(store)

    def full(*_: object) -> None:
        raise StoreError(store.folder, "it cannot be written", "make room")

    monkeypatch.setattr(store, "set_setting", full)
    assert client.get(f"{root}/bends/1").status_code == 200
    until(lambda: shop.seeking.ends(job))
    assert "order-not-" not in client.get(f"{root}/files/plan.json").text
    for path in ("part", "bends/1", "bends"):
        assert "<small>searching</small>" not in client.get(f"{root}/{path}").text
    assert shop.seeking.ends(job) == 1


def test_a_search_that_is_stopped_waits_to_be_asked_for(
    store: Store, hurried: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    del hurried
    begun: list[subprocess.Popen[bytes]] = []

    def start() -> subprocess.Popen[bytes]:
        begun.append(sleeping())
        return begun[-1]

    shop = Workshop(store)
    monkeypatch.setattr(shop.seeking._searching, "_start", start)
    client = Browser(create_app(shop, PORT))
    root = client.post("/demo", follow=False).headers["location"].removesuffix("/part")
    assert "Stop the search" in client.get(f"{root}/bends").text
    until(lambda: begun)
    text = client.post(f"{root}/bends", data={"do": "stop-searching"}).text
    assert begun[0].wait(WAIT) != 0
    assert "You stopped the search" in text
    assert "Go on searching" in text
    for path in ("part", "bends/1", "bends"):
        assert "<small>searching</small>" not in client.get(f"{root}/{path}").text
    assert len(begun) == 1
    text = client.post(f"{root}/bends", data={"do": "search-on"}).text
    assert "You stopped the search" not in text
    until(lambda: len(begun) == 2)
    assert "of at most 5 min" in client.get(f"{root}/bends").text
    # The server is stopped under it; the next one takes it up, for as long as was asked for.
    later = Workshop(store)
    monkeypatch.setattr(later.seeking._searching, "_start", start)
    again = Browser(create_app(later, PORT))
    assert "<small>searching</small>" in again.get(f"{root}/bends/1").text
    until(lambda: len(begun) == 3)
    assert "of at most 5 min" in again.get(f"{root}/bends").text
    again.post(f"{root}/bends", data={"do": "stop-searching"})
    client.post(f"{root}/bends", data={"do": "stop-searching"})
    assert all(one.wait(WAIT) != 0 for one in begun)


def test_what_a_search_found_outlives_the_server(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as first:
        first.setattr(workshop, "first_look", lambda: lambda: False)
        shop = Workshop(store)
        item = shop.store.create("job", "hat", HAT, workshop._now())
        opened = shop.open(item.id)
        shop.plan(HAT)
        shop.go_on(opened)
        until(lambda: shop.seeking.ends(item.id))
        found = shop.plan(HAT)
    assert not undecided(found)
    bends = tuple(step.bend for step in found.steps)
    asked: list[FoundOrder | None] = []

    def planned(*words: Any, found_before: FoundOrder | None = None, **named: Any) -> Any:
        asked.append(found_before)
        return plan(*words, found_before=found_before, **named)

    monkeypatch.setattr(workshop, "plan", planned)
    again = Workshop(store)
    made = again.plan(HAT)
    assert asked == [FoundOrder(bends=bends, proven=True)]
    assert tuple(step.bend for step in made.steps) == bends
    assert made.findings == found.findings
    assert again.go_on(again.open(item.id)) is None
    # With another line of the log it is the order still, but nobody has proven it again.
    again.plan(HAT.replace("format = 1", "format = 1\n"))
    assert asked[1] is None  # another text is another job
    key = (HAT, (("", "one more line"),))
    assert FoundOrders(store).of(key) == FoundOrder(bends=bends, proven=False)


def test_the_log_goes_by_the_order_that_a_search_found_since(store: Store) -> None:
    shop = Workshop(store)
    item = store.create("job", "bracket", HAT, workshop._now())
    opened = shop.open(item.id)

    def orders() -> tuple[list[int], list[int]]:
        both = shop.plan(opened.text), shop.order_plan(opened.text)
        return tuple([step.bend for step in made.steps] for made in both)  # type: ignore[return-value]

    looked, by_log = orders()
    assert looked == by_log
    other = looked[::-1]
    of = shop.of(opened)
    shop.seeking._found.begun(of.job, of.key, 30.0)
    stated = HAT.replace("[part]", f"[part]\norder = {other}", 1)
    shop.seeking._ended(of, plan(read_job(stated)))
    assert orders() == (other, other)
    # A line of the log makes a new plan of the same order: for its own page too.
    push = JobText(item=item.id, version=opened.version, text=HAT)
    log_push(store, push, {"angle": "88"}, bend=1, at=workshop._now(), sure=True, ahead=False)
    assert orders() == (other, other)


def test_what_was_kept_of_searches_is_read_with_care(store: Store) -> None:
    key = (HAT, ())
    kept = FoundOrders(store)
    kept.begun("job", key, 300.0)
    assert FoundOrders(store).cut_off("job", key) == 300.0
    assert kept.cut_off("job", key) is None  # it runs here
    assert FoundOrders(store).cut_off("job", (HANGER, ())) is None
    assert FoundOrders(store).cut_off("other", key) is None
    good = json.loads(store.setting(ORDERS) or "")
    for wrong in (
        "", "{", "[]", "null", '{"job": 1}', "[" * 100_000,
        json.dumps({"job": good["job"] | {"bends": ["1"]}}),
        json.dumps({"job": good["job"] | {"bends": [1] * 5000}}),
        json.dumps({"job": good["job"] | {"state": "proven"}}),
    ):  # fmt: skip
        store.set_setting(ORDERS, wrong)
        assert FoundOrders(store).of(key) is None
        assert FoundOrders(store).cut_off("job", key) is None
    store.set_setting(ORDERS, json.dumps({"job": good["job"] | {"seconds": 1e300}}))
    assert FoundOrders(store).cut_off("job", key) == 3600.0


def test_what_another_program_found_is_searched_anew(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    key, made = (HAT, ()), plan(read_job(HAT))
    kept = FoundOrders(store)
    kept.begun("job", key, 300.0)
    kept.ended("job", key, made, proven=True)
    assert FoundOrders(store).is_over(key, made)
    monkeypatch.setattr(found_orders, "program_digest", lambda: "of the next release")
    later = FoundOrders(store)
    assert later.of(key) is None
    assert not later.is_over(key, made)


@pytest.mark.parametrize(
    "bends", [(), (1,), (1, 1, 2, 3, 4, 5), (9, 9, 9, 9), (1, 2, 3, 4, 5, 6, 7, 8, 9)]
)
def test_an_order_of_another_part_is_not_taken_over(bends: tuple[int, ...]) -> None:
    job = read_job(HAT)
    usual = plan(job)
    known = plan(job, found_before=FoundOrder(bends=bends, proven=True))
    assert [step.bend for step in known.steps] == [step.bend for step in usual.steps]
    assert known.findings == usual.findings


def test_an_order_found_before_is_held_against_the_tooling_again() -> None:
    job = read_job(HAT)
    usual = plan(job)
    bends = tuple(step.bend for step in usual.steps)
    again = plan(job, found_before=FoundOrder(bends=bends, proven=True))
    assert [step.clearance for step in again.steps] == [step.clearance for step in usual.steps]
    assert again.findings == usual.findings
    open_still = plan(job, found_before=FoundOrder(bends=bends, proven=False))
    assert undecided(open_still)
    assert {one.code for one in open_still.findings} - {one.code for one in usual.findings} == {
        "order-not-proven"
    }


@pytest.mark.parametrize("proven", [True, False])
def test_a_refusal_that_time_alone_is_behind_is_open(proven: bool) -> None:
    finding = Finding(
        code="no-order",
        severity=Severity.REFUSAL,
        about=(KeyAt("part.shape"),),
        facts={"closes_on_itself": Yes(value=False), "proven": Yes(value=proven), "refusals": ()},
    )
    made = evolve(plan(read_job(HAT), search=False), findings=(finding,))
    assert hasty(made) is undecided(made) is (not proven)
