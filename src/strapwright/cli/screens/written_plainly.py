"""What is said reaches a screen of any letters: what it lacks is written with those it has."""

from __future__ import annotations

import codecs
import io
import sys
from collections.abc import Sequence

_TEXT = "strapwright-plain"
_JSON = "strapwright-json"
_PLAIN = {
    "°": " deg", "±": "+/-", "\N{MULTIPLICATION SIGN}": " x ", "³": "^3", "²": "^2", "µ": "u",
    "\N{EN DASH}": "-", "≤": "<=", "≥": ">=", "…": "...", "½": " 1/2", "¼": " 1/4", "¾": " 3/4",
}  # fmt: skip
_BYTE = range(0xDC80, 0xDD00)  # a byte of a file's name that is no letter (PEP 383)


def write_plainly(words: Sequence[str]) -> None:
    """Let no letter be in the way of an answer, from here on.

    JSON is UTF-8 whatever the screen's letters are (RFC 8259, section 8.1).

    Parameters
    ----------
    words
        Of the command line.
    """
    codecs.register_error(_TEXT, _as_text)
    codecs.register_error(_JSON, _as_json)
    if isinstance(sys.stderr, io.TextIOWrapper):
        sys.stderr.reconfigure(errors=_TEXT)
    if isinstance(sys.stdout, io.TextIOWrapper):
        if "--json" in words:
            sys.stdout.reconfigure(encoding="utf-8", errors=_JSON)
        else:
            sys.stdout.reconfigure(errors=_TEXT)


def _as_text(error: UnicodeError) -> tuple[str | bytes, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    letter = error.object[error.start]
    if ord(letter) in _BYTE:
        return bytes([ord(letter) - 0xDC00]), error.start + 1
    return _PLAIN.get(letter, "?"), error.start + 1


def _as_json(error: UnicodeError) -> tuple[str | bytes, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return f"\\u{ord(error.object[error.start]):04x}", error.start + 1  # RFC 8259, section 7
