"""Load a job from its file and the shop files beside it."""

from __future__ import annotations

from pathlib import Path

from strapwright.service.file_access import read_text_file
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import files_named, read_job


def load_job(path: Path) -> Job:
    """Load a job file.

    Parameters
    ----------
    path
        Where it lies; shop files it names lie beside it.

    Returns
    -------
    Job
        Complete.

    Raises
    ------
    InputError
        If a file cannot be read, or something in it cannot be used.
    """
    text = read_text_file(path, "job file")
    named = {name: path.parent / name for name in files_named(text)}
    # One that is not there is refused by the reader, which knows the line that names it.
    beside = {
        name: read_text_file(place, "shop file") for name, place in named.items() if place.exists()
    }
    return read_job(text, beside=beside)
