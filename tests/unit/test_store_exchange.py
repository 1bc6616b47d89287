"""Out and in again without loss, backups, and archives that try to reach out of their place."""

from __future__ import annotations

import io
import json
import shutil
import sqlite3
import zipfile
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from strapwright.errors import InputError
from strapwright.service.load_job import load_job
from strapwright.store import (
    Store,
    StoreError,
    archives,
    backup,
    backup_store,
    export_files,
    export_folder,
    export_one,
    export_zip,
    import_files,
    import_folder,
    import_one,
    import_zip,
    open_store,
    restore_store,
    verify_file,
)
from strapwright.store.database import COMING, FILE

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
PRESS = '# by the door\nformat = 1\n[press]\nbore = "63 mm"\n'
JOB = """# lies flat on the slip\r
format = 1\r
press = "Big press.toml"\r
[part]\r
name = "fender hanger"   # of the long pier\r
quantity = 4\r
bar = "flat 6 x 40 mm"\r
material = "S235JR"\r
shape = ["70 mm", "up 90", "120 mm"]\r
"""


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with open_store(tmp_path / "one") as opened:
        yield opened


@pytest.fixture
def other(tmp_path: Path) -> Iterator[Store]:
    with open_store(tmp_path / "two") as opened:
        yield opened


def fill(store: Store) -> None:
    store.create("press", "Big press", PRESS, AT)
    store.create("job", "Hanger: long/short", JOB, AT)
    store.archive(store.create("job", "Öse", "half [ typed", AT).id)


def kept(store: Store) -> set[tuple[object, ...]]:
    items = store.list() + store.list(archived=True)
    return {
        (item.file, item.kind, item.name, item.archived, item.sound, store.text_of(item.id))
        for item in items
    }


def test_an_archive_carries_everything_over(store: Store, other: Store) -> None:
    fill(store)
    done = import_zip(other, export_zip(store), AT)
    assert {one.outcome for one in done} == {"new"}
    assert kept(other) == kept(store)
    assert export_zip(other) == export_zip(store)
    assert {one.outcome for one in import_zip(other, export_zip(store), AT)} == {"same"}
    assert all(item.current == 1 for item in other.list())


def test_an_exported_folder_is_one_that_can_be_planned_from(
    store: Store, other: Store, tmp_path: Path
) -> None:
    fill(store)
    written = export_folder(store, tmp_path / "deep" / "out")
    assert sorted(path.name for path in written) == [
        "Big press.toml",
        "Hanger- long-short.toml",
        "index.json",
        "Öse.toml",
    ]
    assert (tmp_path / "deep" / "out" / "Hanger- long-short.toml").read_bytes() == JOB.encode()
    job = load_job(tmp_path / "deep" / "out" / "Hanger- long-short.toml")
    assert job.press is not None
    assert job.press.bore == 63.0
    import_folder(other, tmp_path / "deep" / "out", AT)
    assert kept(other) == kept(store)
    with pytest.raises(InputError, match="there is something here already; name a new"):
        export_folder(store, tmp_path / "deep" / "out")
    with pytest.raises(InputError, match="it holds no TOML file"):
        import_folder(other, tmp_path, AT)


def test_without_an_index_the_files_say_what_they_are(store: Store) -> None:
    done = import_files(
        store,
        {
            "a job.toml": JOB.encode(),
            "Big press.toml": PRESS.encode(),
            "lot 7.toml": b'format = 1\n[lot]\nyield = "310 MPa"\n',
            "half.toml": b"half [ typed",
        },
        AT,
    )
    assert {(one.file, one.item.kind, one.item.name, one.item.sound) for one in done} == {
        ("a job.toml", "job", "a job", True),  # judged after the press it names
        ("Big press.toml", "press", "Big press", True),
        ("lot 7.toml", "lot", "lot 7", True),
        ("half.toml", "job", "half", False),
    }


