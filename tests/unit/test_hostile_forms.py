"""Script typed into every field of every form comes back as text, wherever it is shown."""

from __future__ import annotations

from collections.abc import Iterator
from html.parser import HTMLParser

import pytest
from attrs import Factory, define
from test_web import PORT, Browser

from strapwright.pages.sharing.device_passes import Passes
from strapwright.pages.sharing.sharing_now import Door, Opener, SharingNow
from strapwright.pages.workshop import Workshop
from strapwright.store import Store, open_store
from strapwright.web import create_app

HOSTILE = "<script>alert(1)</script><svg onload=alert(1)>'\"{{7*7}}"
SHOP = ("/", "/new", "/bench", "/rack", "/crib", "/rates", "/cut", "/week", "/lots")
DEVICES = ("/sharing", "/settings")
JOB = (
    *("part", "bar", "press", "tooling", "strength", "making", "propose", "bends", "bends/1"),
    *("print", "money", "log", "log/chart", "log/trial", "log/learned", "log/bar", "history"),
)
# Begins a search of half a minute, ends the server's sharing, or brings a file, which has its own
# tests.
LEFT_OUT = {"begin", "/sharing/stop", "/sharing/revoke-all", "/bring", "/settings/restore", "/demo"}


@define
class Form:
    """A form of a page: where it goes and its fields, with what stands in the hidden ones."""

    method: str
    action: str
    hidden: dict[str, str] = Factory(dict)
    typed: set[str] = Factory(set)


class Forms(HTMLParser):
    """Collects the forms of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[Form] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = {name: text or "" for name, text in attrs}
        if tag == "form":
            self.found.append(Form(said.get("method", "get"), said.get("action", "")))
        name = said.get("name", "")
        if not self.found or not name or tag not in ("input", "textarea", "select", "button"):
            return
        if tag == "button":
            self.found[-1].hidden.setdefault(name, said.get("value", ""))
        elif said.get("type") == "hidden":
            self.found[-1].hidden[name] = said.get("value", "")
        else:
            self.found[-1].typed.add(name)


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    with open_store(tmp_path_factory.mktemp("hostile") / "store") as kept:
        yield kept


@pytest.fixture(scope="module")
def client(store: Store) -> Browser:
    sharing = SharingNow(Passes(store))
    door = Door(address="192.168.7.20", port=PORT)
    sharing.opener = Opener(open=lambda _: door, shut=lambda: None)
    sharing.begin(secure=False)
    sharing.invite("phone", "work", 1)
    return Browser(create_app(Workshop(store), PORT, sharing))


def pages(client: Browser) -> list[str]:
    job = client.post("/demo", follow=False).headers["location"].removesuffix("/part")
    return [*SHOP, *DEVICES, *(f"{job}/{one}" for one in JOB)]


def harmless(page: str, where: str) -> None:
    assert "<script>alert" not in page, where
    assert "<svg onload" not in page, where
    assert "49&lt;" not in page, where
    assert ">49" not in page.partition(HOSTILE)[2][:3], where


def test_enter_in_a_field_saves_and_does_nothing_else(client: Browser) -> None:
    """A browser takes the first button of a form for the Enter key."""
    told = [
        (path.rpartition("/")[2], form.hidden["do"])
        for path in pages(client)
        for form in Forms(client.get(path).text).found
        if form.typed and "do" in form.hidden
    ]
    saved = {"part", "press", "tooling", "bar", "strength", "rack", "crib", "rates"}
    assert {page for page, _ in told} >= saved
    assert {one for one in told if one[0] in saved} == {(page, "save") for page in saved}


def test_script_in_every_field_of_every_form_stays_text(client: Browser) -> None:
    sent: set[tuple[str, str]] = set()
    every = pages(client)
    for path in every:
        shown = client.get(path)
        assert shown.status_code == 200, path
        for form in Forms(shown.text).found:
            if LEFT_OUT & {form.action, *form.hidden.values()} or not form.typed:
                continue
            what = {**form.hidden, **dict.fromkeys(form.typed, HOSTILE)}
            what["sure"] = "yes"
            # A form without a target goes back to its page.
            where = form.action or path
            if form.method == "post":
                answer = client.post(where, data=what)
            else:
                answer = client.get(where.partition("#")[0], params=what)
            assert answer.status_code < 500, (where, answer.text[:300])
            harmless(answer.text, where)
            sent |= {(where, name) for name in form.typed}
    for path in every:
        harmless(client.get(path).text, path)
    assert len(sent) > 150
    assert len({where for where, _ in sent}) > 20
