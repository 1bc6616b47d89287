"""``strapwright restore``: a backup back into a store."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import store_option


@click.command("restore")
@click.argument("backup", metavar="FILE", type=click.Path(path_type=Path))
@store_option
@click.option(
    "--aside",
    is_flag=True,
    help="If the store is not empty, move what is there to a file beside it, then restore.",
)
def command(*, backup: Path, folder: Path | None, aside: bool) -> int:
    """Put a backup into an empty store; it is checked before anything is touched.

    Stop 'serve' first: a store in use is refused, and so is one that has something in it.
    """
    from strapwright.service.backups import bring_back  # noqa: PLC0415

    click.echo(bring_back(backup, folder, aside=aside).sentence)
    return 0
