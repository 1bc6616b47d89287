"""``strapwright study``: one job with other sizes, metals, tooling or tolerances."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.many_jobs.sharing_work import (
    afresh_option,
    out_option,
    processes_option,
    scheduler_option,
    shown_progress,
)
from strapwright.cli.options import ask_patience, json_option


@click.command("study")
@click.argument("study", metavar="STUDY.toml", type=click.Path(path_type=Path))
@out_option
@processes_option
@scheduler_option
@afresh_option
@json_option
def command(
    *, study: Path, out: Path, processes: int | None, scheduler: str | None, afresh: bool,
    as_json: bool,
) -> int:  # fmt: skip
    """Plan one job again and again with other values.

    A study file names the job and the keys that vary: in steps, from a list, or drawn by chance.
    Writes results.json, results.parquet and charts.
    """
    from strapwright.service.many_jobs.many_papers import study_papers  # noqa: PLC0415
    from strapwright.service.many_jobs.run_many import HowToRun  # noqa: PLC0415

    ask_patience()
    how = HowToRun(folder=out, processes=processes, scheduler=scheduler, afresh=afresh)
    with shown_progress("plans") as progress:
        told = study_papers(study, how, progress)
    click.echo(told.json if as_json else told.text, nl=False)
    for note in told.notes:
        click.echo(note, err=True)
    return told.code
