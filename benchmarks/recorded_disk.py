"""Record what a program asks of the disk, and make the disk as a power cut would leave it.

A child process is run under ``ptrace``: every file it makes, writes, names, removes or has written
through is noted in order, and beside it what it said on a pipe.  :func:`left_by_a_cut` then makes
the files as they may be after a power cut at any moment of that: what was written through is there,
and of the rest any part in any order, down to single sectors of 512 bytes, names apart from
contents.  No file system in use loses more than that, and most lose far less.

Linux alone, on processors whose numbers of system calls are known here.
"""

from __future__ import annotations

import ctypes
import os
import platform
import random
import signal
import stat
import struct
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

SECTOR = 512  # bytes that a disk writes whole or not at all (common practice, no source)
# Numbers of the system calls, from the headers asm/unistd_64.h and asm-generic/unistd.h.
_CALLS = {
    "x86_64": {
        "write": 1, "open": 2, "pwrite": 18, "writev": 20, "sendfile": 40, "fsync": 74,
        "fdatasync": 75, "truncate": 76, "ftruncate": 77, "rename": 82, "mkdir": 83, "rmdir": 84,
        "link": 86, "unlink": 87, "openat": 257, "mkdirat": 258, "unlinkat": 263, "renameat": 264,
        "linkat": 265, "fallocate": 285, "pwritev": 296, "renameat2": 316, "copy_file_range": 326,
    },
    "aarch64": {
        "ftruncate": 46, "truncate": 45, "fallocate": 47, "mkdirat": 34, "unlinkat": 35,
        "linkat": 37, "renameat": 38, "openat": 56, "write": 64, "writev": 66, "pwrite": 68,
        "pwritev": 70, "sendfile": 71, "fsync": 82, "fdatasync": 83, "renameat2": 276,
        "copy_file_range": 285,
    },
}  # fmt: skip
_TRACE_ME, _SYSCALL, _SET_OPTIONS, _GET_INFO = 0, 24, 0x4200, 0x420E  # linux/ptrace.h
_OPTIONS = 0x1 | 0x100000  # mark stops at system calls; the child ends with us
_ENTRY, _EXIT = 1, 2
_INFO = struct.Struct("<B3xIQQ7Q")
_HERE = -100  # AT_FDCWD
_REMOVE_FOLDER = 0x200  # AT_REMOVEDIR


class CannotRecordError(Exception):
    """This machine lets no program watch its own child, or its processor is not known here."""


@dataclass
class Recorded:
    """What was asked of the disk below a folder, in order.

    Each event is a tuple: ``("write", file, offset, bytes)``, ``("size", file, bytes)``,
    ``("sync", file)``, ``("name", path, file)``, ``("rename", from, to, file)``,
    ``("unname", path)``, ``("folder", path)``, ``("sync names", path)`` and ``("said", bytes)``.
    A file is a number of its own.
    """

    begin: dict[Path, bytes]
    folders: set[Path]
    events: list[tuple] = field(default_factory=list)
    status: int = 0


def record(root: Path, work: Callable[[Callable[[str], None]], None]) -> Recorded:
    """Run work in a child process and record what it asks of the disk below a folder.

    Parameters
    ----------
    root
        The folder; what is in it before counts as written through.
    work
        Is given what to say its acknowledgements with.

    Raises
    ------
    CannotRecordError
        If this machine does not allow it.
    """
    calls = _CALLS.get(platform.machine())
    if sys.platform != "linux" or calls is None:
        raise CannotRecordError(f"not on {sys.platform} {platform.machine()}")
    libc = ctypes.CDLL(None, use_errno=True)
    libc.ptrace.argtypes = (ctypes.c_long, ctypes.c_long, ctypes.c_void_p, ctypes.c_void_p)
    libc.ptrace.restype = ctypes.c_long
    reading, saying = os.pipe()
    child = os.fork()
    if child == 0:
        code = 1
        try:
            if libc.ptrace(_TRACE_ME, 0, None, None) == 0:
                os.kill(os.getpid(), signal.SIGSTOP)
                work(lambda said: os.write(saying, f"{said}\n".encode()) and None)
                code = 0
        finally:
            os._exit(code)
    try:
        return _Watch(root.resolve(), child, saying, calls, libc).watched()
    finally:
        os.close(reading)
        os.close(saying)


