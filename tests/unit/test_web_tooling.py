"""The pages about tooling as a browser's enemies see them, and what their buttons write."""

from __future__ import annotations

import html
import json
import re
import subprocess
import sys
import time
import tomllib
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from test_web import HOME, HOSTILE, PORT, Browser

from strapwright.errors import InputError
from strapwright.making.tooling_plates import pieces_of
from strapwright.pages.apply_fix import with_fix
from strapwright.pages.fields.member_fields import member_fields
from strapwright.pages.form import open_form
from strapwright.pages.long_work import running_searches
from strapwright.pages.search_results import searched
from strapwright.pages.shelf_forms import shelf_form
from strapwright.pages.shelves import keep, kept
from strapwright.pages.strength_page import check_text
from strapwright.pages.workshop import Workshop
from strapwright.shop.members import MEMBER_KEYS, SEVERAL
from strapwright.shop_files.reading_job import read_job
from strapwright.store import open_store
from strapwright.web import create_app
from strapwright.web.strength_view import _stated
from strapwright.wording.fix_words import fix_order

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DIE = (Path(__file__).parent / "data" / "thin-cheek-die.toml").read_text(encoding="utf-8")
RACK = (EXAMPLES / "dock-rack.toml").read_text(encoding="utf-8")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(tmp_path / "store") as store:
        yield Workshop(store)


@pytest.fixture
def client(shop: Workshop) -> Browser:
    return Browser(create_app(shop, PORT))


def brought(client: Browser, text: str = DIE) -> str:
    """Bring a job in; return its address."""
    answer = client.post("/bring", files={"file": ("die.toml", text.encode())}, follow=False)
    assert answer.status_code == 303, answer.text
    return str(answer.headers["location"]).removesuffix("/part")


def test_a_fix_changes_its_key_and_leaves_every_other_line(shop: Workshop) -> None:
    (fix,) = check_text(shop, DIE).assessment.fixes
    text, order = with_fix(shop, DIE, fix.key)
    assert order.startswith("Make the die body's cheek")
    lines = [(a, b) for a, b in zip(DIE.split("\n"), text.split("\n"), strict=True) if a != b]
    assert len(lines) == 1
    assert lines[0][0].startswith("body = ")
    assert check_text(shop, text).assessment.holds
    with pytest.raises(InputError, match="needs another change"):
        with_fix(shop, text, fix.key)


