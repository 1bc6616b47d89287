"""Flags that several commands share."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from strapwright.service.compiler_cache import is_cold

units_option = click.option(
    "--units",
    type=click.Choice(["inch", "metric"]),
    help="Units for plain numbers and for the output.",
)
json_option = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON, always in mm, degrees, N and MPa."
)
store_option = click.option(
    "--store",
    "folder",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Where jobs are kept; by default in your own data folder.",
)
learned_option = click.option(
    "--learned", is_flag=True, help="Use what the log in the store taught; see strapwright learned."
)
from_log_option = click.option(
    "--from-log", is_flag=True,
    help="Take the time to lay a part in from the log; --store alone says what the log shows.",
)  # fmt: skip
job_argument = click.argument("job", metavar="JOB.toml", type=click.Path(path_type=Path))
crib_option = click.option(
    "--crib",
    metavar="FILE.toml",
    type=click.Path(path_type=Path),
    help="Your tool crib; if left out, a usual set of cutters is assumed.",
)
rates_option = click.option(
    "--rates",
    metavar="RATES.toml",
    type=click.Path(path_type=Path),
    help="Your saw, times, prices and hours; the usual ones without it.",
)
rack_option = click.option(
    "--rack",
    metavar="RACK.toml",
    type=click.Path(path_type=Path),
    help="Your rack, for the prices of your supplier's bars.",
)
rpm_option = click.option(
    "--rpm",
    metavar="LOW HIGH",
    type=(float, float),
    help="Slowest and fastest spindle speed of your machine.",
)
tip_option = click.option(
    "--tip", metavar="LENGTH", help="Diameter of the edge finder's tip; default: 0.200 in."
)


def ask_patience() -> None:
    """Tell a person at a terminal that the first run takes longer; scripts are told nothing."""
    if sys.stderr.isatty() and is_cold():
        click.echo("Compiling the solver, once; this takes a minute ...", err=True)