class _Watch:
    """Follows a child from one system call to the next."""

    def __init__(
        self, root: Path, child: int, saying: int, calls: dict[str, int], libc: ctypes.CDLL
    ) -> None:
        self.root, self.child, self.saying, self.libc = root, child, saying, libc
        self.inside = Path(f"/proc/{child}")
        self.names = {number: name for name, number in calls.items()}
        found = sorted(path for path in root.rglob("*") if path.is_file())
        self.files = {path: number for number, path in enumerate(found)}
        self.count = len(found)
        self.out = Recorded(
            begin={path: path.read_bytes() for path in found},
            folders={root, *(path for path in root.rglob("*") if path.is_dir())},
        )
        self.ids: dict[tuple[int, int], int] = {_identity(path): self.files[path] for path in found}

    def watched(self) -> Recorded:
        """Follow it to its end."""
        _, status = os.waitpid(self.child, 0)
        if not os.WIFSTOPPED(status):
            raise CannotRecordError("a child cannot be watched here")
        self.libc.ptrace(_SET_OPTIONS, self.child, None, _OPTIONS)
        room = ctypes.create_string_buffer(_INFO.size)
        hand_on, entered = 0, None
        while True:
            self.libc.ptrace(_SYSCALL, self.child, None, hand_on)
            _, status = os.waitpid(self.child, 0)
            if not os.WIFSTOPPED(status):
                self.out.status = status
                return self.out
            hand_on = os.WSTOPSIG(status)
            if hand_on != signal.SIGTRAP | 0x80:
                continue
            hand_on = 0
            if self.libc.ptrace(_GET_INFO, self.child, _INFO.size, room) < 0:
                os.kill(self.child, signal.SIGKILL)
                os.waitpid(self.child, 0)
                raise CannotRecordError("this system does not tell what a child calls")
            what, _, _, _, first, *rest = _INFO.unpack(room.raw)
            if what == _ENTRY:
                name = self.names.get(first)
                entered = None if name is None else (name, rest, self._paths(name, rest))
            elif what == _EXIT and entered is not None:
                given = ctypes.c_int64(first).value
                if given >= 0:
                    self._note(*entered, given)
                entered = None

    def _paths(self, name: str, words: list[int]) -> tuple[Path, ...]:
        """Return the paths that a call names, before it is carried out."""
        at = {
            "open": (None, 0), "openat": (0, 1), "mkdir": (None, 0), "mkdirat": (0, 1),
            "rmdir": (None, 0), "unlink": (None, 0), "unlinkat": (0, 1), "truncate": (None, 0),
            "rename": (None, 0, None, 1), "renameat": (0, 1, 2, 3), "renameat2": (0, 1, 2, 3),
            "link": (None, 0, None, 1), "linkat": (0, 1, 2, 3),
        }.get(name, ())  # fmt: skip
        found = []
        for folder, path in zip(at[::2], at[1::2], strict=True):
            said = Path(os.fsdecode(self._text(words[path], 4096).partition(b"\0")[0]))
            begin = _HERE if folder is None else ctypes.c_int32(words[folder] & 0xFFFFFFFF).value
            link = "cwd" if begin == _HERE else f"fd/{begin}"
            base = (self.inside / link).readlink()
            found.append(Path(os.path.normpath(base / said)))
        return tuple(found)

    def _text(self, address: int, length: int) -> bytes:
        with (self.inside / "mem").open("rb", buffering=0) as memory:
            memory.seek(address)
            return memory.read(length)

    def _note(self, name: str, words: list[int], paths: tuple[Path, ...], given: int) -> None:
        events = self.out.events
        if name in ("open", "openat"):
            self._opened(paths[0], given)
        elif name in ("write", "writev", "sendfile", "copy_file_range", "pwrite", "pwritev"):
            place = words[2] if name == "copy_file_range" else words[0]
            if place == self.saying:
                events.append(("said", self._text(words[1], given)))
            else:
                self._wrote(place, given, words[3] if name in ("pwrite", "pwritev") else None)
        elif name in ("fsync", "fdatasync"):
            path = (self.inside / f"fd/{words[0]}").readlink()
            number = self._file(words[0])
            if number is not None:
                events.append(("sync", number))
            elif path == self.root or self.root in path.parents:
                events.append(("sync names", path))
        elif name in ("ftruncate", "fallocate"):
            number = self._file(words[0])
            if number is not None:
                size = (self.inside / f"fd/{words[0]}").stat().st_size
                events.append(("size", number, size))
        elif any(self.root in path.parents for path in paths):
            self._renamed(name, words, paths)

    def _opened(self, path: Path, place: int) -> None:
        if self.root not in path.parents:
            return
        here = self.inside / f"fd/{place}"
        if not stat.S_ISREG(here.stat().st_mode) or here.stat().st_nlink == 0:
            return  # a folder, or a file without a name (O_TMPFILE)
        if path not in self.files:
            self._named(path, self.count)
            self.ids[_identity(here)] = self.count
            self.count += 1
        elif here.stat().st_size == 0:
            self.out.events.append(("size", self.files[path], 0))  # perhaps emptied by it

    def _named(self, path: Path, number: int) -> None:
        self.files[path] = number
        self.out.events.append(("name", path, number))

    def _file(self, place: int) -> int | None:
        here = self.inside / f"fd/{place}"
        found = here.stat()
        return self.ids.get((found.st_dev, found.st_ino)) if stat.S_ISREG(found.st_mode) else None

    def _wrote(self, place: int, count: int, offset: int | None) -> None:
        number = self._file(place)
        if number is None:
            return
        if offset is None:
            told = (self.inside / f"fdinfo/{place}").read_text()
            offset = int(told.partition("pos:")[2].split()[0]) - count
        with (self.inside / f"fd/{place}").open("rb", buffering=0) as written:
            raw = os.pread(written.fileno(), count, offset)
        self.out.events.append(("write", number, offset, raw))

    def _renamed(self, name: str, words: list[int], paths: tuple[Path, ...]) -> None:
        events = self.out.events
        if name in ("mkdir", "mkdirat"):
            events.append(("folder", paths[0]))
        elif name == "rmdir" or (name == "unlinkat" and words[2] & _REMOVE_FOLDER):
            events.append(("unname", paths[0]))
        elif name in ("unlink", "unlinkat"):
            self.files.pop(paths[0], None)
            events.append(("unname", paths[0]))
        elif name in ("link", "linkat"):
            self._named(paths[1], self.files[paths[0]])
        elif name.startswith("rename"):
            number = self.files.pop(paths[0])
            self.files[paths[1]] = number
            events.append(("rename", *paths, number))


