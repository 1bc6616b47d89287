"""Names of items and of their files."""

from __future__ import annotations

import unicodedata
from collections.abc import Container
from itertools import count

from strapwright.errors import InputError

LONGEST_NAME = 80  # characters, as for the name of a part
_LONGEST_STEM = 50  # characters; four bytes each still leave room in what a disk takes, 255 bytes
ENDING = ".toml"
# Names that Windows keeps for devices, whatever follows the point.
_DEVICES = {"con", "prn", "aux", "nul", "conin$", "conout$"} | {
    f"{port}{number}" for port in ("com", "lpt") for number in "0123456789\u00b9\u00b2\u00b3"
}


def read_name(name: str, where: str = "name") -> str:
    """Read the name of an item.

    Parameters
    ----------
    name
        As typed.
    where
        Field, for the message.

    Returns
    -------
    str
        Trimmed.

    Raises
    ------
    InputError
        If it is empty, too long or not one printable line.
    """
    trimmed = name.strip()
    if not trimmed:
        raise InputError(where, "this is empty", "give it a name")
    if not trimmed.isprintable() or len(trimmed) > LONGEST_NAME:
        raise InputError(
            where,
            f"this is not one line of at most {LONGEST_NAME} printable characters",
            "shorten it to one line",
            value=name,
        )
    return trimmed


def file_name(name: str, taken: Container[str] = ()) -> str:
    """Return a plain file name for an item, one that a job may name its press or tooling by.

    Parameters
    ----------
    name
        Of the item, or of a file, with or without ``.toml``.
    taken
        Keys of names that are in use, see :func:`file_key`.

    Returns
    -------
    str
        Letters, figures, spaces, ``-``, ``_`` and points only; no folder, no device.
    """
    composed = unicodedata.normalize("NFC", name).removesuffix(ENDING)
    kept = "".join(one if one.isalnum() or one in "-_ ." else "-" for one in composed)
    stem = kept[:_LONGEST_STEM].strip(" .-")
    if not any(one.isalnum() for one in stem) or stem.partition(".")[0].lower() in _DEVICES:
        stem = f"item {stem}".strip(" .-")
    for number in count(1):
        found = f"{stem}{ENDING}" if number == 1 else f"{stem} {number}{ENDING}"
        if file_key(found) not in taken:
            break
    return found


def file_key(file: str) -> str:
    """Return what two file names share that one disk or another takes for the same."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", file).casefold())


def fold(text: str) -> str:
    """Return text as a search compares it."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())


def place(name: str) -> tuple[str, str]:
    """Return what a list by name is sorted by, letters with marks beside those without."""
    folded = fold(name)
    bare = "".join(
        one for one in unicodedata.normalize("NFKD", folded) if not unicodedata.combining(one)
    )
    return bare, folded
