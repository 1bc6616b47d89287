"""The number at the head of what a person typed, exactly.

A number is a sign, then one of: a whole number, a decimal with a point, a fraction, a built-up
fraction sign, or a whole number and a fraction (``1-1/2``, ``1 1/2``, ``1½``).  Digits are ASCII
digits; nothing is guessed: what does not fit is refused with its place.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from attrs import frozen

from strapwright.errors import InputError

# One character for one character, so that positions in a message are positions in the text.
_PLAIN = str.maketrans(
    {
        "\N{MINUS SIGN}": "-",
        "\N{HYPHEN}": "-",
        "\N{NON-BREAKING HYPHEN}": "-",
        "\N{EN DASH}": "-",
        "\N{FRACTION SLASH}": "/",
        "\N{DIVISION SLASH}": "/",
        "\N{PRIME}": "'",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{DOUBLE PRIME}": '"',
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
        "\N{MASCULINE ORDINAL INDICATOR}": "°",
        "\N{NO-BREAK SPACE}": " ",
        "\N{NARROW NO-BREAK SPACE}": " ",
        "\N{THIN SPACE}": " ",
        "\t": " ",
    }
)


def _vulgar_fractions() -> dict[str, Fraction]:
    """Every Unicode character that is a whole fraction, with its value from its decomposition."""
    found = {}
    for code in (*range(0xBC, 0xBF), *range(0x2150, 0x215F), 0x2189):
        top, bottom = unicodedata.normalize("NFKC", chr(code)).split("\N{FRACTION SLASH}")
        found[chr(code)] = Fraction(int(top), int(bottom))
    return found


VULGAR = _vulgar_fractions()
_SIGNS = "".join(VULGAR)
_SIGN = re.compile(r" *(?P<sign>[+-]?) *")
_NUMBER = re.compile(
    rf"(?:(?P<whole>[0-9]+)(?: +|-))?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    rf"|(?:(?P<before>[0-9]+)(?: *|-))?(?P<vulgar>[{_SIGNS}])"
    r"|(?P<plain>[0-9]*\.[0-9]+|[0-9]+)"
)


@frozen(kw_only=True)
class Source:
    """A text as typed with its place, able to refuse itself.

    Attributes
    ----------
    where
        Key path, flag or field.
    typed
        As typed.
    text
        With look-alike characters made plain; same length as ``typed``.
    """

    where: str
    typed: str
    text: str

    def refuse(self, problem: str, remedy: str, at: int | None = None) -> InputError:
        """Return the error; ``at`` is the 0-based place, told to people counting from 1."""
        if at is not None:
            problem = f"{problem} at character {at + 1}"
        return InputError(self.where, problem, remedy, value=self.typed)


def source(typed: str, where: str) -> Source:
    """Return the text with look-alike characters made plain."""
    return Source(where=where, typed=typed, text=typed.translate(_PLAIN))


def starts_number(text: str, at: int) -> bool:
    """Whether an unsigned number starts there."""
    return _NUMBER.match(text, at) is not None


def scan_sign(text: str) -> tuple[int, int]:
    """Return the sign, -1 or 1, and the place after it and its spaces."""
    match = _SIGN.match(text)
    if match is None:  # the pattern also fits nothing
        return 1, 0
    return (-1 if match["sign"] == "-" else 1), match.end()


def scan_number(src: Source, at: int, example: str) -> tuple[Fraction, int]:
    """Read one unsigned number.

    Parameters
    ----------
    src
        What was typed.
    at
        0-based place of the number.
    example
        A sound value, for the remedy.

    Returns
    -------
    value, end
        Exact value, and the 0-based place after it.

    Raises
    ------
    InputError
        Where no number stands there, or its fraction is not one.
    """
    match = _NUMBER.match(src.text, at)
    if match is None:
        raise src.refuse("there is no number", f"write for example {example}", at)
    if match["plain"] is not None:
        return Fraction(match["plain"]), match.end()
    if match["vulgar"] is not None:
        return Fraction(match["before"] or 0) + VULGAR[match["vulgar"]], match.end()
    top, bottom = int(match["top"]), int(match["bottom"])
    if bottom == 0:
        raise src.refuse(
            "the fraction is divided by 0", "write a fraction like 3/8", match.start("bottom")
        )
    if match["whole"] is None:
        return Fraction(top, bottom), match.end()
    if top >= bottom:
        raise src.refuse(
            "the fraction after the whole number is 1 or more",
            "write it like 1-1/2, with a fraction below 1",
            match.start("top"),
        )
    return int(match["whole"]) + Fraction(top, bottom), match.end()