def _identity(path: Path) -> tuple[int, int]:
    found = path.stat()
    return found.st_dev, found.st_ino


def said_before(recorded: Recorded, moment: int) -> list[str]:
    """Return what had been acknowledged before a moment, line by line."""
    said = b"".join(one[1] for one in recorded.events[:moment] if one[0] == "said")
    return said.decode().splitlines()


def left_by_a_cut(recorded: Recorded, root: Path, moment: int, chance: random.Random) -> None:
    """Make the files as a power cut may leave them.

    Parameters
    ----------
    recorded
        What was asked of the disk.
    root
        An empty folder, in the place of the one that was recorded.
    moment
        How many events there were before the cut.
    chance
        Which of what was not written through is there.
    """
    before = recorded.events[:moment]
    was = next(iter(sorted(recorded.folders, key=lambda one: len(one.parts))))
    names = _names_left(recorded, before, chance)
    contents = _contents_left(recorded, before, chance)
    for folder in sorted(names.folders):
        (root / folder.relative_to(was)).mkdir(exist_ok=True)
    for path, number in names.files.items():
        # The index of the log beside a database is made anew by whoever opens it first.
        if path.parent in names.folders and not path.name.endswith("-shm"):
            (root / path.relative_to(was)).write_bytes(contents.get(number, b""))


