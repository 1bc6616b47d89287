"""``strapwright serve``: the pages in a browser on this machine, and on a phone where asked."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.interrupts import be_patient
from strapwright.cli.options import ask_patience, store_option

# Longer than the two servers give to answers under way, one after the other.
_GOODBYE = 10.0  # s


@click.command("serve")
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8117,
    show_default=True,
    help="Port on this machine; 0 takes a free one.",
)
@store_option
@click.option("--share", is_flag=True, help="Also let devices of the shop's network in, by a code.")
@click.option("--address", metavar="IP", help="This machine's address there, if it has several.")
@click.option("--tls", is_flag=True, help="Encrypt what is shared, by a certificate made here.")
def command(*, port: int, folder: Path | None, share: bool, address: str | None, tls: bool) -> int:
    """Open the pages on this machine: a part from nothing to paper.

    Only this machine can reach them, unless you share. Stop with Ctrl-C; everything typed is kept.
    """
    from strapwright.serving import Share, serve  # noqa: PLC0415
    from strapwright.shared_serving import read_address  # noqa: PLC0415

    ask_patience()
    be_patient(_GOODBYE)

    def ready(own: str, store: Path, link: str, code: str) -> None:
        click.echo(f"Open {own} in a browser. Jobs are kept in {store}. Ctrl-C stops.")
        if link:
            click.echo("A phone on the shop's network gets in by this code, for one day:")
            click.echo(code)
            click.echo(link)
            click.echo("Whoever has it can read and write. Do not share on an open network.")

    serve(
        port=port,
        folder=folder,
        ready=ready,
        share=Share(begin=share, address=read_address(address) if address else "", secure=tls),
    )
    return 0