def test_a_clash_is_refused_as_a_whole_or_becomes_a_version(store: Store, other: Store) -> None:
    fill(store)
    other.create("job", "a", "other text", AT)
    mine = other.create("press", "big PRESS", PRESS + "# mine\n", AT)
    before = kept(other)
    with pytest.raises(InputError) as refused:
        import_zip(other, export_zip(store), AT)
    assert str(refused.value) == (
        'Big press.toml: the store has another text under this file name, its press "big PRESS"; '
        "rename the file, or import it as the next version of that."
    )
    assert kept(other) == before
    done = import_zip(other, export_zip(store), AT, clash="version")
    assert [one.outcome for one in done if one.item.id == mine.id] == ["new version"]
    assert other.text_of(mine.id, 1) == PRESS + "# mine\n"
    assert other.text_of(mine.id) == PRESS
    with pytest.raises(InputError, match=r'its press "big PRESS"; rename the file\.'):
        import_files(other, {"big press.toml": JOB.encode()}, AT, clash="version")


def test_one_file_out_and_in(store: Store) -> None:
    fill(store)
    (hanger,) = store.list("job")
    store.save(hanger.id, JOB + "# 2\n", 1, AT)
    assert export_one(store, hanger.id, 1) == ("Hanger- long-short.toml", JOB.encode())
    assert export_one(store, hanger.id)[1] == (JOB + "# 2\n").encode()
    again = import_one(store, "C:\\shop\\Hanger- long-short.toml", JOB.encode(), AT)
    assert (again.file, again.kind) == ("Hanger- long-short 2.toml", "job")
    assert store.text_of(again.id) == JOB
    odd = import_one(store, "../../etc/passwd", b"# no lot yet\n", AT, kind="lot")
    assert (odd.file, odd.name, odd.kind) == ("passwd.toml", "passwd", "lot")
    with pytest.raises(InputError, match=r"a\.toml \(line 2\): it is not UTF-8 text"):
        import_one(store, "a.toml", b"x = 1\n\xff", AT)


