"""What must be refused, sent over a network address to a server: a sentence each, flat memory."""

from __future__ import annotations

import gzip
import html
import json
import re
import socket
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import httpx
import pytest

sys.path += [str(Path(__file__).parent), str(Path(__file__).parents[1] / "unit")]

from network_serving import NETWORK, memory, shared
from test_text_limits import BOMBS

GROWTH = 60  # MB; what a few hundred refusals may leave behind
HOSTILE = "<script>alert(1)</script><svg onload=alert(1)>'\"\x00{{7*7}}"
DEEP = 100_000


class Door:
    """A server shared at a network address, a device with a pass, and the machine itself."""

    def __init__(self, folder: Path) -> None:
        self.sharing = shared(folder)
        self.process, own, self.link = self.sharing.__enter__()
        self.own, self.origin = own.rstrip("/"), self.link.partition("/join")[0]
        self.host = self.origin.partition("//")[2]
        self.desk = httpx.Client(
            base_url=self.own, headers={"origin": self.own}, trust_env=False, timeout=120
        )
        self.phone = self.stranger()
        assert self.phone.get(self.link).status_code == 303
        # What planning loads is there before the memory is looked at.
        self.job = self.desk.post("/demo").headers["location"].split("/")[2]
        assert self.desk.get(f"/jobs/{self.job}/bends").status_code == 200
        assert self.desk.get(f"/jobs/{self.job}/log").status_code == 200

    def stranger(self, address: str = "127.0.0.9") -> httpx.Client:
        return httpx.Client(
            transport=httpx.HTTPTransport(local_address=address),
            base_url=self.origin, headers={"origin": self.origin}, timeout=120,
        )  # fmt: skip

    def close(self) -> None:
        self.desk.close()
        self.phone.close()
        self.sharing.__exit__(None, None, None)


@pytest.fixture(scope="module")
def door(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Door]:
    made = Door(tmp_path_factory.mktemp("refusals") / "store")
    yield made
    made.close()


def said(answer: httpx.Response) -> str:
    """The words of a refusal, as JSON, as a plain page or on one of the own pages."""
    if "json" in answer.headers.get("content-type", ""):
        return str(json.loads(answer.text)["said"])
    found = re.search(r'role="alert">(.*?)</p>', answer.text, re.DOTALL)
    found = found or re.search(r"<h1>.*?</h1>\s*<p[^>]*>(.*?)</p>", answer.text, re.DOTALL)
    found = found or re.search(r"<p[^>]*>(.*?)</p>", answer.text, re.DOTALL)
    assert found is not None, answer.text[:500]
    return html.unescape(re.sub(r"<[^>]+>", "", found[1])).strip()


def brought(door: Door, raw: bytes) -> httpx.Response:
    return door.phone.post("/bring", files={"file": ("job.toml", raw)})


def joined(door: Door, rights: str) -> httpx.Client:
    """A device that came in by a code of its own."""
    page = door.desk.post(
        "/sharing/invite", data={"name": "x", "rights": rights, "days": "1"}, follow_redirects=True
    ).text
    link = html.unescape(re.findall(r'join-address">([^<]+)<', page)[0])
    made = door.stranger("127.0.0.10")
    assert made.get(link).status_code == 303
    return made


def revoked(door: Door) -> httpx.Response:
    with closing(joined(door, "work")) as out:
        door.desk.post("/sharing/revoke", data={"id": newest(door)})
        return out.get("/")


def newest(door: Door) -> str:
    return re.findall(r'name="id" value="([0-9a-f]{16})"', door.desk.get("/sharing").text)[0]


def only_looks(door: Door) -> httpx.Response:
    with closing(joined(door, "look")) as visitor:
        assert visitor.get(f"/jobs/{door.job}/bends").status_code == 200
        return visitor.post(f"/jobs/{door.job}/log", data={"part": "1", "bend": "1", "angle": "88"})


def stranger(door: Door, **cookies: str) -> httpx.Response:
    with door.stranger() as other:
        other.cookies.update(cookies)
        return other.get("/")


def raw_path(door: Door, path: str) -> httpx.Response:
    """Ask for a path as it is, which no client would send."""
    cookie = "; ".join(f"{name}={value}" for name, value in door.phone.cookies.items())
    with socket.create_connection((NETWORK, int(door.host.partition(":")[2])), 60) as wire:
        wire.sendall(
            f"GET {path} HTTP/1.1\r\nhost: {door.host}\r\ncookie: {cookie}\r\n"
            "accept: application/json\r\nconnection: close\r\n\r\n".encode()
        )
        got = b""
        while part := wire.recv(65536):
            got += part
    head, _, body = got.partition(b"\r\n\r\n")
    status = int(head.split(b" ")[1])
    return httpx.Response(status, headers={"content-type": "text/html"}, content=body)