@dataclass
class _Names:
    folders: set[Path]
    files: dict[Path, int]


def _names_left(recorded: Recorded, before: list[tuple], chance: random.Random) -> _Names:
    kept = _chosen([one for one in before if one[0] in _NAMING], chance)
    synced: set[Path] = set()
    certain = []  # from the last to the first: what a later writing through of its folder holds
    for one in reversed(before):
        if one[0] == "sync names":
            synced.add(one[1])
        elif one[0] in _NAMING:
            places = one[1:3] if one[0] == "rename" else one[1:2]
            if any(path.parent in synced for path in places) or id(one) in kept:
                certain.append(one)
    names = _Names(
        set(recorded.folders), {path: number for number, path in enumerate(sorted(recorded.begin))}
    )
    for one in reversed(certain):
        if one[0] == "folder":
            names.folders.add(one[1])
        elif one[0] == "name":
            names.files[one[1]] = one[2]
        elif one[0] == "unname":
            names.files.pop(one[1], None)
            names.folders.discard(one[1])
        else:
            if names.files.get(one[1]) == one[3]:
                del names.files[one[1]]
            names.files[one[2]] = one[3]
    # A folder that is gone takes what is in it along.
    names.folders = {one for one in names.folders if _stands(one, names.folders, recorded.folders)}
    return names


_NAMING = ("folder", "name", "unname", "rename")


def _stands(folder: Path, there: set[Path], begin: set[Path]) -> bool:
    return folder in begin or (folder in there and _stands(folder.parent, there, begin))


def _chosen(events: list[tuple], chance: random.Random) -> set[int]:
    """Choose what was kept of what nobody waited for: nothing, all, what came first, or any."""
    how = chance.randrange(4)
    if how == 0:
        return set()
    if how == 1:
        return {id(one) for one in events}
    if how == 2:
        return {id(one) for one in events[: chance.randrange(len(events) + 1)]}
    return {id(one) for one in events if chance.random() < 0.5}


def _contents_left(
    recorded: Recorded, before: list[tuple], chance: random.Random
) -> dict[int, bytes]:
    waited = {one[1]: at for at, one in enumerate(before) if one[0] == "sync"}
    loose = [
        one
        for at, one in enumerate(before)
        if one[0] in ("write", "size") and at > waited.get(one[1], -1)
    ]
    kept = _chosen(loose, chance)
    torn = chance.random() < 0.5
    found = {
        number: bytearray(recorded.begin[path])
        for number, path in enumerate(sorted(recorded.begin))
    }
    for at, one in enumerate(before):
        if one[0] not in ("write", "size"):
            continue
        content = found.setdefault(one[1], bytearray())
        certain = at <= waited.get(one[1], -1)
        if one[0] == "size":
            if certain or id(one) in kept:
                del content[one[2] :]
                content.extend(bytes(one[2] - len(content)))
        elif certain or (id(one) in kept and not torn):
            _put(content, one[2], one[3])
        elif id(one) in kept:
            for begin in range(0, len(one[3]), SECTOR):
                if chance.random() < 0.7:
                    _put(content, one[2] + begin, one[3][begin : begin + SECTOR])
    return {number: bytes(content) for number, content in found.items()}


def _put(content: bytearray, offset: int, raw: bytes) -> None:
    content.extend(bytes(max(offset + len(raw) - len(content), 0)))
    content[offset : offset + len(raw)] = raw
