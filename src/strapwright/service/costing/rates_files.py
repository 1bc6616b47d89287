"""Load the shop's rates; the usual ones where no file is named."""

from __future__ import annotations

from pathlib import Path

from strapwright.service.file_access import read_text_file
from strapwright.shop.shop_rates import ShopRates
from strapwright.shop_files.rates.reading_rates import read_rates


def load_rates(path: Path | None) -> ShopRates:
    """Load the rates of a file.

    Parameters
    ----------
    path
        Where it lies; ``None`` takes the usual rates.

    Raises
    ------
    InputError
        If it cannot be read, or something in it cannot be used.
    """
    if path is None:
        return ShopRates()
    return read_rates(read_text_file(path, "rates file"), path.name)
