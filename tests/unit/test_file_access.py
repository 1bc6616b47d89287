"""Files in and out: whole or not at all, and one sentence where it cannot be."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.service.file_access import LARGEST, read_text_file, write_files, write_new_file


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


def test_a_new_file_never_overwrites(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    write_new_file(path, b"first")
    with pytest.raises(InputError, match="nothing was written"):
        write_new_file(path, b"second")
    assert path.read_bytes() == b"first"
    with pytest.raises(InputError, match="it cannot be written"):
        write_new_file(tmp_path / "none" / "job.toml", b"x")
