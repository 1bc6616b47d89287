"""One table of a file being read: typed access that refuses with the key path and the line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TypeVar, cast

from attrs import frozen

from strapwright.errors import InputError, in_file
from strapwright.quantities import Units
from strapwright.shop_files.key_lines import line_of
from strapwright.shop_files.known_keys import KNOWN, home, nearest, one_of

Word = TypeVar("Word", bound=str | None)

LONGEST_NAME = 80  # characters; longer ones do not fit the head of a sheet


@frozen(kw_only=True)
class Table:
    """What one table of a file says, with where it stands.

    Attributes
    ----------
    data
        Keys and plain values.
    path
        Key path from the head of the file, e.g. ``part.hole[1]``; empty for the head itself.
    units
        Unit system of bare numbers, or ``None`` where the file states none.
    lines
        Key path -> 1-based line.
    file
        Name of a shop file, or empty for the job itself.
    """

    data: Mapping[str, object]
    path: str
    units: Units | None
    lines: Mapping[str, int]
    file: str = ""

    def at(self, key: str) -> str:
        """Return the key path of a key in this table."""
        return f"{self.path}.{key}" if self.path else key

    def where(self, path: str) -> str:
        """Return the key path as told to a person, with the file's name where it is not the job."""
        return f"{self.file}: {path}" if self.file else path

    def refuse(self, key: str, problem: str, remedy: str, *, value: object = None) -> InputError:
        """Return the error about a key of this table, or about the table where ``key`` is empty."""
        path = self.at(key) if key else self.path
        return InputError(
            self.where(path) if path else self.file or "job file",
            problem,
            remedy,
            value=None if value is None else shown(value),
            line=line_of(path, self.lines),
        )

    def placed(self, error: InputError, key: str) -> InputError:
        """Return an error of a reader that knows no lines, with the line of the key."""
        return InputError(
            error.where,
            *error.marked,
            value=error.value,
            line=line_of(self.at(key), self.lines),
        )

    def refuse_unknown(self, known: Iterable[str] | None = None) -> None:
        """Refuse keys this table does not know.

        Parameters
        ----------
        known
            The keys that do; from :data:`strapwright.shop_files.known_keys.KNOWN` where not given.

        Raises
        ------
        InputError
            With the nearest known key.
        """
        name = re.sub(r"\[\d+\]", "", self.path)
        known = tuple(KNOWN[name] if known is None else known)
        for key in self.data:
            if key in known:
                continue
            near = nearest(key, known)
            elsewhere = home(key, name)
            if elsewhere is not None:
                remedy = f"it belongs {f'in [{elsewhere}]' if elsewhere else 'at the head'}"
            elif near is not None:
                remedy = f'did you mean "{near}"?'
            else:
                remedy = f"known here: {', '.join(known)}"
            raise self.refuse(key, "unknown key", remedy)

    def child(self, key: str) -> Table | None:
        """Return the table under a key, or ``None`` where the key is missing."""
        value = self.data.get(key)
        if value is None:
            return None
        if not isinstance(value, dict):
            raise self.refuse(
                key,
                "this is a single value where a table is wanted",
                f"write {self._as_table(key)}",
                value=value,
            )
        return self._down(value, self.at(key))

    def children(self, key: str) -> tuple[Table, ...]:
        """Return the tables of an array under a key; empty where the key is missing."""
        value = self.data.get(key, [])
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            raise self.refuse(
                key,
                "this is not a list of tables",
                in_file(f"begin each one with a line [[{self.at(key)}]]"),
            )
        return tuple(
            self._down(one, f"{self.at(key)}[{number}]")
            for number, one in enumerate(value, start=1)
        )

    def need(self, key: str, remedy: str) -> object:
        """Return the value of a key that must be there."""
        if key not in self.data:
            raise self.refuse(key, "this is missing", remedy)
        return self.data[key]

    def line_text(self, key: str, remedy: str) -> str | None:
        """Return one line of plain text, trimmed, or ``None`` where the key is missing."""
        value = self.data.get(key)
        if value is None:
            return None
        if not isinstance(value, str):
            raise self.refuse(key, "this is not text", remedy, value=value)
        text = value.strip()
        if not text:
            raise self.refuse(key, "this is empty", remedy, value=value)
        if not text.isprintable() or len(text) > LONGEST_NAME:
            raise self.refuse(
                key,
                f"this is not one line of at most {LONGEST_NAME} printable characters",
                "shorten it to one line",
                value=value,
            )
        return text

    def choice(self, key: str, options: tuple[str, ...], default: Word) -> Word:
        """Return one of a few words, or ``default`` where the key is missing."""
        value = self.data.get(key)
        if value is None:
            return default
        if value not in options:
            near = nearest(value, options) if isinstance(value, str) else None
            hint = "" if near is None else f'; did you mean "{near}"?'
            raise self.refuse(
                key, "this word is not recognised", f"write {one_of(options)}{hint}", value=value
            )
        return cast("Word", value)

    def whole(self, key: str, low: int, high: int) -> int | None:
        """Return a whole number from ``low`` to ``high``, or ``None`` where the key is missing."""
        value = self.data.get(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise self.refuse(
                key,
                f"this is not a whole number from {low} to {high}",
                in_file(f"write for example {key} = {low}"),
                value=value,
            )
        return value

    def flag(self, key: str) -> bool | None:
        """Return ``true`` or ``false``, or ``None`` where the key is missing."""
        value = self.data.get(key)
        if value is not None and not isinstance(value, bool):
            raise self.refuse(
                key, "this is neither true nor false", in_file(f"write {key} = true"), value=value
            )
        return value

    def only_one(self, first: str, second: str) -> None:
        """Refuse two keys that say the same thing."""
        if first in self.data and second in self.data:
            raise self.refuse(
                second, f"both {first} and {second} are given", f"keep one of {first} and {second}"
            )

    def _down(self, data: dict[str, object], path: str) -> Table:
        return Table(data=data, path=path, units=self.units, lines=self.lines, file=self.file)

    def _as_table(self, key: str) -> str:
        keys = KNOWN.get(re.sub(r"\[\d+\]", "", self.at(key)), ())
        return f"[{self.at(key)}] and beneath it its keys: {', '.join(keys)}"


def shown(value: object) -> str:
    """Return a value as a person would have typed it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    return str(value)
