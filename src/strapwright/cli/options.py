"""Flags that several commands share."""

from __future__ import annotations

from pathlib import Path

import click

units_option = click.option(
    "--units",
    type=click.Choice(["inch", "metric"]),
    help="Unit system of numbers without a unit, and of what is printed.",
)
json_option = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON: mm, degrees, N, MPa, whatever was typed."
)
job_argument = click.argument("job", metavar="JOB.toml", type=click.Path(path_type=Path))
