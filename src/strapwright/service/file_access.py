"""Files in and out: one sentence for what cannot be read, whole files or none for what is written.

A person who points at the wrong file gets told so before anything is made; a disk that runs full
half way leaves the folder as it was, up to whole files.  What was written is on the disk before
anybody is told so: a power cut leaves each file as it was or as it is to be, never empty.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from strapwright.errors import InputError

LARGEST = 1_000_000  # bytes; a job file is a few kilobytes, so more than this is the wrong file
# What some shared disks answer that cannot be told to write through; they write when they like.
_NO_SYNC = (errno.EINVAL, errno.ENOTSUP, errno.ENOSYS)


def read_text_file(path: Path, what: str) -> str:
    """Read a text file that a person named.

    Parameters
    ----------
    path
        Where it lies.
    what
        What it should be, e.g. ``job file``.

    Returns
    -------
    str
        Its text, without a byte-order mark.

    Raises
    ------
    InputError
        If it is missing, a folder, not a plain file, unreadable, empty, over 1 MB, binary or not
        UTF-8.
    """
    where = str(path)
    name_it = f"name a {what}"
    try:
        if path.is_dir():
            raise InputError(where, "it is a folder", name_it)
        if not path.exists():
            raise InputError(where, f"there is no such {what}", "check the name and the folder")
        if not path.is_file():
            raise InputError(where, "it is not a plain file", name_it)
        size = path.stat().st_size
        if size > LARGEST:
            raise InputError(
                where,
                f"it has {size / 1e6:.1f} MB, and a {what} has less than {LARGEST / 1e6:.0f} MB",
                name_it,
            )
        # What the system itself writes while it is read says 0, and may keep its reader waiting.
        raw = path.read_bytes() if size else b""
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        raise InputError(
            where, f"it cannot be read ({reason_of(error)})", "check the name and its permissions"
        ) from error
    if b"\0" in raw:
        raise InputError(where, f"it is binary and not a {what}", name_it)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise InputError(
            where, "it is not UTF-8 text", f"save the {what} as UTF-8", line=line
        ) from error
    if not text.strip():
        raise InputError(where, "it is empty", f"name a {what} with something in it")
    return text


def check_folder(folder: Path) -> None:
    """Refuse an output folder that cannot be written, before any work is done for it.

    It is tried, for the rights that a place shows do not tell of one that takes no new file.

    Parameters
    ----------
    folder
        Where files are to go; it may be missing.

    Raises
    ------
    InputError
        If it, or the nearest thing above it that is there, is no folder or takes no new folder.
    """
    try:
        with suppress(FileNotFoundError, NotADirectoryError):
            folder.stat()  # a name too long, and links in a circle, are told here
        there = next(place for place in (folder, *folder.absolute().parents) if place.exists())
        if not there.is_dir():
            raise _unwritable(folder, f"{there} is not a folder")
        if not os.access(there, os.W_OK | os.X_OK):
            raise _unwritable(folder, f"no permission to write into {there}")
        tempfile.TemporaryDirectory(prefix=".writing-", dir=there).cleanup()
    except (OSError, ValueError) as error:
        raise _unwritable(folder, reason_of(error)) from error


def write_files(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write files into a folder: all of them are whole before the first takes its place.

    Parameters
    ----------
    folder
        Made where it is missing, with the folders above it.
    files
        Content by plain file name; a file of that name is replaced, and what may be done with it
        stays.  A link stays too: the file that it leads to is replaced.

    Returns
    -------
    tuple of Path
        What was written, in the order given.

    Raises
    ------
    InputError
        If the folder cannot be made or written.
    """
    staging: dict[Path, Path] = {}
    moves: list[tuple[Path, Path]] = []
    try:
        make_folder(folder)
        for name, content in files.items():
            goal = _end_of_links(folder / name)
            if goal.parent not in staging:
                # Inside its folder, so that each move is a rename on one and the same file system.
                made = tempfile.mkdtemp(prefix=".writing-", dir=goal.parent)
                staging[goal.parent] = Path(made)
            whole = staging[goal.parent] / name
            _write_through(whole, content)
            _permit_as(whole, goal)
            moves.append((whole, goal))
        for whole, goal in moves:
            whole.replace(goal)
        for parent in staging:
            sync_folder(parent)
    except (OSError, ValueError) as error:
        raise _unwritable(folder, reason_of(error)) from error
    finally:
        for one in staging.values():
            shutil.rmtree(one, ignore_errors=True)
    return tuple(folder / name for name in files)


