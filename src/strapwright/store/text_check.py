"""What a text says of itself when it is saved; one that cannot be read is kept all the same."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from attrs import frozen

from strapwright.errors import InputError
from strapwright.shop_files.known_keys import KNOWN, SHOP_KEYS, SHOP_TABLES
from strapwright.shop_files.opening import open_job, parse
from strapwright.shop_files.rates.reading_rates import RATE_LISTS, RATE_TABLES, read_rates
from strapwright.shop_files.reading_crib import read_crib
from strapwright.shop_files.reading_job import files_named, read_job
from strapwright.shop_files.reading_press import read_press
from strapwright.shop_files.reading_rack import read_rack
from strapwright.shop_files.reading_tooling import read_tooling
from strapwright.shop_files.text_limits import refuse_beyond_limits
from strapwright.store.store_values import Kind

LARGEST = 1_000_000  # bytes of one text; a job has a few thousand
_LOT_KEYS = ("format", "units", "lot")
# Files whose names in a text are remembered, and how long such a text may be [characters].
_REMEMBERED, _SHORT = 64, 20_000


@frozen(kw_only=True)
class Judged:
    """What a text says.

    Attributes
    ----------
    trouble
        Why it cannot be read, or ``None`` where it can.
    material, bar
        Of a sound job, as written there.
    quantity
        Of a sound job.
    """

    trouble: str | None = None
    material: str | None = None
    bar: str | None = None
    quantity: int | None = None


def judge(kind: Kind, text: str, beside: Mapping[str, str]) -> Judged:
    """Read a text as far as the store needs it.

    Parameters
    ----------
    kind
        What it should be.
    text
        As saved.
    beside
        Shop files that a job names -> their texts.

    Returns
    -------
    Judged
        Never an error: what is wrong is said in it.
    """
    try:
        if kind == "job":
            job = read_job(text, beside=beside)
            return Judged(
                material=job.part.material,
                bar=str(_tables(text)["part"]["bar"]),
                quantity=job.part.quantity,
            )
        _read_shop_item(kind, text)
    except InputError as error:
        return Judged(trouble=error.sentence)
    return Judged()


def shop_files(text: str) -> tuple[str, ...]:
    """Return the shop files a job names; none where it cannot be read that far."""
    return _shop_files(text) if len(text) > _SHORT else _remembered_files(text)


@lru_cache(maxsize=_REMEMBERED)
def _remembered_files(text: str) -> tuple[str, ...]:
    return _shop_files(text)


def _shop_files(text: str) -> tuple[str, ...]:
    try:
        if not any(isinstance(_tables(text).get(key), str) for key in SHOP_TABLES):
            return ()
        return files_named(text)
    except InputError:
        return ()  # judging says what is wrong with it


def kind_of(text: str) -> Kind:
    """Tell what a text is by its tables; what cannot be told is kept as a job."""
    try:
        tables = _tables(text)
    except InputError:
        return "job"
    shop: tuple[Kind, ...] = ("press", "tooling", "lot", "crib")
    if "part" in tables:
        return "job"
    if "stock" in tables:
        return "rack"
    if tables.keys() & (RATE_TABLES.keys() | RATE_LISTS.keys()):
        return "rates"
    return next((kind for kind in shop if kind in tables), "job")


def check_text(text: str, where: str = "text") -> bytes:
    """Return a text as bytes, as they are kept and exported.

    Parameters
    ----------
    text
        To be saved.
    where
        Field or file, for the message.

    Raises
    ------
    InputError
        If it is too large, or holds what no text file holds.
    """
    try:
        raw = text.encode()
    except UnicodeEncodeError as error:
        raise InputError(where, "it holds a broken character", "type it again") from error
    if len(raw) > LARGEST:
        raise InputError(
            where,
            f"it has {len(raw) / 1e6:.1f} MB, and at most {LARGEST / 1e6:.0f} MB is kept",
            "give a job or shop file, not another document",
        )
    if "\0" in text:
        raise InputError(where, "it is binary and not text", "give a text file")
    return raw


def _tables(text: str) -> dict[str, Any]:
    """Return the tables of a file, the quick way where the standard library reads it too."""
    refuse_beyond_limits(text, "text")
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError):
        return parse(text).unwrap()


def _read_shop_item(kind: Kind, text: str) -> None:
    if kind == "rack":
        read_rack(text, kind)
        return
    if kind == "crib":
        read_crib(text, kind)
        return
    if kind == "rates":
        read_rates(text, kind)
        return
    head = open_job(text)
    # A press and its tooling may share one file, as they do beside a job.
    head.refuse_unknown(_LOT_KEYS if kind == "lot" else SHOP_KEYS)
    table = head.child(kind)
    if table is None:
        raise head.refuse(
            kind,
            f"the table [{kind}] is missing",
            f"write [{kind}] and beneath it its keys: {', '.join(KNOWN[kind])}",
        )
    if kind == "press":
        read_press(table)
    elif kind == "tooling":
        read_tooling(table)
    else:
        table.refuse_unknown()  # its values are judged with the bar of a job
