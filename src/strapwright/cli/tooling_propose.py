"""``strapwright tooling propose``: a tooling from what lies on the rack."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from strapwright.cli.options import ask_patience, crib_option, json_option

_WIDE = 79  # columns of a terminal that progress is written over in


@click.command("propose")
@click.argument(
    "jobs", metavar="JOB.toml [JOB2.toml ...]", nargs=-1, required=True,
    type=click.Path(path_type=Path),
)  # fmt: skip
@click.option(
    "--rack",
    metavar="RACK.toml",
    type=click.Path(path_type=Path),
    help="The stock it may be made from; needed.",
)
@crib_option
@json_option
def command(*, jobs: tuple[Path, ...], rack: Path | None, crib: Path | None, as_json: bool) -> int:
    """Find tooling that makes every part named, from the stock on the rack.

    Shows the best three with their cut lists and drawbacks, why others were ruled out, or the
    nearest miss.
    """
    from strapwright.errors import InputError  # noqa: PLC0415
    from strapwright.service.search_clock import shown_on  # noqa: PLC0415

    if rack is None:
        raise InputError(
            "--rack",
            "no rack is named, so there is no stock to make tooling from",
            "write --rack RACK.toml, a file with a [[stock]] for each piece on it",
        )
    ask_patience()
    # What follows takes a second to load.
    progress = shown_on(_over) if sys.stderr.isatty() else None
    from strapwright.service.propose_tooling import (  # noqa: PLC0415
        proposals_to_data,
        proposals_to_text,
        propose_for,
    )

    found, units = propose_for(jobs, rack, progress, crib=crib)
    if progress is not None:
        _over("")
        click.echo("\r", err=True, nl=False)
    if as_json:
        from strapwright.report.json_text import to_text  # noqa: PLC0415

        click.echo(to_text(proposals_to_data(found, units)), nl=False)
    else:
        click.echo(proposals_to_text(found, units), nl=False)
    return 0 if found.best else 3


def _over(text: str) -> None:
    """Write over the last line on the screen."""
    click.echo(f"\r{text:<{_WIDE}}", err=True, nl=False)
