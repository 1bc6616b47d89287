"""Flags and progress of the commands that plan many jobs."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import click

out_option = click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path),
    required=True,
    help="Where the results go. A run that was stopped goes on from what is kept there.",
)
processes_option = click.option(
    "--processes",
    metavar="N",
    type=int,
    help="How many jobs at once on this machine; one on each processor without it.",
)
scheduler_option = click.option(
    "--scheduler",
    metavar="ADDRESS",
    help="Plan on the workers of this scheduler, on other machines too.",
)
afresh_option = click.option(
    "--afresh", is_flag=True, help="Plan all again, whatever an earlier run kept."
)


def shown_progress(what: str) -> Callable[[int, int], None]:
    """Return what shows on the screen how many are done; in a file it is silent.

    Parameters
    ----------
    what
        How many there are in words, e.g. ``jobs``.
    """

    def show(done: int, from_before: int) -> None:
        if not sys.stderr.isatty():
            return
        kept = f", {from_before} of them kept from before" if from_before else ""
        click.echo(f"\r{done} {what} done{kept} ...   ", err=True, nl=False)

    return show


def end_progress() -> None:
    """Leave the line of the progress."""
    if sys.stderr.isatty():
        click.echo("", err=True)
