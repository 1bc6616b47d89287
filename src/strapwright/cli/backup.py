"""``strapwright backup``: the whole store as one file."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import store_option


@click.command("backup")
@click.argument("target", metavar="DEST", type=click.Path(path_type=Path))
@store_option
def command(*, target: Path, folder: Path | None) -> int:
    """Copy every job with all its versions into one file, also while the pages are open.

    DEST is the file to make, or a folder: then the file is named by the moment. It appears only
    once it is whole and checked, and no file is ever replaced.
    """
    from strapwright.service.backups import take_backup  # noqa: PLC0415

    click.echo(f"Backup written and checked: {take_backup(target, folder)}")
    return 0