@pytest.mark.parametrize("stated", ['shaft = "1"', 'radius = "1/2"'])
def test_a_thicker_nose_replaces_what_stated_it(
    shop: Workshop, stated: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    weak = DIE.replace('shaft = "1"', stated).replace('between = "2-1/2"', 'between = "3-1/2"')
    weak = weak.replace('relief = "800 psi"', 'relief = "1200 psi"')
    fixes = check_text(shop, weak).assessment.fixes
    nose = next(one for one in fixes if one.changes[0].table == "tooling.nose")
    # Others have the processor: an hour goes by on the wall from one question to the next.
    wall, asked = time.monotonic, count()
    monkeypatch.setattr(time, "monotonic", lambda: wall() + 3600.0 * next(asked))
    text, order = with_fix(shop, weak, nose.key)
    assert order.startswith("Make the nose 1.")
    written = tomllib.loads(text)["tooling"]["nose"]
    assert set(written) == {"radius", "reach"}
    changed = shop.read(text).tooling
    assert changed is not None
    assert changed.nose.radius == pytest.approx(nose.tooling.nose.radius)


def test_every_key_of_the_members_has_its_field() -> None:
    raw = {"tooling": {"members": {key: [{}] for key in SEVERAL}}}
    names = {field.name.replace("[1]", "") for field in member_fields(raw)}
    for table, keys in MEMBER_KEYS.items():
        for key in keys:
            path = f"{table}.{key}"
            assert path in names or path in MEMBER_KEYS, path


def test_a_member_in_one_line_says_what_each_figure_is() -> None:
    form = open_form(DIE, "strength")
    carriers = [field for field in form.fields if field.group == "Carriers"]
    said = _stated(carriers, form.values)
    assert re.fullmatch(r"A36, thickness \S+, width \S+, free height \S+", said), said


def test_sizes_to_fix_it_with_come_from_the_shops_rack(shop: Workshop) -> None:
    keep(shop, "rack", RACK.replace("1 x 6", "1-1/8 x 6"), 0)
    (fix,) = check_text(shop, DIE).assessment.fixes
    order = fix_order(fix, "inch")
    assert "1.1" in order
    assert "plate 1 bought" in order


def test_a_typed_rack_keeps_the_rest_of_its_file_and_tells_what_is_wrong(shop: Workshop) -> None:
    form = shelf_form("rack", RACK, {"stock[2].count": "3", "stock[1].size": "3/4 x 2"})
    changed = [a for a, b in zip(RACK.split("\n"), form.text.split("\n"), strict=False) if a != b]
    assert 'size = "3/4"' in changed
    assert form.notes["stock[1].size"].wrong.startswith("A shaft has one diameter")
    assert [name for name, note in form.notes.items() if note.wrong] == ["stock[1].size"]
    assert "# What lies in the rack" in form.text
    with pytest.raises(InputError):
        keep(shop, "rack", "\0", 0)
    assert kept(shop, "rack").text == ""


def test_what_was_typed_into_rack_and_members_comes_back_escaped(client: Browser) -> None:
    root = brought(client)
    client.post("/rack", data={"do": "add", "base": "0"})
    client.post("/rack", data={"do": "save", "base": "1", "stock[1].name": HOSTILE,
                               "stock[1].size": HOSTILE})  # fmt: skip
    typed = {"base": "1", "do": "save", "tooling.members.body.cheek": HOSTILE,
             "tooling.members.bolt[1].size": HOSTILE,
             "tooling.members.nose.material": HOSTILE}  # fmt: skip
    client.post(f"{root}/strength", data=typed)
    client.post("/crib", data={"base": "0", "crib.drills": HOSTILE})
    pages = ["/rack", "/crib", f"{root}/strength", f"{root}/propose", f"{root}/making"]
    texts = [client.get(page).text for page in pages]
    texts += [
        client.post(f"{root}/strength", data={"do": f"fix:{HOSTILE}", "base": "1"}).text,
        client.post(f"{root}/propose", data={"do": "begin", f"also.{HOSTILE}": "yes"}).text,
        client.get(f"{root}/making", params={"tip": HOSTILE}).text,
        client.post("/rack/bring", files={"file": (HOSTILE, HOSTILE.encode())}).text,
    ]
    for text in texts:
        assert "<script>alert" not in text
        assert "<svg onload" not in text
    assert any("&lt;script&gt;" in text for text in texts)


@pytest.mark.parametrize(
    "name",
    [
        "making/../../../../etc/passwd",
        "making/..%2f..%2fstore.db",
        "making/push-plate.dxf",
        "making/1-push-plate.exe",
        "making/1-push-plate",
        "making/99-push-plate.dxf",
        "strength/strength.exe",
        "strength/..%2fstrength.txt",
        "propose/00000000000000000000000000000000/events",
        "propose/..%2f/events",
    ],
)
def test_only_the_files_there_are_can_be_taken_away(client: Browser, name: str) -> None:
    root = brought(client)
    assert client.get(f"{root}/making/1-push-plate.dxf").status_code == 200
    assert client.get(f"{root}/{name}").status_code == 404


def test_a_search_is_told_only_under_its_own_job(client: Browser, shop: Workshop) -> None:
    first, second = brought(client), brought(client)
    job = first.rpartition("/")[2]
    search = shop.store.searches.begin(job, "aa", shop.store.item(job).created)
    shop.store.searches.end(search.id, "stopped", "enough")
    told = client.get(f"{first}/propose/{search.id}/events")
    assert told.headers["content-type"].startswith("text/event-stream")
    assert '"state": "stopped"' in told.text
    assert client.get(f"{second}/propose/{search.id}/events").status_code == 404


@pytest.mark.parametrize("path", ["strength", "propose"])
def test_other_pages_change_nothing_here(client: Browser, path: str) -> None:
    root = brought(client)
    headers = {"origin": "http://evil.example"}
    assert client.post(f"{root}/{path}", headers=headers).status_code == 403
    assert client.post("/rack", headers=headers).status_code == 403
    assert client.post("/rack", headers={"origin": HOME}, data={"base": "0"}).status_code == 200


def test_downloads_are_what_the_commands_give(client: Browser) -> None:
    root = brought(client)
    text = client.get(f"{root}/strength/strength.txt")
    assert "die body" in text.text
    assert "attachment" in text.headers["content-disposition"]
    assert client.get(f"{root}/strength/strength.json").json()["format"] == 1
    sheet = client.get(f"{root}/strength/strength.pdf")
    assert sheet.content.startswith(b"%PDF-")
    made = client.get(f"{root}/making/making.json").json()
    slow = client.get(f"{root}/making/making.json", params={"fast": "150", "slow": "60"}).json()
    speeds = [cut["rpm"] for one in slow["plates"] for group in one["cutters"]
              for cut in group["cuts"]]  # fmt: skip
    assert max(speeds) <= 150
    assert made != slow


def test_no_tooling_is_one_sentence_on_every_page(client: Browser) -> None:
    root = brought(client, DIE.partition("[tooling.nose]")[0])
    for page, said in (("strength", "No tooling is entered"), ("making", "There is no tooling")):
        text = client.get(f"{root}/{page}").text
        assert text.count('class="refusal"') == 1
        assert said in text
    assert "find tooling from the rack" in client.get(f"{root}/bar").text


def test_pages_hold_nothing_inline(client: Browser) -> None:
    root = brought(client)
    keep_rack = client.post("/rack/bring", files={"file": ("rack.toml", RACK.encode())})
    assert keep_rack.status_code == 200
    for page in ("/rack", "/crib", f"{root}/strength", f"{root}/propose", f"{root}/making"):
        text = client.get(page).text
        assert not re.search(r"<script(?![^>]*\ssrc=\"/assets/)", text), page
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=", text), page


def test_no_more_searches_than_the_machine_bears_and_none_that_cannot_be_begun(
    client: Browser, shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = brought(client)
    client.post("/rack/bring", files={"file": ("rack.toml", RACK.encode())})

    def refused() -> None:
        raise OSError(12, "Cannot allocate memory")

    monkeypatch.setattr(running_searches, "_started", refused)
    answer = client.post(f"{root}/propose", data={"do": "begin"})
    assert "No search can be started (Cannot allocate memory)" in answer.text
    latest = shop.store.searches.latest(root.rpartition("/")[2])
    assert latest is not None
    assert latest.state == "failed"
    monkeypatch.setattr(running_searches, "MOST_AT_ONCE", 0)
    answer = client.post(f"{root}/propose", data={"do": "begin"})
    assert "searches are already running" in answer.text


def test_a_tooling_in_a_shop_file_is_checked_and_changed_only_there(
    client: Browser, shop: Workshop
) -> None:
    head, _, tooling = DIE.partition("[tooling.nose]")
    file = f'format = 1\nunits = "inch"\n[tooling.nose]{tooling}'
    kept_file = client.post("/bring", files={"file": ("hook die.toml", file.encode())})
    assert kept_file.status_code == 200
    text = head.replace('units = "inch"', 'units = "inch"\ntooling = "hook die.toml"')
    root = brought(client, text)
    page = client.get(f"{root}/strength").text
    assert "die body" in page
    (order,) = re.findall(r'value="(fix:[^"]+)"', page)
    answer = client.post(f"{root}/strength", data={"base": "1", "do": html.unescape(order)})
    assert answer.status_code == 422
    assert "takes its tooling from a shop file" in html.unescape(answer.text)
    assert shop.open(root.rpartition("/")[2]).text == text


BRACKET = (EXAMPLES / "cleat-bracket.toml").read_text(encoding="utf-8")
DRILLS_ONLY = 'format = 1\nunits = "inch"\n[crib]\ndrills = ["fractional 1/16 to 1/2 by 1/64"]\n'


@pytest.mark.long
def test_an_offer_is_written_in_sizes_that_can_be_measured_and_still_holds(shop: Workshop) -> None:
    asked = {
        "jobs": [{"id": "1", "text": BRACKET, "beside": {}}],
        "rack": RACK,
        "crib": DRILLS_ONLY,
    }
    told: list[str] = []
    found = searched(asked, lambda word, _done, _whole: told.append(word))
    assert {"bending", "checking", "found"} <= set(told)
    assert (found["jobs"], found["crib"]) == (["1"], True)
    assert len(found["proposals"]) == 3
    for one in found["proposals"]:
        assert " mm" not in one["tooling"]
        job = f"{BRACKET}\n{one['tooling']}"
        assert check_text(shop, job).assessment.holds
        # Its body can be made as it is stated, from what is cut for it.
        pieces = {piece.name: piece for piece in pieces_of(read_job(job)).plates}
        floor, cut = pieces["floor"], next(c for c in one["cuts"] if c["use"] == "floor")
        assert floor.width <= cut["length_mm"] + 0.1
        assert floor.height <= cut["width_mm"] + 0.1
        assert one["picture"].startswith("<svg ")
        # No drill up to 1/2 in bores the seat of a round of the rack; its way round takes an hour.
        assert any(way.startswith("seats of the shoulders") for way in one["not_in_crib"])
        assert one["hours"] > 1.0


@pytest.mark.usefixtures("searches_start_anew")
def test_a_search_as_a_program_of_its_own_answers_in_lines() -> None:
    asked = {
        "jobs": [{"id": "1", "text": BRACKET, "beside": {}}],
        "rack": "format = 1\nunits = 'inch'\n",
        "crib": None,
    }
    with running_searches._started() as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(json.dumps(asked) + "\n")
        process.stdin.flush()  # and stays open: somebody waits
        *_, last = process.stdout
        assert process.wait() == 0
    assert "rack" in json.loads(last)["refused"]


# Answers with what it was asked: who is to be told apart from what is found.
ECHO = """
import json, sys
asked = json.loads(sys.stdin.readline())
one = {"count": 1, "reason": "echo", "example": str(asked["crib"])}
found = {"units": "inch", "proposals": [], "nearest": None, "fell_out": [one], "tried": 1,
         "planned": 0, "parts": ["part"] * len(asked["jobs"]),
         "jobs": [job["id"] for job in asked["jobs"]], "crib": asked["crib"] is not None}
print(json.dumps({"found": found}), flush=True)
"""
SINCE = "has changed since this search"


def searched_for(client: Browser, shop: Workshop, root: str, *also: str) -> str:
    """Begin a search for a job and others, wait until it has ended, return its page."""
    typed = {"do": "begin", **{f"also.{one.rpartition('/')[2]}": "yes" for one in also}}
    assert client.post(f"{root}/propose", data=typed).status_code == 200
    for _ in range(400):
        latest = shop.store.searches.latest(root.rpartition("/")[2])
        if latest is not None and latest.state != "running":
            break
        time.sleep(0.025)
    page = client.get(f"{root}/propose").text
    assert "Search again" in page
    return page


def test_what_was_changed_since_a_search_for_several_parts_is_told(
    client: Browser, shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(
        running_searches,
        "_started",
        lambda: subprocess.Popen(
            [sys.executable, "-c", ECHO], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        ),
    )
    head, _, rest = BRACKET.partition("[press]")
    file = client.post(
        "/bring",
        files={"file": ("ram.toml", f'format = 1\nunits = "inch"\n[press]{rest}'.encode())},
    )
    assert file.status_code == 200
    first = brought(client)
    named = head.replace('units = "inch"', 'units = "inch"\npress = "ram.toml"')
    second = brought(client, named)
    keep(shop, "rack", RACK, 0)

    page = searched_for(client, shop, first, second)
    assert SINCE not in page
    assert "a usual set of cutters" in page
    keep(shop, "crib", DRILLS_ONLY, 0)
    assert SINCE in client.get(f"{first}/propose").text
    page = searched_for(client, shop, first, second)
    assert SINCE not in page
    assert "&#34;fractional" in page  # the crib came to who searches
    assert "a usual set of cutters" not in page

    def changed(kept_item: str, old: str, new: str) -> bool:
        """Whether a change is told; a search afterwards takes it in."""
        before = shop.store.item(kept_item)
        text = shop.store.text_of(kept_item)
        assert old in text
        shop.store.save(kept_item, text.replace(old, new), before.current, before.updated)
        told = SINCE in client.get(f"{first}/propose").text
        assert SINCE not in searched_for(client, shop, first, second)
        return told

    ram = next(one.id for one in shop.store.list("press"))
    assert changed(first.rpartition("/")[2], 'relief = "', 'relief = "1')
    assert changed(second.rpartition("/")[2], "quantity = 10", "quantity = 3")
    assert changed(ram, 'relief = "', 'relief = "1')
    assert changed(kept(shop, "rack").id, 'size = "3/4"', 'size = "5/8"')
    assert changed(kept(shop, "crib").id, "to 1/2", "to 3/4")
    # The tooling is what is searched for, so it is not asked from.
    assert not changed(first.rpartition("/")[2], 'between = "2-1/2"', 'between = "3"')
