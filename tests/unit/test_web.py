"""The pages as a browser's enemies see them: names, origins, sizes, scripts, paths."""

from __future__ import annotations

import asyncio
import re
import time
from collections.abc import AsyncIterator, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import font_source_sans_pro
import httpx
import pytest
from fastapi import FastAPI

from strapwright.pages import workshop
from strapwright.pages.sittings import sittings
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store
from strapwright.web import assets, create_app
from strapwright.web.request_guard import LARGEST_BODY

PORT = 8117
HOME = f"http://127.0.0.1:{PORT}"
HOSTILE = '"><script>alert(1)</script>{{7*7}}<svg onload=alert(1)>'
NEW = {
    "part.name": "cleat",
    "units": "inch",
    "bar.section": "flat",
    "bar.thickness": "1/4",
    "bar.width": "2",
    "part.material": "A36 hot rolled",
}


class Browser:
    """Asks the application as one browser would, without a network."""

    def __init__(self, app: FastAPI) -> None:
        self.app = app
        self.cookies = httpx.Cookies()
        self.headers = {"origin": HOME}

    def ask(self, method: str, path: str, *, follow: bool = True, **what: Any) -> httpx.Response:
        async def asked() -> httpx.Response:
            transport = httpx.ASGITransport(app=self.app)
            async with httpx.AsyncClient(
                transport=transport,
                base_url=HOME,
                cookies=self.cookies,
                headers=self.headers,
                follow_redirects=follow,
            ) as client:
                answer = await client.request(method, path, **what)
                self.cookies.update(client.cookies)
                return answer

        return asyncio.run(asked())

    def get(self, path: str, **what: Any) -> httpx.Response:
        return self.ask("GET", path, **what)

    def post(self, path: str, **what: Any) -> httpx.Response:
        return self.ask("POST", path, **what)


def decided(client: Browser, path: str) -> str:
    """Return a page of bends once what its first look left open was searched."""
    end = time.monotonic() + 300
    while "Still searching" in (text := client.get(path).text):
        assert time.monotonic() < end
        client.get(f"{path}/search/events")  # ends with the search: no page is drawn meanwhile
    return text


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


@pytest.fixture
def client(shop: Workshop) -> Browser:
    return Browser(create_app(shop, PORT))


def begun(client: Browser) -> str:
    """Begin a part and return the address of its job."""
    answer = client.post("/new", data=NEW, follow=False)
    assert answer.status_code == 303
    return answer.headers["location"].removesuffix("/part")


def shaped(client: Browser, root: str, **more: str) -> None:
    typed = {
        "base": "1",
        "shape.count": "3",
        "part.name": "cleat",
        "part.shape[1]": "4",
        "part.shape[2]": "90",
        "part.shape[2].way": "up",
        "part.shape[3]": "3",
        **more,
    }
    client.post(f"{root}/part", data=typed)


@pytest.mark.parametrize(
    "host", ["evil.example", f"evil.example:{PORT}", "127.0.0.1:1", "127.0.0.1", ""]
)
def test_other_names_of_this_machine_are_refused(client: Browser, host: str) -> None:
    answer = client.get("/", headers={"host": host})
    assert answer.status_code == 421
    assert "Strapwright" not in answer.text


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:1", None])
def test_only_own_pages_change_something(
    client: Browser, shop: Workshop, origin: str | None
) -> None:
    client.headers.pop("origin")
    headers = {} if origin is None else {"origin": origin}
    answer = client.post("/demo", headers=headers, follow=False)
    assert answer.status_code == 403
    assert shop.recent() == ()


def test_another_sites_page_reads_nothing(client: Browser) -> None:
    headers = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}
    assert client.get("/", headers=headers).status_code == 403


def test_every_answer_forbids_what_is_not_from_here(client: Browser) -> None:
    root = begun(client)
    for address in ("/", "/nowhere", f"{root}/part", f"{root}/files/job.toml"):
        policy = client.get(address).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy


def test_pages_hold_nothing_inline_and_name_no_other_server(client: Browser) -> None:
    shop_page = client.post("/demo").url.path
    root = shop_page.removesuffix("/part")
    names = ("part", "bar", "press", "tooling", "print", "history")
    names += ("bends", "bends/1", "bends/whole")
    for address in ("/", "/new", *(f"{root}/{name}" for name in names)):
        text = client.get(address).text
        assert not re.search(r"<script(?![^>]*\ssrc=\"/assets/)", text), address
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=", text), address
        others = re.findall(r"(?:href|src|action)=\"(?:https?:)?//", text)
        assert others == [], address


