"""``strapwright tooling change``: from this die to that die."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import json_option


@click.command("change")
@click.argument("before", metavar="FROM.toml", type=click.Path(path_type=Path))
@click.argument("after", metavar="TO.toml", type=click.Path(path_type=Path))
@click.option(
    "--out", metavar="DIR", type=click.Path(path_type=Path),
    help="Write the card as change.pdf into this folder.",
)  # fmt: skip
@json_option
def command(*, before: Path, after: Path, out: Path | None, as_json: bool) -> int:
    """Say how the press is changed from one tooling to another.

    What comes off, what goes on, in order, with the bolts and what they are tightened with; what
    stays on the press, and what is checked before the first part.
    """
    from strapwright.report.change_text import change_to_data, change_to_text  # noqa: PLC0415
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.file_access import check_folder, write_files  # noqa: PLC0415
    from strapwright.service.several_dies.shared_making import (  # noqa: PLC0415
        card_file,
        load_change,
    )

    if out is not None:
        check_folder(out)
    change, words = load_change(before, after)
    if out is not None:
        write_files(out, {"change.pdf": card_file(change, words)})
    click.echo(to_text(change_to_data(words)) if as_json else change_to_text(words), nl=False)
    if out is not None and not as_json:
        click.echo(f"\nWrote change.pdf into {out}")
    return 0
