"""A folder of jobs, or a study, from its files to its results."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from attrs import frozen

from strapwright.report.json_text import to_text
from strapwright.report.many_jobs_text import many_jobs_to_text
from strapwright.service.file_access import write_files
from strapwright.service.many_jobs.case_values import FELL_SHORT
from strapwright.service.many_jobs.job_folder import jobs_in, jobs_of_study
from strapwright.service.many_jobs.run_many import HowToRun, run_many
from strapwright.service.many_jobs.summary_files import FORMAT, summary_files


@frozen(kw_only=True)
class ManyPapers:
    """What is told of many jobs.

    Attributes
    ----------
    text
        For a terminal.
    json
        The same for programs.
    notes
        Sentences beside it.
    code
        Exit code: 3 where a job fell short, else 0.
    """

    text: str
    json: str
    notes: tuple[str, ...]
    code: int


def batch_papers(
    folder: Path, how: HowToRun, progress: Callable[[int, int], None], *, papers: bool
) -> ManyPapers:
    """Plan every job in a folder.

    Parameters
    ----------
    folder
        Of the job files.
    how
        Where they are planned and the results go.
    progress
        As for :func:`strapwright.service.many_jobs.run_many.run_many`.
    papers
        Whether to write sheet, template and drawings of each.

    Raises
    ------
    InputError
        If there is no job, or the results cannot be written.
    """
    cases, left_out = jobs_in(folder, papers=papers)
    results = run_many(cases, how, progress)
    files, note = summary_files(folder.resolve().name, results, cases, ())
    write_files(how.folder, files)
    notes = [f"Not a job, left out: {', '.join(left_out)}."] if left_out else []
    return _papers(folder.resolve().name, results, (*notes, note), study=False)


def study_papers(path: Path, how: HowToRun, progress: Callable[[int, int], None]) -> ManyPapers:
    """Plan a study.

    Parameters
    ----------
    path
        Of the study file.
    how
        Where its jobs are planned and the results go.
    progress
        As for :func:`strapwright.service.many_jobs.run_many.run_many`.

    Raises
    ------
    InputError
        If the study cannot be used, or the results cannot be written.
    """
    study, cases = jobs_of_study(path)
    results = run_many(cases, how, progress)
    drawn = [one.key for one in study.varied if one.drawn is not None]
    files, note = summary_files(study.name, results, cases, drawn)
    write_files(how.folder, files)
    return _papers(study.name, results, (note,), study=True)


def _papers(
    name: str, results: list[dict[str, Any]], notes: tuple[str, ...], *, study: bool
) -> ManyPapers:
    return ManyPapers(
        text=many_jobs_to_text(results, study=study),
        json=to_text({"format": FORMAT, "name": name, "cases": results}),
        notes=tuple(note for note in notes if note),
        code=3 if any(one["outcome"] in FELL_SHORT for one in results) else 0,
    )
