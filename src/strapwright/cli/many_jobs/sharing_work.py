"""Flags and progress of the commands that plan many jobs."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
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


@contextmanager
def shown_progress(what: str) -> Iterator[Callable[[int, int], None]]:
    """Show on the screen how many are done while the block runs; in a file it is silent.

    The line of it is left however the block ends, so that what is said then has a line of its own.

    Parameters
    ----------
    what
        How many there are in words, e.g. ``jobs``.

    Yields
    ------
    callable
        To be told how many are done, and how many of these were kept from before.
    """
    begun = False

    def show(done: int, from_before: int) -> None:
        nonlocal begun
        if not sys.stderr.isatty():
            return
        kept = f", {from_before} of them kept from before" if from_before else ""
        begun = True
        click.echo(f"\r{done} {what} done{kept} ...   ", err=True, nl=False)

    try:
        yield show
    finally:
        if begun:
            click.echo("", err=True)
