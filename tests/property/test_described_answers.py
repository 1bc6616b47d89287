"""Every address answers as the description of the pages says, whatever it is asked."""

from __future__ import annotations

import asyncio
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

ROOT = Path(__file__).resolve().parents[2]
sys.path += [str(ROOT / "validation" / "fuzz"), str(ROOT / "docs")]

import inputs  # noqa: E402  scripts, not a package
import judging  # noqa: E402  scripts, not a package
import make_openapi  # noqa: E402  scripts, not a package

from strapwright.web.described import description  # noqa: E402

WRITTEN = json.loads((ROOT / "docs" / "openapi.json").read_text(encoding="utf-8"))
# Begins a search for tooling, which is a process of its own and takes its time.
LEFT_OUT = {("post", "/jobs/{job}/propose")}
OPERATIONS = sorted(
    (path, method)
    for path, operations in WRITTEN["paths"].items()
    for method in operations
    if (method, path) not in LEFT_OUT
)
# What stands in an address: what there is, and what is not.
_PAGES = ["part", "bar", "press", "tooling", "strength", "other"]
NAMES_OF = {
    "/assets/{mark}/{name}": ["page.css", "drawing.css", "text.otf", "..", "none"],
    "/jobs/{job}/files/{name}": ["job.toml", "plan.json", "sheet.pdf", "none"],
    "/jobs/{job}/making/{name}": ["making.txt", "making.json", "1-web.dxf", "none"],
    "/jobs/{job}/{name}": _PAGES,
    "/live/{job}/{name}/{stage}": _PAGES,
}
PLACES = {
    "bend": ["1", "1", "2", "0", "x", "9" * 99],
    "kind": ["txt", "json", "exe"],
    "mark": ["x"],
    "search": ["x", "0" * 32],
    "stage": ["drawing", "rest", "careful", "save", "other"],
}
EACH = 3  # requests of each address; the long trial makes hundreds
TEXTS = st.one_of(
    st.sampled_from(["", "0", "1", "90", "up 90", "2 in", "natural", "next", "over", "drop"]),
    st.text(max_size=12),
)
NAMES = sorted(
    {name for number in range(400) for name in inputs.form(inputs.rng_of("n", 1, number))}
)


@pytest.fixture(scope="module")
def bench() -> Iterator[judging.Bench]:
    made = judging.Bench()
    yield made
    made.close()


@st.composite
def requests(draw: st.DrawFn, job: str, path: str, method: str) -> tuple[str | None, bytes, bytes]:
    """Draw an address with what is asked of it: address, query and body."""
    places = {name: draw(st.sampled_from(some)) for name, some in PLACES.items() if name in path}
    if "{name}" in path:
        places["name"] = draw(st.sampled_from(NAMES_OF[path]))
    lost = draw(st.sampled_from(["", "", "", "", "0" * 32, "nothing"]))
    described = WRITTEN["paths"][path][method]
    names = [one["name"] for one in described.get("parameters", ()) if one["in"] == "query"]
    query = draw(st.dictionaries(st.sampled_from([*names, "job", "ask", "x"]), TEXTS, max_size=3))
    typed = draw(st.dictionaries(st.sampled_from(NAMES), TEXTS, max_size=4))
    address = judging.address_of(path, {"job": lost or job, **places})
    body = urlencode(typed, errors="replace").encode() if method == "post" else b""
    return address, urlencode(query, errors="replace").encode(), body


def test_the_description_is_the_one_in_the_handbook() -> None:
    assert json.loads(make_openapi.text()) == WRITTEN, "run python docs/make_openapi.py"


def test_every_kind_of_answer_that_is_stated_by_hand_is_of_an_address_that_is_there() -> None:
    paths = WRITTEN["paths"]
    assert set(description._FILES) | set(description._ANSWERS) <= set(paths)
    assert {one.split(" ", 1)[1] for one in description._MORE} <= set(paths)


@pytest.mark.parametrize(("path", "method"), OPERATIONS, ids=" ".join)
def test_every_address_answers_as_described(bench: judging.Bench, path: str, method: str) -> None:
    @settings(
        max_examples=EACH, derandomize=True, deadline=None, database=None,
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(asked=requests(bench.job, path, method))
    def ask(asked: tuple[str | None, bytes, bytes]) -> None:
        address, query, body = asked
        if address is None:
            return
        status, headers, answer = bench.answer(method.upper(), address, body, query)
        assert_as_described(WRITTEN["paths"][path][method], status, headers, answer)

    ask()


def test_an_answer_without_an_end_is_given_up(bench: judging.Bench) -> None:
    async def endless(scope: object, receive: object, send: Any) -> None:
        del scope, receive
        await send({"type": "http.response.start", "status": 200, "headers": []})
        while True:
            await send({"type": "http.response.body", "body": b"more", "more_body": True})
            await asyncio.sleep(0.01)

    whole, bench.app = bench.app, endless
    try:
        with pytest.raises(TimeoutError):
            bench.answer("GET", "/", patience=0.05)
    finally:
        bench.app = whole
    assert bench.answer("GET", "/new")[0] == 200


def assert_as_described(
    described: dict[str, Any], status: int, headers: dict[str, str], answer: bytes
) -> None:
    assert str(status) in described["responses"], f"{status} is not described"
    found = described["responses"][str(status)]
    shared = WRITTEN["components"]["responses"]
    content = shared.get(found.get("$ref", "").rpartition("/")[2], found).get("content", {})
    kind = headers.get("content-type", "").partition(";")[0]
    if not content:
        assert not answer
        assert "location" in headers
        return
    assert kind in content or "*/*" in content, f"{kind} is not described for {status}"
    if kind == "application/json" and content[kind]:
        jsonschema.validate(json.loads(answer), content[kind]["schema"])
    if kind == "text/html":
        assert answer.startswith(b"<!doctype html>")


@pytest.mark.parametrize(
    ("status", "kind", "answer"),
    [
        (500, "text/html", b"<!doctype html>"),
        (200, "text/html", b"<!doctype html>"),
        (200, "application/json", b'{"version": "1", "readings": 0, "others": ""}'),
        (200, "application/json", b'{"readings": 0, "others": ""}'),
        (303, "", b"x"),
    ],
)
def test_an_answer_that_is_not_described_is_seen(status: int, kind: str, answer: bytes) -> None:
    described = WRITTEN["paths"]["/live/{job}/now"]["get"]
    with pytest.raises((AssertionError, jsonschema.ValidationError)):
        assert_as_described(described, status, {"content-type": kind}, answer)
