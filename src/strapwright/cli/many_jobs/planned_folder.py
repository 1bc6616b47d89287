"""``strapwright batch``: every job in a folder."""

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


@click.command("batch")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@out_option
@click.option(
    "--papers",
    is_flag=True,
    help="Also write sheet, template and drawings of each job into a folder of its own.",
)
@processes_option
@scheduler_option
@afresh_option
@json_option
def command(
    *, folder: Path, out: Path, papers: bool, processes: int | None, scheduler: str | None,
    afresh: bool, as_json: bool,
) -> int:  # fmt: skip
    """Plan every job file in a folder.

    Writes results.json, results.parquet and, if asked, the papers of each job. One job that cannot
    be read or made does not hold up the others.
    """
    from strapwright.service.many_jobs.many_papers import batch_papers  # noqa: PLC0415
    from strapwright.service.many_jobs.run_many import HowToRun  # noqa: PLC0415

    ask_patience()
    how = HowToRun(folder=out, processes=processes, scheduler=scheduler, afresh=afresh)
    with shown_progress("jobs") as progress:
        told = batch_papers(folder, how, progress, papers=papers)
    click.echo(told.json if as_json else told.text, nl=False)
    for note in told.notes:
        click.echo(note, err=True)
    return told.code
