"""Files in and out: whole or not at all, and one sentence where it cannot be."""

from __future__ import annotations

import errno
import os
import stat
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.service.file_access import (
    LARGEST,
    check_folder,
    read_text_file,
    write_files,
    write_new_file,
)


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes("\N{BYTE ORDER MARK}format = 1\n".encode())
    assert read_text_file(path, "job file") == "format = 1\n"


@pytest.mark.parametrize(("size", "fits"), [(LARGEST, True), (LARGEST + 1, False)])
def test_the_largest_file_is_one_megabyte(size: int, fits: bool, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"#" * size)
    if fits:
        assert len(read_text_file(path, "job file")) == size
    else:
        with pytest.raises(InputError, match="a job file has less than 1 MB; name a job file"):
            read_text_file(path, "job file")


def test_not_utf_8_names_the_line(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"format = 1\nname = '\xe4'\n")
    with pytest.raises(InputError, match=r"\(line 2\): it is not UTF-8 text"):
        read_text_file(path, "job file")


def test_what_is_no_plain_file_is_not_opened(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)  # opening it would wait for ever
    with pytest.raises(InputError, match="it is not a plain file"):
        read_text_file(pipe, "job file")


def test_a_name_that_no_system_takes_is_refused() -> None:
    with pytest.raises(InputError):
        read_text_file(Path("a\0b"), "job file")


def test_files_replace_older_ones_and_leave_the_others(tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "out"
    write_files(folder, {"a.json": b"1", "b.svg": b"2"})
    (folder / "notes.txt").write_text("mine", encoding="utf-8")
    written = write_files(folder, {"a.json": b"3"})
    assert written == (folder / "a.json",)
    found = {path.name: path.read_bytes() for path in folder.iterdir()}
    assert found == {"a.json": b"3", "b.svg": b"2", "notes.txt": b"mine"}


def test_a_write_that_fails_leaves_the_folder_as_it_was(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.json": b"old"})
    # The second name cannot be made, so the first must not take its place either.
    with pytest.raises(InputError, match="the output folder cannot be written"):
        write_files(tmp_path, {"a.json": b"new", "no/such/b.svg": b"2"})
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]
    assert (tmp_path / "a.json").read_bytes() == b"old"


def test_a_folder_is_tried_before_any_work_is_done_for_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    check_folder(tmp_path / "deep" / "out")
    assert list(tmp_path.iterdir()) == []  # nothing is left of the trial
    (tmp_path / "circle").symlink_to("circle")
    for name in ("x" * 300, "circle", "circle/out"):
        with pytest.raises(InputError, match="cannot be written"):
            check_folder(tmp_path / name)

    def takes_nothing(*_: object) -> None:  # the rights of the place look right all the same
        raise OSError(errno.EROFS, os.strerror(errno.EROFS))

    monkeypatch.setattr(os, "mkdir", takes_nothing)
    with pytest.raises(InputError, match="cannot be written \\(read-only file system\\)"):
        check_folder(tmp_path / "out")


@pytest.mark.parametrize("there", [True, False])
def test_a_file_behind_links_is_replaced_where_it_lies(there: bool, tmp_path: Path) -> None:
    shared, own = tmp_path / "shared", tmp_path / "own"
    shared.mkdir()
    own.mkdir()
    if there:
        (shared / "rack.toml").write_bytes(b"old")
    (shared / "latest.toml").symlink_to("rack.toml")
    (own / "rack.toml").symlink_to(Path("..") / "shared" / "latest.toml")
    write_files(own, {"rack.toml": b"new", "cuts.csv": b"1"})
    assert (own / "rack.toml").is_symlink()
    assert (shared / "latest.toml").is_symlink()
    assert (shared / "rack.toml").read_bytes() == b"new"
    assert sorted(path.name for path in shared.iterdir()) == ["latest.toml", "rack.toml"]
    assert sorted(path.name for path in own.iterdir()) == ["cuts.csv", "rack.toml"]


def test_links_in_a_circle_are_refused_and_stay(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to("b")
    (tmp_path / "b").symlink_to("a")
    with pytest.raises(InputError, match="the output folder cannot be written"):
        write_files(tmp_path, {"c": b"1", "a": b"2"})
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a", "b"]


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o640])
def test_who_may_read_and_write_a_file_stays(mode: int, tmp_path: Path) -> None:
    path = tmp_path / "rack.toml"
    path.write_bytes(b"old")
    path.chmod(mode)
    write_files(tmp_path, {"rack.toml": b"new", "new.toml": b"1"})
    assert path.read_bytes() == b"new"
    assert stat.S_IMODE(path.stat().st_mode) == mode
    plain = tmp_path / "plain"
    plain.touch()
    assert (tmp_path / "new.toml").stat().st_mode == plain.stat().st_mode


