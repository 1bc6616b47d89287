"""What every kind of case shares: reading a file, the result of a case, the verdicts."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import Any

import numpy as np
from attrs import field, frozen
from numpy.typing import NDArray

from strapwright.errors import InputError
from strapwright.service.compiler_cache import prepare_cache

# Before anything is compiled: the compiler's own cache does not see a change in a called file.
prepare_cache()

Floats = NDArray[np.float64]


class Verdict(StrEnum):
    """How a case came out."""

    WITHIN = "within"  # the file's own tolerance
    FLAGGED = "flagged"  # outside it, inside our stated band, and a finding says why
    FAIL = "fail"


@frozen(kw_only=True)
class CaseResult:
    """One case, run.

    Attributes
    ----------
    file
        Relative to the folder of cases.
    kind, name
        As the file says.
    verdict
        See :class:`Verdict`.
    line
        The figures as a person reads them.
    figures
        The figures by name, units in the names.
    why
        For ``flagged`` the findings, for ``fail`` what went wrong.
    """

    file: str
    kind: str
    name: str
    verdict: Verdict
    line: str = ""
    figures: dict[str, Any] = field(factory=dict)
    why: tuple[str, ...] = ()


def failed(file: str, kind: str, why: str, name: str = "") -> CaseResult:
    """Return a case that could not be judged, which is a failure."""
    return CaseResult(
        file=file, kind=kind, name=name or Path(file).stem, verdict=Verdict.FAIL, why=(why,)
    )


def read_case(path: Path) -> dict[str, Any]:
    """Read one case file.

    Raises
    ------
    InputError
        Where it is not a file of JSON with one object in it.
    """
    try:
        case = json.loads(path.read_text(encoding="utf-8"), parse_constant=_no_constant)
    except OSError as error:
        raise InputError(
            "file", f"it cannot be read ({error.strerror})", "check its name and rights"
        ) from error
    except (ValueError, RecursionError) as error:
        raise InputError("file", f"it is not sound JSON ({error})", "mend or remove it") from error
    if not isinstance(case, dict):
        raise InputError("file", "it holds no object", "put the case between { and }")
    return case


def _no_constant(text: str) -> float:
    raise ValueError(f"{text} is no number")


class Reader:
    """Takes typed values out of a case and says by key path what is missing or wrong."""

    def __init__(self, values: Any, where: str = "") -> None:
        self._values = values
        self._where = where

    def _path(self, key: str) -> str:
        return f"{self._where}.{key}" if self._where else key

    def has(self, key: str) -> bool:
        """Whether the key is there."""
        return isinstance(self._values, dict) and key in self._values

    def _take(self, key: str) -> Any:
        if not self.has(key):
            raise InputError(self._path(key), "the key is missing", "add it to the case file")
        return self._values[key]

    def part(self, key: str) -> Reader:
        """Return the object under a key."""
        value = self._take(key)
        if not isinstance(value, dict):
            raise InputError(
                self._path(key),
                "is not an object",
                "put its keys between { and }",
                value=str(value),
            )
        return Reader(value, self._path(key))

    def number(self, key: str, *, above: float = -math.inf) -> float:
        """Return a finite number, more than ``above``."""
        number = self._number(self._take(key), self._path(key))
        if not number > above:
            raise InputError(
                self._path(key), f"must be more than {above:g}", "mend it", value=f"{number:g}"
            )
        return number

    def numbers(self, key: str) -> Floats:
        """Return an array of finite numbers, one at least."""
        values = self._take(key)
        if not isinstance(values, list) or not values:
            raise InputError(
                self._path(key), "is not a list of numbers", "give a list", value=str(values)
            )
        path = self._path(key)
        return np.array([self._number(v, f"{path}[{i}]") for i, v in enumerate(values)])

    def choice(self, key: str, known: Sequence[str]) -> str:
        """Return a word out of those known."""
        value = self._take(key)
        if value not in known:
            raise InputError(
                self._path(key), "is not known", f"use one of {', '.join(known)}", value=str(value)
            )
        return str(value)

    def text(self, key: str) -> str:
        """Return a text."""
        value = self._take(key)
        if not isinstance(value, str):
            raise InputError(self._path(key), "is not a text", "put it in quotes", value=str(value))
        return value

    @staticmethod
    def _number(value: Any, where: str) -> float:
        sound = isinstance(value, int | float) and not isinstance(value, bool)
        try:
            number = float(value) if sound else math.nan
        except OverflowError:
            number = math.inf
        if not math.isfinite(number):
            raise InputError(where, "is not a number", "give a finite number", value=str(value))
        return number
