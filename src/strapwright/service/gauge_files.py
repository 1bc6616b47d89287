"""Paper angle gauges for angles that a person names."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from strapwright.errors import InputError
from strapwright.quantities import read_angle
from strapwright.service.file_access import check_folder, write_files

SMALLEST, LARGEST = 1.0, 175.0  # deg; past these a vee on paper shows nothing
MOST = 100  # angles on one call


def read_angles(typed: Sequence[str]) -> tuple[float, ...]:
    """Read bend angles.

    Parameters
    ----------
    typed
        As typed; a number without a unit is degrees.

    Returns
    -------
    tuple of float
        In the order typed, each once [deg].

    Raises
    ------
    InputError
        If one is not an angle from 1 to 175 deg, or there are more than 100.
    """
    if len(typed) > MOST:
        raise InputError("angles", f"these are {len(typed)} angles", f"name at most {MOST}")
    found = []
    for number, text in enumerate(typed, 1):
        where = f"angle {number}"
        degrees = float(read_angle(text, where))
        if not SMALLEST <= degrees <= LARGEST:
            raise InputError(
                where,
                "no gauge can be cut for this bend angle",
                f"give how far the bend turns the bar, from {SMALLEST:g} to {LARGEST:g} degrees",
                value=text,
            )
        found.append(degrees)
    return tuple(dict.fromkeys(found))


def write_gauges(degrees: Sequence[float], path: Path, paper: Literal["letter", "a4"]) -> None:
    """Write gauges as PDF.

    Parameters
    ----------
    degrees
        See :func:`read_angles` [deg].
    path
        Of the file; its folder is made where it is missing.
    paper
        ``letter`` or ``a4``.

    Raises
    ------
    InputError
        If the name does not end in ``.pdf``, or the file cannot be written.
    """
    where = "--out"
    if path.suffix.lower() != ".pdf":
        raise InputError(
            where, "the gauges are a PDF", "give a name that ends in .pdf", value=str(path)
        )
    if path.is_dir():
        raise InputError(where, "it is a folder", "name a file in it", value=str(path))
    check_folder(path.parent)
    from strapwright.sheets.template_sheet import angles_pdf  # noqa: PLC0415  loads slowly

    write_files(path.parent, {path.name: angles_pdf(degrees, paper=paper)})