def test_pages_do_without_their_font(
    client: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for folder in (tmp_path, tmp_path / "not there"):
        monkeypatch.setattr(font_source_sans_pro, "font_directory", str(folder))
        assets.face.cache_clear()
        for name in assets._FACES:
            assert client.get(f"/assets/x/{name}").status_code == 404
        assert client.get("/").status_code == 200
    monkeypatch.undo()
    assets.face.cache_clear()
    assert client.get(f"/assets/x/{next(iter(assets._FACES))}").status_code == 200


def test_the_frameworks_own_pages_are_off(client: Browser) -> None:
    for address in ("/docs", "/redoc", "/openapi.json"):
        assert client.get(address).status_code == 404


def test_cookie_is_out_of_reach_of_scripts_and_other_sites(client: Browser) -> None:
    cookie = client.get("/").headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=lax" in cookie


def test_hostile_text_in_every_field_comes_back_as_text(client: Browser) -> None:
    root = begun(client)
    shaped(client, root)
    for page in ("part", "bar", "press", "tooling"):
        text = client.get(f"{root}/{page}").text
        names = re.findall(r'<(?:input|select)[^>]*\sname="([^"]+)"', text)
        assert len(names) > 5
        own = {name: HOSTILE for name in names if "." in name and name != "shape.count"}
        client.post(f"{root}/{page}", data={"base": "9", "shape.count": "3", **own})
        shown = client.get(f"{root}/{page}").text
        assert shown.count("alert(1)") >= len(own)
        assert "<script>alert" not in shown
        assert "<svg onload" not in shown
        assert "49&lt;svg" not in shown
        client.post(f"{root}/{page}", data={"do": "drop"})


def test_hostile_name_is_kept_as_text_in_pages_and_downloads(client: Browser) -> None:
    typed = {**NEW, "part.name": '<script>alert(1)</script> ../../etc "x'}
    root = client.post("/new", data=typed, follow=False).headers["location"]
    root = root.removesuffix("/part")
    shaped(client, root, **{"part.name": typed["part.name"]})
    for address in ("/", f"{root}/part", f"{root}/bends", f"{root}/history"):
        assert "<script>alert" not in client.get(address).text
    given = client.get(f"{root}/files/job.toml").headers["content-disposition"]
    name = re.fullmatch(r'attachment; filename="([^"]*)"', given)
    assert name is not None
    assert "/" not in name[1]
    assert "\\" not in name[1]


@pytest.mark.parametrize(
    "path",
    [
        "/assets/x/..%2fguard.py",
        "/assets/x/..%2f..%2f__init__.py",
        "/assets/x/%2e%2e/guard.py",
        "/assets/x/page.css%00.js",
        "/jobs/..%2f..%2fetc/part",
        "/jobs/00000000000000000000000000000000/part",
    ],
)
def test_paths_lead_nowhere_else(client: Browser, path: str) -> None:
    assert client.get(path).status_code == 404


@pytest.mark.parametrize(
    "name", ["..%2fjob.toml", "job.toml%00", "store.sqlite", "%2fetc%2fpasswd", "sheet.pdf.toml"]
)
def test_downloads_have_fixed_names(client: Browser, name: str) -> None:
    root = begun(client)
    assert client.get(f"{root}/files/{name}").status_code == 404


def test_too_large_a_body_is_refused_by_its_length_and_by_counting(client: Browser) -> None:
    big = b"x" * (LARGEST_BODY + 1)
    assert client.post("/new", content=big).status_code == 413

    async def dribble() -> AsyncIterator[bytes]:
        yield b'--b\r\ncontent-disposition: form-data; name="file"; filename="a.toml"\r\n\r\n'
        for _ in range(LARGEST_BODY // 10_000 + 2):
            yield b"x" * 10_000

    headers = {"content-type": "multipart/form-data; boundary=b"}
    assert client.post("/bring", content=dribble(), headers=headers).status_code == 413


def test_file_brought_in_is_kept_byte_for_byte(client: Browser, shop: Workshop) -> None:
    raw = b'# mine\nformat = 1\nunits = "inch"\n\n[part]\nname = "cleat"  # brass one\n'
    client.post("/bring", files={"file": ("../../evil/cleat.toml", raw)})
    (item,) = shop.recent()
    assert shop.open(item.id).text.encode() == raw
    assert item.file == "cleat.toml"


def test_file_that_is_no_text_is_refused_with_a_sentence(client: Browser) -> None:
    client.post("/demo")
    answer = client.post("/bring", files={"file": ("a.toml", b"\xff\xfe\x00\x01")})
    assert answer.status_code == 422
    assert "a.toml" in answer.text
    # The jobs of the shop are there still, and not the page of an empty shop.
    assert "Recent jobs" in answer.text
    assert "<h2>A new part</h2>" not in answer.text


def test_look_goes_back_to_this_server_only(client: Browser) -> None:
    for where in ("//evil.example", "/\\evil.example", "https://evil.example"):
        answer = client.post("/look", data={"here": where, "look": "dark"}, follow=False)
        assert answer.headers["location"] == "/"


def test_later_save_of_two_browsers_is_told_and_overwrites_nothing(
    client: Browser, shop: Workshop
) -> None:
    root = begun(client)
    shaped(client, root)
    job = root.rpartition("/")[2]
    other = Browser(create_app(shop, PORT))
    before = {"base": "2", "shape.count": "3", "part.shape[2]": "90"}
    client.post(f"{root}/part", data={**before, "part.shape[1]": "5", "part.shape[3]": "3"})
    saved = shop.open(job)
    told = other.post(
        f"{root}/part", data={**before, "part.shape[1]": "6", "part.shape[3]": "3"}
    ).text
    assert "Someone saved this job while you were typing" in told
    assert shop.open(job).text == saved.text
    kept = re.search(r'name="part.shape\[1\]" value="([^"]*)"', told)
    assert kept is not None
    assert kept[1] == "6"
    on_top = {**before, "part.shape[1]": "6", "part.shape[3]": "3", "do": "over"}
    other.post(f"{root}/part", data=on_top)
    assert '"6"' in shop.open(job).text


def test_wrong_field_is_kept_as_typed_with_a_sentence_and_the_last_good_drawing(
    client: Browser, shop: Workshop
) -> None:
    root = begun(client)
    shaped(client, root)
    job = root.rpartition("/")[2]
    version = shop.open(job).version
    shaped(client, root, **{"base": "2", "part.shape[1]": "four"})
    assert shop.open(job).version == version
    text = client.get(f"{root}/part").text
    assert 'value="four"' in text
    assert 'aria-invalid="true"' in text
    assert "last valid version of the part" in text
    assert text.count('class="bar"') > 0


def test_a_missing_width_is_told_at_the_width(client: Browser) -> None:
    answer = client.post("/new", data={**NEW, "bar.width": ""})
    assert answer.status_code == 422
    told = dict(re.findall(r'id="([^"]+)-wrong">([^<]*)<', answer.text))
    assert {name for name, said in told.items() if said.strip()} == {"bar.width"}


def test_what_a_first_plan_does_without_is_folded_until_it_is_stated(client: Browser) -> None:
    root = begun(client)
    shaped(client, root)

    def folded() -> set[str]:
        text = client.get(f"{root}/tooling").text
        parts = re.findall(r'<details class="more">.*?</details>', text, re.DOTALL)
        return set(re.findall(r'name="(tooling[^"]+)"', "".join(parts)))

    first = folded()
    assert {"tooling.nose.span", "tooling.shoulders.floor", "tooling.rating"} <= first
    assert not {name for name in first if name.endswith(("shaft", "radius", "opening"))}
    typed = {"tooling.nose.shaft": "1", "tooling.nose.span": "4", "tooling.shoulders.radius": "1/4"}
    client.post(
        f"{root}/tooling", data={"base": "2", **typed, "tooling.shoulders.opening": "2-1/2"}
    )
    assert first - folded() == {"tooling.nose.span"}


@pytest.mark.long
def test_the_order_puts_a_refusal_before_the_bends(client: Browser, shop: Workshop) -> None:
    locked = (
        'format = 1\nunits = "metric"\n[part]\nname = "box"\nquantity = 1\nbar = "flat 6 x 40"\n'
        'material = "S235JR"\nmeasured = "outside"\norder = [1, 3, 2]\n'
        'shape = ["95", "up 90", "110", "up 90", "110", "up 90", "95"]\n'
        '[tooling.nose]\nradius = "9"\nreach = "260"\nspan = "80"\n'
        'web = { thick = "3", height = "242" }\n'
        '[tooling.shoulders]\nradius = "6"\nopening = "56"\nheight = "90"\n'
    )
    client.post("/bring", files={"file": ("box.toml", locked.encode())})
    (item,) = shop.recent()
    text = decided(client, f"/jobs/{item.id}/bends")
    assert text.index("Cannot be made") < text.index('<ol class="order refused">')
    assert text.index('class="hatched"') < text.index("trapped on the nose</span>")


def test_a_draft_that_came_after_its_own_saving_does_not_stand_against_the_next(
    client: Browser, shop: Workshop
) -> None:
    root = begun(client)
    shaped(client, root)
    job = root.rpartition("/")[2]
    form = {"shape.count": "3", "part.shape[2]": "90", "part.shape[3]": "3"}
    mine = {**form, "base": "2", "part.shape[1]": "6"}
    client.post(f"{root}/part", data=mine)
    client.post(f"/live/{job}/part/rest", data=mine)  # on its way while the other was saved
    other = Browser(create_app(shop, PORT))
    other.post(f"{root}/part", data={**form, "base": "3", "part.shape[1]": "7"})
    text = client.get(f"{root}/part").text
    assert re.search(r'name="part.shape\[1\]" value="7"', text)
    assert 'class="elsewhere"' not in text


def test_undo_walks_back_one_version_at_a_time(client: Browser, shop: Workshop) -> None:
    root = begun(client)
    job = root.rpartition("/")[2]
    for base, leg in enumerate(("4", "5", "6"), start=1):
        shaped(client, root, **{"base": str(base), "part.shape[1]": leg})
    for leg in ("5", "4"):
        client.post(f"{root}/undo", data={"version": str(shop.open(job).version)})
        assert f'shape = ["{leg}"' in shop.open(job).text


def test_a_form_that_breaks_off_ends_without_a_word_in_the_log(client: Browser) -> None:
    """Every key that follows quickly aborts the request of the one before."""
    job = begun(client).rpartition("/")[2]
    headers = {"host": HOME.removeprefix("http://"), "origin": HOME}
    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": "POST",
        "path": f"/live/{job}/part/drawing",
        "raw_path": b"",
        "query_string": b"",
        "headers": [
            *((name.encode(), value.encode()) for name, value in headers.items()),
            (b"content-type", b"application/x-www-form-urlencoded"),
        ],
        "server": ("127.0.0.1", PORT),
    }
    coming = iter(
        (
            {"type": "http.request", "body": b"part.name=cl", "more_body": True},
            {"type": "http.disconnect"},
        )
    )
    sent: list[dict[str, Any]] = []

    async def receive() -> dict[str, Any]:
        return next(coming)

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    asyncio.run(client.app(scope, receive, send))
    assert sent[0]["status"] == 400


def test_a_sitting_is_one_entry_with_what_it_changed(
    client: Browser, shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
    clock = [now]
    monkeypatch.setattr(workshop, "_now", lambda: clock[0])
    root = begun(client)
    for base, (leg, minutes) in enumerate((("4", 1), ("5", 5), ("6", 90), ("7", 95)), start=1):
        clock[0] = now + timedelta(minutes=minutes)
        shaped(client, root, **{"base": str(base), "part.shape[1]": leg})
    latest, first = sittings(shop, shop.open(root.rpartition("/")[2]))
    assert [one.number for one in latest.versions] == [5, 4]
    assert latest.changes == ("Leg 1: 5 \N{RIGHTWARDS ARROW} 7",)
    assert [one.number for one in first.versions] == [3, 2, 1]
    assert first.changes[0] == "begun"
    text = client.get(f"{root}/history").text
    assert text.count('class="picture"') == 2
    assert "Version 4 to 5" in text
    assert "Leg 1: 5" in text


def test_a_first_estimate_of_the_blank_states_its_radius_and_gives_way_to_an_assumed_one(
    client: Browser,
) -> None:
    """Two 1/4 in legs corners by hand: 4 + 3 - 2 (T + R) + 0.64 T + 1.57 R with R = T = 1/4."""
    root = begun(client)
    shaped(client, root)
    text = client.get(f"{root}/part").text
    assert "First estimate of the blank" in text
    assert "Inside radius taken as the thickness of the bar" in text
    length = 7 - 2 * (0.25 + 0.25) + 0.64 * 0.25 + 1.57 * 0.25  # 6.5525, to 1/64: 6 35/64
    assert round(64 * (length - 6)) == 35
    assert re.search(r"6\D{1,3}35\D64 in", text[text.index("First estimate") :][:200])
    assert "Cut the blank" not in text
    assert "Mark from end 1" not in text
    shaped(client, root, base="2", **{"part.assumed_radius": "3/8"})
    text = client.get(f"{root}/part").text
    assert "First estimate" not in text
    assert "Cut the blank" in text


def test_a_search_whose_time_was_over_goes_on_by_a_button(
    client: Browser, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Time is over at once for a page, not for a longer search."""
    monkeypatch.setattr(workshop, "first_look", lambda: lambda: False)
    root = client.post("/demo", follow=False).headers["location"].removesuffix("/part")
    assert "of at most 30 s" in client.get(f"{root}/bends").text  # begun by itself
    text = client.post(f"{root}/bends", data={"do": "stop-searching"}).text
    assert "Go on searching" in text
    # What the log taught goes into the longer search too.
    client.post(f"{root}/log", data={"part": "1", "bend": "1", "angle": "88", "sure": "yes"})
    text = client.post(f"{root}/bends", data={"do": "search-on"}).text
    # It is found again by whoever comes to the page, and says how far it is.
    assert "of at most 5 min" in text
    assert "Stop the search" in client.get(f"{root}/bends").text
    client.post(f"{root}/bends", data={"do": "stop-searching"})
    text = client.get(f"{root}/bends").text
    assert "You stopped the search" in text
    assert "Go on searching" in text
    client.post(f"{root}/bends", data={"do": "search-on"})
    text = decided(client, f"{root}/bends")
    assert "Go on searching" not in text
    assert '<ol class="order' in text


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_fields_speak_the_units_of_the_job_alone_and_no_words_of_the_file(
    client: Browser, units: str
) -> None:
    inch = units == "inch"
    bar = ("1/4", "2") if inch else ("6", "50")
    root = client.post(
        "/new",
        data={"part.name": "rail clip", "units": units, "bar.thickness": bar[0],
              "bar.width": bar[1], "part.material": "A36 hot rolled"},
        follow=False,
    ).headers["location"].removesuffix("/part")  # fmt: skip
    legs = ("5", "6") if inch else ("125", "150")
    client.post(f"{root}/part", data={
        "base": "1", "shape.count": "3", "part.shape[1]": legs[0], "part.shape[2]": "90",
        "part.shape[2].way": "up", "part.shape[3]": legs[1], "do": "save",
    })  # fmt: skip
    die = ("1", "3/8", "2-1/2") if inch else ("25", "10", "65")
    client.post(f"{root}/tooling", data={
        "base": "2", "tooling.nose.shaft": die[0], "tooling.shoulders.radius": die[1],
        "tooling.shoulders.opening": die[2], "do": "save",
    })  # fmt: skip
    for page in ("part", "bar", "press", "tooling", "bends", "strength", "propose", "print"):
        text = client.get(f"{root}/{page}").text
        hints = re.findall(r'<span class="hint">(.*?)</span></p>', text)
        other = r"\d ?(mm|bar|MPa|kN|N|L/min)\b" if inch else r"\d ?(in|psi|ksi|lbf|gpm)\b"
        assert [one for one in hints if re.search(other, one)] == [], page
        said = re.sub(r"<[^>]+>", " ", text[text.index("<main") :])
        assert re.findall(r"\b(?:part|press|tooling|lot)\.[a-z_.]+", said) == [], page
    # On a page that does not know the units yet both stand there, and one of them is shown.
    hints = re.findall(r'<span class="hint">(.*?)</p>', client.get("/new").text)
    assert any('"of-inch">1/4 in<' in one and '"of-metric">6 mm<' in one for one in hints)
