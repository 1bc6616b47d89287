"""``strapwright learned``: what the log taught of bar, press and tooling."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, job_argument, json_option, store_option


@click.command("learned")
@job_argument
@store_option
@json_option
def command(*, job: Path, folder: Path | None, as_json: bool) -> int:
    """Say what the log taught of a job's bar lot, press and tooling.

    For each figure: what was assumed before any reading, what it is now, and which lines of the
    log moved it. Then where each bend stops, before and now.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.log_commands import known_of  # noqa: PLC0415
    from strapwright.service.shop_log.log_text import known_to_data, known_to_text  # noqa: PLC0415

    ask_patience()
    found = known_of(job, folder)
    click.echo(to_text(known_to_data(found)) if as_json else known_to_text(found), nl=False)
    return 0
