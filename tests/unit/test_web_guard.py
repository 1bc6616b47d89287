"""Answers of every kind go through the guard: heads, breakdowns, long numbers, usual ports."""

from __future__ import annotations

import asyncio
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from fastapi import FastAPI
from fastapi.routing import APIRoute

from strapwright.pages.sharing.sharing_now import Door
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store
from strapwright.web import create_app, start_pages
from strapwright.web.downloads import given
from strapwright.web.request_guard import POLICY, hosts_of

sys.path.append(str(Path(__file__).parent))

PORT = 8117
HOME = f"http://127.0.0.1:{PORT}"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


def ask(app: FastAPI, method: str, path: str, home: str = HOME, **what: Any) -> httpx.Response:
    async def asked() -> httpx.Response:
        transport = httpx.ASGITransport(app=app, raise_app_exceptions=False)
        async with httpx.AsyncClient(transport=transport, base_url=home) as client:
            return await client.request(method, path, **what)

    return asyncio.run(asked())


def get_routes(app: Any) -> Iterator[str]:
    """Every address that is answered to a GET."""
    for route in app.routes:
        if isinstance(route, APIRoute):
            if "GET" in (route.methods or ()):
                yield route.path
        elif hasattr(route, "effective_route_contexts"):
            for one in route.effective_route_contexts():
                if "GET" in one.methods:
                    yield one.path
        elif hasattr(route, "routes"):
            yield from get_routes(route)


def test_a_head_is_answered_wherever_a_get_is(shop: Workshop) -> None:
    """RFC 9110, section 9.3.2: as the GET, without the body; a stream ends at its head."""
    app = create_app(shop, PORT)
    job = shop.start(name="cleat", units="inch", bar="flat 1/4 x 2", material="A36").id
    search = shop.store.searches.begin(job, "0", shop.store.item(job).created)
    values = {
        "job": job, "search": search.id, "name": "part", "bend": "1", "mark": "x",
        "number": "1", "lot": "x", "line": "1", "which": "lot", "kind": "lot",
    }  # fmt: skip
    found = sorted(set(get_routes(app)))
    assert len(found) > 30
    for route in found:
        if "{" in route and route.startswith("/assets"):
            path = "/assets/x/page.css"
        elif route.endswith("/files/{name}"):
            path = f"/jobs/{job}/files/job.toml"
        else:
            path = route.format(**values)
        head = ask(app, "HEAD", path)
        assert head.status_code < 500, path
        assert head.status_code != 405, path
        assert head.content == b"", path
        assert head.headers["content-security-policy"] == POLICY
        if not path.endswith("/events"):  # which goes on for as long as the search does
            whole = ask(app, "GET", path)
            assert (head.status_code, head.headers.get("content-type")) == (
                whole.status_code,
                whole.headers.get("content-type"),
            ), path