def test_a_new_file_never_overwrites(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    write_new_file(path, b"first")
    with pytest.raises(InputError, match="nothing was written"):
        write_new_file(path, b"second")
    assert path.read_bytes() == b"first"
    with pytest.raises(InputError, match="it cannot be written"):
        write_new_file(tmp_path / "none" / "job.toml", b"x")


def test_two_who_make_one_file_at_once_do_not_both_succeed(tmp_path: Path) -> None:
    for number in range(30):
        path, begin = tmp_path / f"{number}.toml", threading.Barrier(4)
        made: list[bytes] = []
        said: list[str] = []

        def make(content: bytes) -> None:
            begin.wait()  # noqa: B023  each round has its own, and ends before the next
            try:
                write_new_file(path, content)  # noqa: B023
            except InputError as error:
                said.append(str(error))  # noqa: B023
            else:
                made.append(content)  # noqa: B023

        _at_once(make, [bytes([65 + one]) * 5000 for one in range(4)])
        assert made == [path.read_bytes()]
        assert len([one for one in said if "there is something of that name" in one]) == 3
    assert {path.suffix for path in tmp_path.iterdir()} == {".toml"}


def test_two_who_write_one_file_at_once_leave_one_whole(tmp_path: Path) -> None:
    contents = [bytes([65 + one]) * 5000 for one in range(4)]
    for _ in range(30):
        begin = threading.Barrier(4)

        def write(content: bytes) -> None:
            begin.wait()  # noqa: B023
            write_files(tmp_path, {"rack.toml": content, "cuts.csv": content})

        _at_once(write, contents)
        assert (tmp_path / "rack.toml").read_bytes() in contents
        assert (tmp_path / "cuts.csv").read_bytes() in contents
    assert sorted(path.name for path in tmp_path.iterdir()) == ["cuts.csv", "rack.toml"]


def _at_once(work: Callable[[bytes], None], contents: list[bytes]) -> None:
    threads = [threading.Thread(target=work, args=(one,)) for one in contents]
    for one in threads:
        one.start()
    for one in threads:
        one.join()


def test_a_disk_without_second_names_takes_a_new_file_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As FAT and exFAT, on which most memory sticks are."""

    def refused(*_: object, **__: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", refused)
    write_new_file(tmp_path / "job.toml", b"first")
    with pytest.raises(InputError, match="nothing was written"):
        write_new_file(tmp_path / "job.toml", b"second")
    assert (tmp_path / "job.toml").read_bytes() == b"first"
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_a_disk_without_second_names_that_fails_leaves_no_empty_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object, **__: object) -> None:
        raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr(os, "link", refused)
    monkeypatch.setattr(Path, "replace", refused)
    with pytest.raises(InputError, match="it cannot be written"):
        write_new_file(tmp_path / "job.toml", b"first")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("code", [errno.EINVAL, errno.EIO])
def test_a_disk_that_cannot_be_told_to_write_through(
    code: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that does not know how writes when it likes; one that fails is told."""

    def refused(_: int) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, "fsync", refused)
    if code == errno.EINVAL:
        write_files(tmp_path / "out", {"a": b"1"})
        write_new_file(tmp_path / "new", b"2")
        return
    with pytest.raises(InputError, match="input/output error"):
        write_files(tmp_path / "out", {"a": b"1"})
    with pytest.raises(InputError, match="input/output error"):
        write_new_file(tmp_path / "new", b"2")
    assert not (tmp_path / "new").exists()