def zipped(*entries: tuple[str, bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in entries:
            entry = zipfile.ZipInfo("x" * len(name))
            entry.filename = name  # as it is: the library's own way would tidy it up
            archive.writestr(entry, content)
    return packed.getvalue()


@pytest.mark.parametrize(
    "name",
    [
        "../a.toml",
        "/a.toml",
        "a/b.toml",
        "..\\a.toml",
        "C:a.toml",
        "a.toml/",
        ".toml",
        ".hidden.toml",
        "a.db",
        "store.db",
        "a\0.toml",
        "a.toml ",
        "con.toml",
        " a.toml",
        "x" * 60 + ".toml",
        "a\n.toml",
    ],
)
def test_names_that_reach_out_of_an_archive_are_refused(store: Store, name: str) -> None:
    with pytest.raises(InputError, match=r"this is not (the|a) plain name of a TOML file"):
        import_zip(store, zipped(("b.toml", JOB.encode()), (name, JOB.encode())), AT)
    assert store.list() == ()
    with pytest.raises(InputError, match="this is not a plain name of a TOML file"):
        import_files(store, {name: JOB.encode()}, AT)


def test_archives_that_are_none_or_too_much_are_refused(store: Store) -> None:
    whole = zipped(("a.toml", JOB.encode()))
    # Bit 0 of the flags, at 6 in the local head and at 8 in the central one: with a password.
    locked = bytearray(whole)
    locked[6] |= 1
    locked[whole.index(b"PK\x01\x02") + 8] |= 1
    broken = bytearray(whole)
    broken[40:60] = bytes(20)
    for raw, says in (
        (b"", "it is no zip archive, or a damaged one"),
        (whole[:-10], "it is no zip archive, or a damaged one"),
        (bytes(broken), "it is no zip archive, or a damaged one"),
        (bytes(locked), "it is packed in a way not read here"),
        (zipped(("a.toml", b"#" * 1_000_001)), "it has more than 1 MB"),
        (zipped(("a.toml", b""), ("A.toml", b"")), "some disks take it for the same"),
        (zipped(("a.toml", b"\xff")), "it is not UTF-8 text"),
        (zipped(("a.toml", b"\0")), "it is binary and not text"),
    ):
        with pytest.raises(InputError, match=says):
            import_zip(store, raw, AT)
    with pytest.warns(UserWarning, match="Duplicate name"):
        twice = zipped(("a.toml", b"1"), ("a.toml", b"2"))
    with pytest.raises(InputError, match="it holds this name twice"):
        import_zip(store, twice, AT)
    assert store.list() == ()


def test_archives_and_folders_have_a_limit_in_all(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(archives, "LARGEST_TOTAL", 3_000)
    monkeypatch.setattr(archives, "MOST_FILES", 3)
    three = [(f"{number}.toml", b"#" * 1_000) for number in range(3)]
    assert len(import_zip(store, zipped(*three), AT)) == 3
    with pytest.raises(InputError, match="it holds more than 3 files; split it"):
        import_zip(store, zipped(*three, ("3.toml", b"")), AT)
    three[0] = ("0.toml", b"#" * 1_001)
    with pytest.raises(InputError, match="it holds more than 0 MB; split it"):
        import_zip(store, zipped(*three), AT)
    for name, content in three:
        (tmp_path / name).write_bytes(content)
    with pytest.raises(InputError, match="it holds more than 0 MB; split it"):
        import_folder(store, tmp_path, AT)


@pytest.mark.parametrize(
    ("index", "says"),
    [
        (b"{", "it is not JSON"),
        (b"[" * 100_000, "it is not JSON"),
        (b"\xff", "it is not JSON"),
        (b"[]", "it does not say format 1"),
        (b'{"format": 1}', "it lists no items"),
        (b'{"format": 1, "items": [3]}', "an item in it is no table"),
        (b'{"format": 1, "items": [{"file": "a.toml"}]}', "lacks file, kind or name"),
        (
            b'{"format": 1, "items": [{"file": "a.toml", "kind": "boat", "name": "a"}]}',
            "this kind is not kept",
        ),
        (
            b'{"format": 1, "items": [{"file": "a.toml", "kind": "job", "name": ""}]}',
            "this is empty",
        ),
        (
            b'{"format": 1, "items": [{"file": "../x.toml", "kind": "job", "name": "a"}]}',
            "it names a file that is not there",
        ),
    ],
)
def test_an_index_that_is_wrong_is_refused(store: Store, index: bytes, says: str) -> None:
    with pytest.raises(InputError, match=says):
        import_files(store, {"a.toml": b"", "index.json": index}, AT)
    assert store.list() == ()


def test_the_index_names_every_file(store: Store) -> None:
    fill(store)
    files = export_files(store)
    listed = json.loads(files.pop("index.json"))["items"]
    assert {one["file"] for one in listed} == set(files)


def test_a_backup_holds_every_version_and_comes_back(store: Store, tmp_path: Path) -> None:
    fill(store)
    (hanger,) = store.list("job")
    store.save(hanger.id, JOB + "# 2\n", 1, AT)
    store.drafts.put(hanger.id, "phone", "job", 2, {"leg": "3"}, AT)
    copy = backup_store(store.folder, tmp_path / "copy.db")
    verify_file(copy)
    store.save(hanger.id, JOB + "# 3\n", 2, AT)
    with pytest.raises(StoreError, match="there is something of that name; give another"):
        backup_store(store.folder, copy)
    with pytest.raises(StoreError, match="is open in another window or program"):
        restore_store(copy, store.folder, AT)
    store.close()
    aside = restore_store(copy, store.folder, AT)
    assert aside == store.folder / "before-restore-20310504T060000000000Z.db"
    assert sorted(path.name for path in store.folder.iterdir()) == sorted(
        [aside.name, FILE, "store.lock"]
    )
    with open_store(store.folder) as back:
        assert [version.number for version in back.history(hanger.id)] == [2, 1]
        assert back.drafts.get(hanger.id, "phone") is not None
    with closing(sqlite3.connect(aside)) as old:
        assert old.execute("SELECT max(number) FROM versions").fetchone() == (3,)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["copy.db", "one"]
    later = restore_store(copy, tmp_path / "new", AT + timedelta(1))
    assert later is None


def test_a_restored_store_takes_nothing_from_the_log_of_the_old_one(tmp_path: Path) -> None:
    folder, copy = tmp_path / "store", tmp_path / "copy.db"
    with open_store(folder) as store:
        item = store.create("job", "hook", JOB, AT)
        backup_store(folder, copy)
        store.save(item.id, JOB + "# 2\n", 1, AT)
        log = (folder / f"{FILE}-wal").read_bytes()  # as a program that is killed leaves it
        head = (folder / FILE).read_bytes()
    assert log
    # A damaged file with its log: both are kept aside, neither is read.
    (folder / FILE).write_bytes(b"\xff" * len(head))
    (folder / f"{FILE}-wal").write_bytes(log)
    aside = restore_store(copy, folder, AT)
    assert aside is not None
    assert aside.read_bytes() == b"\xff" * len(head)
    assert (folder / f"{aside.name}-wal").read_bytes() == log
    with open_store(folder) as back:
        assert back.text_of(item.id) == JOB
    verify_file(folder / FILE)


@pytest.mark.parametrize("moment", range(1, 13))
def test_a_restore_that_is_cut_off_leaves_the_old_store_whole_or_the_new_one(
    tmp_path: Path, moment: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The power goes at any step that changes the folder; who opens it next finds one of both."""
    folder, copy = tmp_path / "store", tmp_path / "copy.db"
    with open_store(folder) as store:
        item = store.create("job", "hook", JOB, AT)
        store.set_setting("passes", "old")
        backup_store(folder, copy)
        store.save(item.id, JOB + "# 2\n", 1, AT)
        log = (folder / f"{FILE}-wal").read_bytes()
        head = (folder / FILE).read_bytes()
    (folder / FILE).write_bytes(head)  # as a program that is killed leaves it
    (folder / f"{FILE}-wal").write_bytes(log)
    left = moment

    def cut(step: Callable[..., Any]) -> Callable[..., Any]:
        def stepped(*words: Any, **named: Any) -> Any:
            nonlocal left
            left -= 1
            if left <= 0:
                raise KeyboardInterrupt
            return step(*words, **named)

        return stepped

    with monkeypatch.context() as power:
        for name in ("unlink", "replace"):
            power.setattr(Path, name, cut(getattr(Path, name)))
        power.setattr(backup.shutil, "copyfile", cut(shutil.copyfile))
        try:
            restore_store(copy, folder, AT, forget="passes")
            done = True
        except KeyboardInterrupt:
            done = False
    with open_store(folder) as back:
        text, passes = back.text_of(item.id), back.setting("passes")
    assert (text, passes) in ((JOB + "# 2\n", "old"), (JOB, None))
    assert done is (left > 0)
    assert (text == JOB) or not done
    assert moment > 1 or text != JOB
    assert not (folder / COMING).exists()
    verify_file(folder / FILE)


def test_a_backup_that_is_not_whole_changes_nothing(store: Store, tmp_path: Path) -> None:
    fill(store)
    copy = backup_store(store.folder, tmp_path / "copy.db")
    store.close()
    before = (store.folder / FILE).read_bytes()
    whole = copy.read_bytes()
    for raw in (
        b"",
        whole[: len(whole) // 2],
        b"x" * 9000,
        whole.replace(b"long pier", b"lost oar "),
    ):
        copy.write_bytes(raw)
        with pytest.raises(
            StoreError, match=r"copy\.db: .*(damaged|another program's file|nothing in it)"
        ):
            restore_store(copy, store.folder, AT)
    with pytest.raises(StoreError, match="there is no such file"):
        restore_store(tmp_path / "none.db", store.folder, AT)
    with pytest.raises(StoreError, match="there is no store here"):
        backup_store(tmp_path, tmp_path / "b.db")
    with pytest.raises(StoreError, match="it cannot be written"):
        backup_store(store.folder, tmp_path / "none" / "b.db")
    assert (store.folder / FILE).read_bytes() == before
    assert sorted(path.name for path in store.folder.iterdir()) == [FILE, "store.lock"]
