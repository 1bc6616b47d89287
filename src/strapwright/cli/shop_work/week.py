"""``strapwright week``: what is finished by when."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import (
    ask_patience,
    from_log_option,
    json_option,
    rates_option,
    store_option,
)


@click.command("week")
@click.argument(
    "jobs", metavar="JOB.toml [JOB2.toml ...]", nargs=-1, required=True,
    type=click.Path(path_type=Path),
)  # fmt: skip
@rates_option
@click.option("--from", "today", metavar="DATE", help="First day; today without it.")
@click.option(
    "--out", metavar="DIR", type=click.Path(path_type=Path), help="Also draw the days into it."
)
@store_option
@from_log_option
@json_option
def command(
    *, jobs: tuple[Path, ...], rates: Path | None, today: str | None, out: Path | None,
    folder: Path | None, from_log: bool, as_json: bool,
) -> int:  # fmt: skip
    """Say which jobs are finished by their due date, and which to move.

    Jobs with a line due = "2026-12-04" under [part] are placed on the days to come, so that as few
    as can be are late.
    """
    from strapwright.service.costing.money_papers import LogAsked, week_papers  # noqa: PLC0415

    ask_patience()
    papers = week_papers(
        jobs, rates=rates, today=today, folder=out,
        log=LogAsked(folder=folder, used=from_log),
    )  # fmt: skip
    click.echo(papers.json if as_json else papers.text, nl=False)
    return papers.code
