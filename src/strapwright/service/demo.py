"""The demonstration: three parts of an invented harbour workshop, planned from their job files."""

from __future__ import annotations

from pathlib import Path

from strapwright.planning.plan_values import Plan
from strapwright.service.file_access import check_folder, write_files
from strapwright.service.plan_files import plan_files, plan_job

JOBS = Path(__file__).parent / "demo_jobs"
NAMES = ("fender-hanger", "hat-stand-off", "dock-ladder-bracket")


def run_demo(folder: Path) -> dict[str, Plan]:
    """Plan the three parts and write each into a folder of its own.

    Parameters
    ----------
    folder
        Made where it is missing.

    Returns
    -------
    dict
        Name of the part's folder -> plan, in the order shown.

    Raises
    ------
    InputError
        If the folder cannot be written.
    """
    check_folder(folder)
    plans = {name: plan_job(JOBS / f"{name}.toml") for name in NAMES}
    # Everything is made before the first file is written.
    contents = {
        name: {**plan_files(plan), "job.toml": (JOBS / f"{name}.toml").read_bytes()}
        for name, plan in plans.items()
    }
    for name, files in contents.items():
        write_files(folder / name, files)
    return plans
