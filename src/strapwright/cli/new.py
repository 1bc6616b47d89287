"""``strapwright new``: a job file to start from."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import json_option


@click.command("new")
@click.argument("file", metavar="[FILE]", type=click.Path(path_type=Path), default=Path("job.toml"))
@click.option(
    "--units",
    type=click.Choice(["inch", "metric"]),
    default="inch",
    show_default=True,
    help="Unit system of the new job.",
)
@click.option(
    "--rates", is_flag=True, help="Write the file of your saw, times, prices and hours instead."
)
@json_option
def command(*, file: Path, units: str, rates: bool, as_json: bool) -> int:
    """Write a job file with comments to start from (job.toml if no name is given).

    A file that is already there is left alone.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.new_job import write_new_job  # noqa: PLC0415

    if rates and file == Path("job.toml"):
        file = Path("rates.toml")
    write_new_job(file, "metric" if units == "metric" else "inch", rates=rates)
    if as_json:
        click.echo(to_text({"format": 1, "file": str(file)}), nl=False)
        return 0
    then = (
        f"add --rates {file} to cut, quote, payback or week"
        if rates
        else (f"run: strapwright plan {file}")
    )
    click.echo(f"Wrote {file}; edit it, then {then}")
    return 0
