"""On which line of a file a key stands."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping

_PART = r"""(?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*')"""
_PATH = rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*"
_HEADER = re.compile(rf"\ufeff?[ \t]*(?P<open>\[\[?)[ \t]*(?P<path>{_PATH})[ \t]*\]")
_KEY = re.compile(rf"\ufeff?[ \t]*(?P<path>{_PATH})[ \t]*=")


def index_lines(text: str) -> dict[str, int]:
    """Return key path -> 1-based line, for keys that begin a line.

    A table in an array carries its number: ``part.hole[2].leg``.  The text is scanned, not parsed:
    the parser keeps no places.  A line inside a string of several lines may be taken for a key;
    the first place found for a path stands.

    Parameters
    ----------
    text
        A file that parses as TOML.
    """
    lines: dict[str, int] = {}
    counts: Counter[str] = Counter()
    table = ""
    for number, line in enumerate(text.split("\n"), start=1):
        if header := _HEADER.match(line):
            table = _plain(header["path"])
            if header["open"] == "[[":
                counts[table] += 1
                lines.setdefault(table, number)
                table = f"{table}[{counts[table]}]"
            lines.setdefault(table, number)
        elif key := _KEY.match(line):
            path = _plain(key["path"])
            lines.setdefault(f"{table}.{path}" if table else path, number)
    return lines


def line_of(path: str, lines: Mapping[str, int]) -> int | None:
    """Return the line of a key path, or of the nearest thing around it, or ``None``.

    Parameters
    ----------
    path
        E.g. ``part.shape[2]`` or ``tooling.nose.web.height``.
    lines
        From :func:`index_lines`.
    """
    while path:
        if path in lines:
            return lines[path]
        path = path[: path.rindex("[")] if path.endswith("]") else path.rpartition(".")[0]
    return None


def _plain(path: str) -> str:
    return ".".join(part.strip(" \t\"'") for part in re.findall(_PART, path))
