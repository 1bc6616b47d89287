"""Settings: a backup comes back on a page, into an empty store alone, and not for everybody."""

# ruff: noqa: F811  fixtures of another module are named as it names them

from __future__ import annotations

import html
from collections.abc import AsyncIterator, Iterator
from pathlib import Path
from typing import Any

import pytest
from test_sharing import Phone, clock, phone, sharing, store  # noqa: F401  fixtures
from test_store_opening import RELEASED, make
from test_web import PORT, Browser

from strapwright.pages.sharing.sharing_now import SharingNow
from strapwright.pages.workshop import Workshop
from strapwright.service.backups import bring_into_open
from strapwright.store import Store, StoreError, backup_store, open_store
from strapwright.web import create_app, request_guard


@pytest.fixture
def old(tmp_path: Path) -> Iterator[Browser]:
    with open_store(tmp_path / "old") as kept:
        yield Browser(create_app(Workshop(kept), PORT))


def brought(client: Browser, raw: bytes) -> tuple[int, str]:
    answer = client.post("/settings/restore", files={"file": ("shop.db", raw)})
    return answer.status_code, answer.text


def test_a_backup_taken_on_a_page_comes_back_on_a_page(
    old: Browser,
    store: Store,
) -> None:
    job = old.post("/demo", follow=False).headers["location"].split("/")[2]
    old.post(f"/jobs/{job}/log", data={"part": "1", "bend": "1", "angle": "88", "sure": "yes"})
    raw = old.get("/backup.db").content
    # Larger than any job file may be: the page takes it all the same.
    shop = Workshop(store)
    new = Browser(create_app(shop, PORT))
    assert "Restore a backup" in new.get("/settings").text
    status, page = brought(new, raw)
    assert status == 200
    assert "came back" in page
    assert new.get(f"/jobs/{job}/part").status_code == 200
    assert new.get(f"/jobs/{job}/files/job.toml").content == (
        old.get(f"/jobs/{job}/files/job.toml").content
    )
    assert [one.figures for one in store.log.lines(job)] == [
        {**one.figures} for one in shop.store.log.lines(job)
    ]
    assert len(store.log.lines(job)) == 1
    # It is saved into as any other from here on, and a second backup is refused.
    new.post(f"/jobs/{job}/copy")
    assert len(store.list()) == 2
    assert "Restore a backup" not in new.get("/settings").text
    status, page = brought(new, raw)
    assert status == 422
    assert 'role="alert">The store has 2 jobs' in page
    assert str(store.folder) not in page
    assert len(store.list()) == 2
    with open_store_again(store) as again:
        assert len(again.list()) == 2


def open_store_again(store: Store) -> Store:
    store.close()
    return open_store(store.folder)


@pytest.mark.parametrize("raw", [b"", b"x" * 5000, b"SQLite format 3\x00" + b"\x00" * 4096])
def test_what_is_no_backup_is_refused_in_a_sentence_and_changes_nothing(
    store: Store,
    raw: bytes,
) -> None:
    client = Browser(create_app(Workshop(store), PORT))
    status, page = brought(client, raw)
    assert status == 422
    assert 'role="alert"' in page
    words = page[page.index('role="alert"') :].partition("</p>")[0]
    assert "/backup.db" not in words
    assert "chosen file" in words
    assert "store's" not in html.unescape(words)
    assert str(store.folder) not in words
    assert store.list() == ()
    assert client.post("/demo", follow=False).status_code == 303


@pytest.mark.parametrize("sample", RELEASED, ids=lambda one: one.stem)
def test_a_backup_of_every_older_version_comes_back(
    store: Store, sample: Path, tmp_path: Path
) -> None:
    (tmp_path / "old").mkdir()
    make(tmp_path / "old" / "store.db", sample.read_text(encoding="utf-8"))
    before = backup_store(tmp_path / "old", tmp_path / "old.db").read_bytes()
    client = Browser(create_app(Workshop(store), PORT))
    status, page = brought(client, before)
    assert status == 200
    assert "came back" in page
    assert len(store.list()) + len(store.list(archived=True)) > 0
    for item in store.list("job"):
        assert client.get(f"/jobs/{item.id}/history").status_code == 200
    assert client.post("/demo", follow=False).status_code == 303  # and it is saved into


