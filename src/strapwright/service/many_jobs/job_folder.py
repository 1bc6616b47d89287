"""The jobs in a folder, and the jobs of a study file."""

from __future__ import annotations

from pathlib import Path

from strapwright.errors import InputError
from strapwright.service.file_access import read_text_file, reason_of
from strapwright.service.many_jobs.case_values import Case
from strapwright.service.many_jobs.kept_results import RESULT_FILES
from strapwright.shop_files.opening import files_named, parse
from strapwright.shop_files.studies.reading_study import cases_of, read_study
from strapwright.shop_files.studies.study_values import Study


def jobs_in(folder: Path, *, papers: bool) -> tuple[list[Case], list[str]]:
    """Find the job files in a folder; files of a rack, a press or rates are left out.

    Parameters
    ----------
    folder
        Whose files end in ``.toml`` or ``.TOML``; folders below it are not looked into.
    papers
        Whether sheets and drawings are wanted of each.

    Returns
    -------
    cases, left_out
        In the order of their names, and the names of the files that are no jobs or begin with a
        dot.  A file that cannot be read is a case too: planning it says why.

    Raises
    ------
    InputError
        If it is no folder, there is no job in it, two jobs differ by the case of their ending
        alone, or the papers of one would need a folder that has the name of a file of results.
    """
    paths = _toml_files(folder)
    cases, left_out = [], []
    for path in paths:
        # What a system puts beside a file; and "...toml" would have its papers one folder up.
        if path.name.startswith("."):
            left_out.append(path.name)
            continue
        if papers and path.stem.casefold() in RESULT_FILES:
            raise InputError(
                str(path),
                f"its papers need a folder {path.stem}, and a file of the results is called so",
                "give the job file another name",
            )
        try:
            text = read_text_file(path, "job file")
        except InputError as error:
            cases.append(Case(name=path.stem, text="", unread=str(error), papers=papers))
            continue
        beside = _shop_files(path, text)
        if beside is None:
            left_out.append(path.name)
        else:
            cases.append(Case(name=path.stem, text=text, beside=beside, papers=papers))
    names = [one.name for one in cases]
    if twice := next((one for one in names if names.count(one) > 1), ""):
        raise InputError(
            str(folder),
            f"two job files are named {twice}; only the capitals of their endings differ",
            "give one of them another name",
        )
    if not cases:
        raise InputError(
            str(folder), "there is no job file in it", "name a folder with files like bracket.toml"
        )
    return cases, left_out


def _toml_files(folder: Path) -> list[Path]:
    try:
        if not folder.is_dir():
            raise InputError(
                str(folder), "this is not a folder", "name the folder of your job files"
            )
        return sorted(
            one for one in folder.iterdir() if one.suffix.lower() == ".toml" and not one.is_dir()
        )
    except (OSError, ValueError) as error:
        raise InputError(
            str(folder), f"it cannot be read ({reason_of(error)})", "check the name and permissions"
        ) from error


def _shop_files(path: Path, text: str) -> dict[str, str] | None:
    """Return the shop files of a job; ``None`` where the text is sound and has no part."""
    try:
        if "part" not in parse(text):
            return None
        names = files_named(text)
        there = [name for name in names if (path.parent / name).exists()]
        return {name: read_text_file(path.parent / name, "shop file") for name in there}
    except InputError:
        return {}  # told in its own result, where the others are told too


def jobs_of_study(path: Path) -> tuple[Study, list[Case]]:
    """Make the jobs of a study.

    Parameters
    ----------
    path
        Of the study file; its job lies beside it.

    Returns
    -------
    study, cases
        As read, and its jobs in their order.

    Raises
    ------
    InputError
        If a file cannot be read, or something in the study cannot be used.
    """
    study = read_study(read_text_file(path, "study file"), path.name)
    job = path.parent / study.job
    text = read_text_file(job, "job file")
    names = [path.parent / name for name in files_named(text)]
    beside = {one.name: read_text_file(one, "shop file") for one in names if one.exists()}
    cases = [
        Case(name=one.name, text=one.text, varied=one.varied, beside=beside)
        for one in cases_of(study, text)
    ]
    return study, cases