def test_a_breakdown_is_told_in_a_sentence_with_the_headers_of_every_answer(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken() -> None:
        raise RuntimeError("a secret of the inside")

    monkeypatch.setattr(shop, "recent", broken)
    answer = ask(create_app(shop, PORT), "GET", "/", headers={"accept": "text/html"})
    assert answer.status_code == 500
    assert "what was saved is safe" in answer.text
    assert "secret" not in answer.text
    assert answer.headers["content-security-policy"] == POLICY
    assert answer.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("digits", [101, 5000])
def test_a_long_number_in_an_address_is_refused_before_anything_reads_it(
    shop: Workshop, digits: int
) -> None:
    app, job = create_app(shop, PORT), shop.demo().id
    long = "9" * digits
    for path in (f"/jobs/{job}/bends/{long}", f"/jobs/{job}/log?part={long}", f"/?x={long}"):
        answer = ask(app, "GET", path)
        assert answer.status_code == 400
        assert answer.json()["said"].startswith("A number in this address is too long; open")


def test_a_long_number_in_a_form_breaks_nothing(shop: Workshop) -> None:
    app, job = create_app(shop, PORT), shop.demo().id
    long = "9" * 5000
    headers = {"origin": HOME}
    for path, typed in (
        ("bends", {"do": f"earlier:{long}"}),
        ("bends", {"do": f"remedy:{long}"}),
        ("part", {"do": f"drop-leg:{long}"}),
        ("part", {"do": f"drop-hole:{long}"}),
        ("part", {"part.hole[1].leg": long, "part.hole[1].from": long, "base": long}),
        ("log", {"part": long, "bend": long}),
        ("restore", {"number": long}),
    ):
        answer = ask(app, "POST", f"/jobs/{job}/{path}", headers=headers, data=typed)
        assert answer.status_code < 500, (path, answer.status_code)


def test_the_usual_port_may_be_left_out(shop: Workshop) -> None:
    app = create_app(shop, 80)
    for host in ("127.0.0.1", "127.0.0.1:80", "localhost", "[::1]"):
        headers = {"host": host, "origin": f"http://{host}"}
        assert ask(app, "POST", "/demo", home="http://127.0.0.1", headers=headers).status_code < 400
    other = {"host": "127.0.0.1:8117"}
    assert ask(app, "GET", "/", home="http://127.0.0.1", headers=other).status_code == 421
    door = Door(address="192.168.7.20", port=443, secure=True)
    assert door.origin == "https://192.168.7.20:443"
    assert hosts_of(door.address, door.port, secure=True) == ("192.168.7.20:443", "192.168.7.20")
    assert hosts_of(door.address, 443) == ("192.168.7.20:443",)
    assert hosts_of(door.address, 80, secure=True) == ("192.168.7.20:80",)


def test_a_name_of_other_letters_is_given_whole_and_plainly() -> None:
    """RFC 6266, section 5, and RFC 8187, section 3.2.3, whose example is the euro sign."""
    said = given("€ rates.toml", b"", "application/toml", keep=True)
    assert said.headers["content-disposition"] == (
        "attachment; filename=\"- rates.toml\"; filename*=UTF-8''%E2%82%AC%20rates.toml"
    )
    plain = given("hook.toml", b"", "application/toml", keep=False)
    assert plain.headers["content-disposition"] == 'inline; filename="hook.toml"'
    quoted = given('a"b\\c\r\n.toml', b"", "application/toml", keep=True)
    assert quoted.headers["content-disposition"] == (
        "attachment; filename=\"a-b-c--.toml\"; filename*=UTF-8''a%22b%5Cc%0D%0A.toml"
    )


def test_a_file_that_is_no_toml_is_not_brought_in(shop: Workshop) -> None:
    app = create_app(shop, PORT)
    headers = {"origin": HOME}
    for raw in (b"<!doctype html><p>hello", b"dear customer,\n", b"\x89PNG\r\n", b"a\0b", b""):
        answer = ask(app, "POST", "/bring", headers=headers, files={"file": ("hook.toml", raw)})
        assert answer.status_code == 422
        assert "hook.toml" in answer.text
    assert shop.store.list() == ()


def test_pages_are_answered_while_a_file_is_brought_in(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bringing in waits for a page that is asked for meanwhile: on one loop it would hang."""
    seen = threading.Event()
    app = create_app(shop, PORT)

    def slow(*_: object) -> Any:
        assert seen.wait(30), "nothing else was answered"
        raise start_pages.InputError("a.toml", "it is enough", "stop")

    monkeypatch.setattr(start_pages, "import_one", slow)

    async def both() -> tuple[int, int]:
        transport = httpx.ASGITransport(app=app)
        async with httpx.AsyncClient(transport=transport, base_url=HOME) as client:
            brought = asyncio.create_task(
                client.post("/bring", headers={"origin": HOME}, files={"file": ("a.toml", b"")})
            )
            await asyncio.sleep(0.05)
            page = await client.get("/new")
            seen.set()
            return page.status_code, (await brought).status_code

    assert asyncio.run(both()) == (200, 422)
