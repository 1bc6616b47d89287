"""The shop's rack, tool crib and rates: one of each in the store, with all its versions."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Literal

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.workshop import Workshop
from strapwright.shop.crib import Crib
from strapwright.shop.rack import Rack
from strapwright.shop.shop_rates import ShopRates
from strapwright.shop_files.rates.reading_rates import read_rates
from strapwright.shop_files.reading_crib import read_crib
from strapwright.shop_files.reading_rack import read_rack
from strapwright.store import Version

Shelf = Literal["rack", "crib", "rates"]
_NAMES = {"rack": "Rack", "crib": "Tool crib", "rates": "Rates"}


@frozen(kw_only=True)
class Kept:
    """A shelf as the store has it.

    Attributes
    ----------
    id, version
        Of its item; empty and 0 where nothing is kept yet.
    file
        Name to give it when it is taken away.
    text
        Its file; empty where nothing is kept yet.
    """

    id: str
    version: int
    file: str
    text: str


def kept(shop: Workshop, shelf: Shelf) -> Kept:
    """Return the rack or crib that was saved last."""
    for item in shop.store.recent(shelf, 1):
        text = shop.store.text_of(item.id)
        return Kept(id=item.id, version=item.current, file=item.file, text=text)
    return Kept(id="", version=0, file=f"{shelf}.toml", text="")


def keep(shop: Workshop, shelf: Shelf, text: str, base: int, note: str = "") -> Version | None:
    """Save a rack or crib, the next version of the one there is.

    Parameters
    ----------
    shop
        Where it is kept.
    shelf
        Which.
    text
        Its file; one that cannot be read yet is kept too.
    base
        Version that it was typed over, 0 for the first.
    note
        Why.

    Raises
    ------
    Conflict
        If it was saved elsewhere in the meantime.
    InputError
        If it cannot be kept.
    """
    there = kept(shop, shelf)
    if not there.id:
        shop.store.create(shelf, _NAMES[shelf], text, datetime.now(UTC), note)
        return None
    return shop.store.save(there.id, text, base, datetime.now(UTC), note)


def rack_of(shop: Workshop) -> Rack | None:
    """Return the rack, ``None`` where there is none that can be read."""
    there = kept(shop, "rack")
    try:
        return read_rack(there.text, "rack") if there.id else None
    except InputError:
        return None  # its own page says what is wrong with it


def crib_of(shop: Workshop) -> Crib | None:
    """Return the crib, ``None`` where none is kept.

    Raises
    ------
    InputError
        If the one there is cannot be read.
    """
    there = kept(shop, "crib")
    return read_crib(there.text, "crib") if there.id else None


def rates_of(shop: Workshop) -> ShopRates:
    """Return the rates, the usual ones where none are kept.

    Raises
    ------
    InputError
        If those there are cannot be read.
    """
    there = kept(shop, "rates")
    return read_rates(there.text, "rates") if there.id else ShopRates()


def currency_of(shop: Workshop) -> str:
    """Return the currency of the rates; empty where none are kept that can be read."""
    there = kept(shop, "rates")
    try:
        return read_rates(there.text, "rates").money.currency if there.id else ""
    except InputError:
        return ""  # its own page says what is wrong with it


def read_shelf(shelf: Shelf, text: str) -> Rack | Crib | ShopRates:
    """Read the file of a rack, a crib or the rates.

    Parameters
    ----------
    shelf
        Which.
    text
        Its file.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    if shelf == "rates":
        return read_rates(text, shelf)
    return read_rack(text, shelf) if shelf == "rack" else read_crib(text, shelf)
