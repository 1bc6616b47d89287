"""The cutters and drills of a crib file; without the tooling, which takes longer to load."""

from __future__ import annotations

from pathlib import Path

from strapwright.catalog.drills import Drill
from strapwright.making.crib_cutters import cutters_of, drills_of, usual_cutters
from strapwright.making.plate_values import Cutter
from strapwright.service.file_access import read_text_file
from strapwright.shop.crib import Crib
from strapwright.shop_files.reading_crib import read_crib


def load_crib(path: Path) -> Crib:
    """Return the tool crib of a file.

    Raises
    ------
    InputError
        If the file cannot be read.
    """
    return read_crib(read_text_file(path, "crib file"), path.name)


def load_cutters(crib: Path | None) -> tuple[Cutter, ...]:
    """Return the cutters of a crib file, or a usual set where none is named.

    Raises
    ------
    InputError
        If the file cannot be read, or nothing in it cuts.
    """
    return usual_cutters() if crib is None else cutters_of(load_crib(crib))


def load_drills(crib: Path | None) -> tuple[Drill, ...] | None:
    """Return the drills of a crib file, or ``None`` where none is named.

    Raises
    ------
    InputError
        If the file cannot be read.
    """
    return None if crib is None else drills_of(load_crib(crib))