def test_no_device_restores_a_backup_and_one_that_only_looks_gets_none(
    old: Browser,
    phone: Phone,
    sharing: SharingNow,
    store: Store,
) -> None:
    old.post("/demo")
    raw = old.get("/backup.db").content
    phone.join(sharing.invite("visitor", "look", 1))
    page = phone.get("/settings").text
    assert "/backup.db" not in page.partition("<main")[2]
    assert "Restore" not in page
    refused = phone.ask("POST", "/settings/restore", files={"file": ("shop.db", raw)})
    assert refused.status_code == 403
    assert phone.get("/backup.db").status_code == 403
    assert store.list() == ()
    # Its own units it may choose.
    assert phone.ask("POST", "/settings/mine", data={"units": "metric"}).status_code == 303
    # Nor does one that works bring one: everything would be another shop's, for everybody.
    phone.cookies.clear()
    phone.join(sharing.invite("bench", "work", 1))
    page = phone.get("/settings").text
    assert "restored on the machine that serves the pages" in page
    assert 'action="/settings/restore"' not in page
    assert phone.get("/backup.db").status_code == 200
    refused = phone.ask("POST", "/settings/restore", files={"file": ("shop.db", raw)})
    assert refused.status_code == 403
    assert "restored on the machine that serves the pages" in refused.text
    assert store.list() == ()
    # The machine itself does, and who was let in stays so, though the backup knows other devices.
    at_the_machine = Browser(phone.app)
    assert brought(at_the_machine, raw)[0] == 200
    assert store.list() != ()
    assert phone.get("/settings").status_code == 200
    assert (store.setting("sharing passes") or "[]") != "[]"


def test_a_job_saved_just_before_refuses_the_backup(
    old: Browser,
    store: Store,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Between the first look into the store and the taking over somebody begins a job."""
    old.post("/demo")
    backup = tmp_path / "shop.db"
    backup.write_bytes(old.get("/backup.db").content)
    from strapwright.service import backups  # noqa: PLC0415  what is meant to be late

    taken = backups.take_in

    def late(into: Store, made: Path, kept: str) -> None:
        Workshop(into).demo()
        taken(into, made, kept)

    monkeypatch.setattr(backups, "take_in", late)
    with pytest.raises(StoreError, match="the store has 1 job"):
        bring_into_open(backup, store)
    assert len(store.list()) == 1
    assert not [one for one in store.folder.iterdir() if one.name.startswith(".restoring")]


@pytest.mark.parametrize("all_gone", [False, True])
def test_a_pass_taken_back_while_a_backup_is_read_stays_taken_back(
    old: Browser,
    sharing: SharingNow,
    store: Store,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    *,
    all_gone: bool,
) -> None:
    old.post("/demo")
    backup = tmp_path / "shop.db"
    backup.write_bytes(old.get("/backup.db").content)
    before, _ = sharing.passes.invite("lost phone", "work", 1)
    if not all_gone:
        sharing.passes.invite("bench", "work", 1)
    from strapwright.service import backups  # noqa: PLC0415  what is meant to be late

    taken = backups.take_in

    def late(into: Store, made: Path, kept: str) -> None:
        sharing.passes.revoke(before.id)
        taken(into, made, kept)

    monkeypatch.setattr(backups, "take_in", late)
    assert bring_into_open(backup, store) == 1
    kept = store.setting("sharing passes") or "[]"
    assert before.digest not in kept
    assert ("bench" in kept) is not all_gone


@pytest.mark.parametrize(
    "sent", [{}, {"files": {"other": ("a.txt", b"x")}}, {"data": {"file": ""}}]
)
def test_no_file_chosen_is_said_so(store: Store, sent: dict[str, Any]) -> None:
    client = Browser(create_app(Workshop(store), PORT))
    answer = client.post("/settings/restore", **sent)
    assert answer.status_code == 422
    assert 'role="alert">Choose a file' in answer.text


def test_too_large_a_backup_is_told_the_limit_of_a_backup(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = Browser(create_app(Workshop(store), PORT))
    for path, most in (("/settings/restore", "300 MB"), ("/bring", "1 MB")):
        told = client.post(path, headers={"content-length": "400000000"})
        assert told.status_code == 413
        assert f"({most})" in told.text
    # By counting, whatever length was promised.
    monkeypatch.setattr(request_guard, "LARGEST_BACKUP", 2_000_000)

    async def dribble() -> AsyncIterator[bytes]:
        yield b'--b\r\ncontent-disposition: form-data; name="file"; filename="a.db"\r\n\r\n'
        for _ in range(210):
            yield b"x" * 10_000

    headers = {"content-type": "multipart/form-data; boundary=b"}
    counted = client.post("/settings/restore", content=dribble(), headers=headers)
    assert counted.status_code == 413
    assert "(2 MB)" in counted.text