Ask = Callable[[Door], httpx.Response]
# What is sent -> the status and words of the answer.
REFUSED: dict[str, tuple[Ask, tuple[int, ...], str]] = {
    "no token": (stranger, (401,), "no pass"),
    "wrong token": (lambda d: stranger(d, device="x" * 27), (401,), "no pass"),
    "a token of five thousand characters": (
        lambda d: stranger(d, device="x" * 5000), (401,), "no pass",
    ),
    "wrong code": (lambda d: d.phone.get("/join?pass=" + "x" * 27), (403,), "does not hold"),
    "revoked": (revoked, (401,), "no pass"),
    "read-only writes": (only_looks, (403,), "may only look"),
    "wrong host": (
        lambda d: d.phone.get("/", headers={"host": "bench.example:80"}),
        (421,), "only to the name",
    ),
    "foreign origin": (
        lambda d: d.phone.post("/demo", headers={"origin": "http://bench.example"}),
        (403,), "did not come from a page of this server",
    ),
    "another site's script": (
        lambda d: d.phone.get(
            "/", headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "cors"}
        ),
        (403,), "Another site",
    ),
    "sharing from the network": (lambda d: d.phone.get("/sharing"), (403,), "Sharing is set on"),
    "path with dots": (lambda d: raw_path(d, "/assets/../../serving.py"), (404,), "no such page"),
    "path with coded dots": (
        lambda d: raw_path(d, "/assets/x/..%2f..%2fserving.py"), (404,), "no such page",
    ),
    "path with a null": (lambda d: raw_path(d, "/assets/x/page.css%00"), (404,), "no such page"),
    "path to another file": (
        lambda d: raw_path(d, f"/jobs/{d.job}/files/..%2f..%2fstore.db"), (404,), "no such page",
    ),
    "a long path": (lambda d: d.phone.get("/" + "a" * 20_000), (404, 414), "no such page"),
    "oversized body": (
        lambda d: d.phone.post("/new", content=b"x" * 3_000_000), (413,), "larger than a job file",
    ),
    "oversized body of no stated length": (
        lambda d: d.phone.post(
            "/bring", content=(b"x" * 100_000 for _ in range(30)),
            headers={"content-type": "multipart/form-data; boundary=b"},
        ), (413, 400), "",
    ),
    "oversized file": (lambda d: brought(d, b"#" * 1_100_000), (422,), "at most 1 MB"),
    "a packed body": (
        lambda d: d.phone.post(
            "/bring", content=gzip.compress(b"x" * 50_000_000),
            headers={"content-encoding": "gzip", "content-type": "multipart/form-data; boundary=b"},
        ), (400, 422, 404), "",
    ),
    "two thousand fields": (
        lambda d: d.phone.post("/new", data={f"a{n}": "1" for n in range(2000)}), (400,), "be read",
    ),
    "deep JSON": (
        lambda d: d.phone.post(
            f"/jobs/{d.job}/log", content=b"[" * DEEP + b"]" * DEEP,
            headers={"content-type": "application/json"},
        ), (422, 200), "",
    ),
    "deep JSON as a job": (lambda d: brought(d, b"[" * 40_000 + b"]" * 40_000), (422,), "brackets"),
    "five thousand digits in a field": (
        lambda d: d.phone.post(
            f"/jobs/{d.job}/log", data={"part": "1", "bend": "1", "angle": "9" * 5000}
        ), (200, 422), "",
    ),
    "five thousand digits as a number of the form": (
        lambda d: d.phone.post(
            f"/jobs/{d.job}/log", data={"part": "9" * 5000, "bend": "9" * 5000, "angle": "88"}
        ), (200, 422, 303), "",
    ),
    "five thousand digits in an address": (
        lambda d: d.phone.get(f"/jobs/{d.job}/bends/" + "9" * 5000), (400,), "too long",
    ),
    "five thousand digits asked": (
        lambda d: d.phone.get("/bench", params={"ask": "drill", "size": "9" * 5000}),
        (400,), "too long",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_it_is_refused_in_a_sentence(door: Door, name: str) -> None:
    ask, statuses, words = REFUSED[name]
    before = memory(door.process)
    answer = ask(door)
    assert answer.status_code in statuses, answer.text[:300]
    assert "Traceback" not in answer.text
    if words:
        sentence = said(answer)
        assert words in sentence
        assert len(sentence) < 250
        assert "\n" not in sentence
    assert door.process.poll() is None
    assert memory(door.process) - before < GROWTH


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_brought_in_is_refused_in_a_sentence(door: Door, name: str) -> None:
    text, words = BOMBS[name]
    before = memory(door.process)
    answer = brought(door, text.encode())
    assert answer.status_code == 422
    assert words in said(answer)
    assert len(said(answer)) < 250
    assert memory(door.process) - before < GROWTH
