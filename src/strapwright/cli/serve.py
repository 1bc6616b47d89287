"""``strapwright serve``: the pages in a browser on this machine."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, store_option


@click.command("serve")
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8117,
    show_default=True,
    help="Port on this machine; 0 takes a free one.",
)
@store_option
def command(*, port: int, folder: Path | None) -> int:
    """Open the pages on this machine: a part from nothing to paper.

    Only this machine can reach them. Stop with Ctrl-C; everything typed is kept.
    """
    from strapwright.serving import serve  # noqa: PLC0415

    ask_patience()

    def ready(address: str, store: Path) -> None:
        click.echo(f"Open {address} in a browser. Jobs are kept in {store}. Ctrl-C stops.")

    serve(port=port, folder=folder, ready=ready)
    return 0
