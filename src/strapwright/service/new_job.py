"""Start a job file."""

from __future__ import annotations

from pathlib import Path

from strapwright.quantities import Units
from strapwright.service.file_access import write_new_file
from strapwright.shop_files.template import new_job_text


def write_new_job(path: Path, units: Units) -> None:
    """Write a commented job file where there is none yet.

    Parameters
    ----------
    path
        Where it goes.
    units
        Its unit system.

    Raises
    ------
    InputError
        If something of that name is there, or it cannot be written.
    """
    write_new_file(path, new_job_text(units).encode())
