"""Folders and zip archives of plain files; whatever reaches out of its place is refused."""

from __future__ import annotations

import io
import shutil
import struct
import tempfile
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path
from typing import IO

from strapwright.errors import InputError
from strapwright.store.export_index import INDEX
from strapwright.store.item_names import ENDING
from strapwright.store.text_check import LARGEST

MOST_FILES = 10_000
LARGEST_TOTAL = 200_000_000  # bytes unpacked
# A shop that exports twice gets the same bytes: an archive carries no time of day.
_NO_TIME = (1980, 1, 1, 0, 0, 0)


def pack(files: Mapping[str, bytes]) -> bytes:
    """Return files as a zip archive.

    Parameters
    ----------
    files
        Plain file name -> content.
    """
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            entry = zipfile.ZipInfo(name, _NO_TIME)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content)
    return packed.getvalue()


def unpack(raw: bytes) -> dict[str, bytes]:
    """Return the files of a zip archive; nothing is written anywhere.

    Parameters
    ----------
    raw
        The archive.

    Raises
    ------
    InputError
        If it is no archive, damaged, locked by a password, too large, or an entry is anything but
        the plain name of a TOML file or of the index.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as archive:
            entries = archive.infolist()
            if len(entries) > MOST_FILES:
                raise _refuse(f"it holds more than {MOST_FILES} files", "split it")
            files: dict[str, bytes] = {}
            total = 0
            for entry in entries:
                # orig_filename: the library itself cuts a name at a NUL.
                _check_plain(entry.orig_filename)
                if entry.orig_filename in files:
                    raise _refuse("it holds this name twice", "keep one", entry.orig_filename)
                with archive.open(entry) as stream:
                    files[entry.orig_filename] = _read_up_to_limit(stream, entry.orig_filename)
                total += len(files[entry.orig_filename])
                _check_total(total)
            return files
    except InputError:
        raise
    # A damaged head lets the library look for places before the beginning, or unpack what is short.
    except (zipfile.BadZipFile, zlib.error, EOFError, ValueError, OSError, struct.error) as error:
        raise _refuse("it is no zip archive, or a damaged one", "export it again") from error
    except (RuntimeError, NotImplementedError) as error:  # a password, or an unusual packing
        raise _refuse(
            "it is packed in a way not read here", "pack it as a plain zip without a password"
        ) from error


def read_plain_folder(folder: Path) -> dict[str, bytes]:
    """Return the TOML files and the index of a folder; other files are left alone.

    Parameters
    ----------
    folder
        Where they lie; folders in it are not entered.

    Raises
    ------
    InputError
        If it cannot be read, holds no TOML file, or one is too large.
    """
    try:
        paths = sorted(
            path
            for path in folder.iterdir()
            if path.is_file() and (path.suffix == ENDING or path.name == INDEX)
        )
        if not any(path.suffix == ENDING for path in paths):
            raise InputError(str(folder), "it holds no TOML file", "name a folder with job files")
        files: dict[str, bytes] = {}
        total = 0
        for path in paths:
            with path.open("rb") as stream:
                files[path.name] = _read_up_to_limit(stream, path.name)
            total += len(files[path.name])
            _check_total(total)
    except (OSError, ValueError) as error:
        raise InputError(
            str(folder), f"it cannot be read ({error})", "check the name and its permissions"
        ) from error
    return files


def write_new_folder(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write files into a folder that is new or empty: all of them or none.

    Parameters
    ----------
    folder
        Made where it is missing, with the folders above it.
    files
        Plain file name -> content.

    Raises
    ------
    InputError
        If there is something in it, or it cannot be written.
    """
    staging: Path | None = None
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise InputError(
                str(folder), "there is something here already", "name a new or an empty folder"
            )
        folder.absolute().parent.mkdir(parents=True, exist_ok=True)
        # Beside it, so that it takes its place as a whole by one rename.
        staging = Path(tempfile.mkdtemp(prefix=".writing-", dir=folder.absolute().parent))
        staging.chmod(0o755)
        for name, content in files.items():
            (staging / name).write_bytes(content)
        if folder.exists():
            folder.rmdir()
        staging.rename(folder)
    except (OSError, ValueError) as error:
        raise InputError(
            str(folder), f"it cannot be written ({error})", "name a folder that you may write to"
        ) from error
    finally:
        if staging is not None:
            shutil.rmtree(staging, ignore_errors=True)
    return tuple(folder / name for name in files)


def _check_plain(name: str) -> None:
    if name == INDEX:
        return
    if set(name) & set("/\\:\0") or not name.endswith(ENDING) or name.startswith("."):
        raise _refuse(
            "this is not the plain name of a TOML file",
            "pack the files themselves, without a folder around them or anything else",
            name,
        )


def _read_up_to_limit(stream: IO[bytes], name: str) -> bytes:
    # What the head of an archive says of a size may be a lie, so one byte too many is asked for.
    limit = LARGEST if name != INDEX else LARGEST_TOTAL
    content = stream.read(limit + 1)
    if len(content) > limit:
        raise _refuse(f"it has more than {limit / 1e6:.0f} MB", "leave it out", name)
    return content


def _check_total(total: int) -> None:
    if total > LARGEST_TOTAL:
        raise _refuse(f"it holds more than {LARGEST_TOTAL / 1e6:.0f} MB", "split it")


def _refuse(problem: str, remedy: str, name: str | None = None) -> InputError:
    return InputError("import", problem, remedy, value=name)
