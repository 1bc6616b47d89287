"""``strapwright tooling check``: hold every member to every load."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, job_argument, json_option


@click.command("check")
@job_argument
@click.option(
    "--rack",
    metavar="RACK.toml",
    type=click.Path(path_type=Path),
    help="Propose the next size from this rack, not from usual sizes.",
)
@click.option(
    "--all", "every", is_flag=True, help="Print every check, not only the worst of each member."
)
@json_option
def command(*, job: Path, rack: Path | None, every: bool, as_json: bool) -> int:
    """Check every member of a job's tooling under every load.

    Shows the weakest member first and how to fix it, what could not be checked and what to enter,
    the rating plate and the steps of a proof load.
    """
    from strapwright.report.tooling_text import checked_to_data, checked_to_text  # noqa: PLC0415
    from strapwright.service.check_tooling import check_tooling  # noqa: PLC0415

    ask_patience()
    checked = check_tooling(job, rack)
    if as_json:
        from strapwright.report.json_text import to_text  # noqa: PLC0415

        click.echo(to_text(checked_to_data(checked)), nl=False)
    else:
        click.echo(checked_to_text(checked, every=every), nl=False)
    return 3 if checked.refused else 0
