"""Start a job file, or the file of the rates."""

from __future__ import annotations

from pathlib import Path

from strapwright.quantities import Units
from strapwright.service.file_access import write_new_file
from strapwright.shop_files.rates.reading_rates import rates_text
from strapwright.shop_files.template import new_job_text


def write_new_job(path: Path, units: Units, *, rates: bool = False) -> None:
    """Write a commented job file where there is none yet.

    Parameters
    ----------
    path
        Where it goes.
    units
        Its unit system.
    rates
        Whether it is the file of the rates of the shop.

    Raises
    ------
    InputError
        If something of that name is there, or it cannot be written.
    """
    text = rates_text(units) if rates else new_job_text(units)
    write_new_file(path, text.encode())
