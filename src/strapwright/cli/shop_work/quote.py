"""``strapwright quote``: what a part costs, and a sheet to hand over."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import (
    ask_patience,
    crib_option,
    from_log_option,
    job_argument,
    json_option,
    rack_option,
    rates_option,
    store_option,
)


@click.command("quote")
@job_argument
@rates_option
@rack_option
@crib_option
@click.option(
    "--quantities", metavar="N,N,...", default="1,5,10,50", show_default=True,
    help="How many parts to price.",
)  # fmt: skip
@click.option("--for", "customer", metavar="NAME", default="", help="Whom the quote is for.")
@click.option(
    "--valid", metavar="DAYS", type=int, default=30, show_default=True, help="How long it holds."
)
@click.option(
    "--out", metavar="FILE.pdf", type=click.Path(path_type=Path),
    help="Also write the sheet for the customer.",
)  # fmt: skip
@store_option
@from_log_option
@json_option
def command(
    *,
    job: Path,
    rates: Path | None,
    rack: Path | None,
    crib: Path | None,
    quantities: str,
    customer: str,
    valid: int,
    out: Path | None,
    folder: Path | None,
    from_log: bool,
    as_json: bool,
) -> int:
    """Price a part at several quantities from your own rates.

    Says hours and costs line by line for the shop; --out writes a sheet for the customer, with
    prices alone.
    """
    from strapwright.service.costing.money_papers import LogAsked, quote_papers  # noqa: PLC0415

    ask_patience()
    papers = quote_papers(
        job, rates=rates, rack=rack, crib=crib, quantities=quantities, customer=customer,
        valid_days=valid, sheet=out, log=LogAsked(folder=folder, used=from_log),
    )  # fmt: skip
    click.echo(papers.json if as_json else papers.text, nl=False)
    if out is not None:
        click.echo(f"Wrote {out}", err=as_json)
    return 0