def write_new_file(path: Path, content: bytes) -> None:
    """Write one file that must not be there yet.

    Parameters
    ----------
    path
        Where it goes; its folder must exist.
    content
        What it holds.

    Raises
    ------
    InputError
        If there is something of that name, or it cannot be written.
    """
    staging: Path | None = None
    try:
        # Beside it, so that a second name for the whole file is all that is left to do.
        staging = Path(tempfile.mkdtemp(prefix=".writing-", dir=path.parent))
        whole = staging / "new"
        _write_through(whole, content)
        _take_free_name(whole, path)
        sync_folder(path.parent)
    except FileExistsError as error:
        raise InputError(
            str(path), "there is something of that name", "give another name, nothing was written"
        ) from error
    except (OSError, ValueError) as error:
        raise InputError(
            str(path),
            f"it cannot be written ({reason_of(error)})",
            "name a file in a folder that you may write to",
        ) from error
    finally:
        if staging is not None:
            shutil.rmtree(staging, ignore_errors=True)


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it, so that they are there after a power cut too.

    Parameters
    ----------
    folder
        It may be there already.

    Raises
    ------
    OSError
        If it cannot be made.
    """
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    for one in missing:
        sync_folder(one.parent)


def sync_folder(folder: Path) -> None:
    """Have the names in a folder on the disk before going on.

    Raises
    ------
    OSError
        If the disk does not take them.
    """
    if os.name != "posix":  # elsewhere a folder cannot be opened
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _NO_SYNC:
            raise
    finally:
        os.close(handle)


def _end_of_links(path: Path) -> Path:
    """Follow links to the file that they lead to, which need not be there; a circle is refused."""
    with suppress(FileNotFoundError):
        path.stat()
    return Path(os.path.realpath(path))


def _permit_as(whole: Path, goal: Path) -> None:
    """Let a file be read and written by those who may read and write the one that it replaces."""
    try:
        old = goal.stat()
    except FileNotFoundError:
        return
    if os.name == "posix":
        new = whole.stat()
        if (new.st_uid, new.st_gid) != (old.st_uid, old.st_gid):
            with suppress(PermissionError):  # only an administrator gives a file away
                os.chown(whole, old.st_uid, old.st_gid)
        whole.chmod(stat.S_IMODE(old.st_mode))


def _write_through(path: Path, content: bytes) -> None:
    with path.open("xb") as stream:
        stream.write(content)
        stream.flush()
        try:
            os.fsync(stream.fileno())
        except OSError as error:
            if error.errno not in _NO_SYNC:
                raise


def _take_free_name(whole: Path, path: Path) -> None:
    """Give a file a name that nothing has; two who do so at once cannot both succeed."""
    try:
        os.link(whole, path)
    except FileExistsError:
        raise
    except OSError:  # this disk has no second names for a file: take the name, then fill it
        path.touch(exist_ok=False)
        try:
            whole.replace(path)
        except OSError:
            path.unlink()  # ours, and nothing in it
            raise


def _unwritable(folder: Path, why: str) -> InputError:
    return InputError(
        str(folder),
        f"the output folder cannot be written ({why})",
        "name a folder that you may write to",
    )


def reason_of(error: Exception) -> str:
    """Say why in the system's own words, without the path that stands before it anyway."""
    words = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return words[:1].lower() + words[1:]
