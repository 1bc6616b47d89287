"""``strapwright payback``: after how many parts a tooling has paid for itself."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import (
    ask_patience,
    crib_option,
    job_argument,
    json_option,
    rack_option,
    rates_option,
)


@click.command("payback")
@job_argument
@rates_option
@rack_option
@crib_option
@click.option("--minutes", type=float, metavar="MIN", help="One part by hand, the way you do now.")
@click.option(
    "--setup", type=float, default=0.0, metavar="MIN", help="Getting ready for a lot, now."
)
@click.option(
    "--scrap", type=float, default=0.0, metavar="SHARE", help="Parts lost now, as a share."
)
@click.option("--bought", type=float, metavar="PRICE", help="Or: what a part is bought for now.")
@click.option("--lot", type=int, metavar="N", help="Parts of a lot; the job's quantity without it.")
@click.option("--a-year", type=int, metavar="N", help="Parts a year, for the gain of a year.")
@click.option(
    "--interest", type=float, default=0.0, metavar="SHARE", help="A year, as a share: 0.08 is 8 %."
)
@click.option(
    "--years", type=float, default=5.0, show_default=True, help="How long the tooling lasts."
)
@click.option("--tooling-cost", type=float, metavar="PRICE", help="What it costs, if you buy it.")
@click.option(
    "--out", metavar="DIR", type=click.Path(path_type=Path), help="Also draw the chart into it."
)
@json_option
def command(
    *,
    job: Path,
    rates: Path | None,
    rack: Path | None,
    crib: Path | None,
    minutes: float | None,
    setup: float,
    scrap: float,
    bought: float | None,
    lot: int | None,
    a_year: int | None,
    interest: float,
    years: float,
    tooling_cost: float | None,
    out: Path | None,
    as_json: bool,
) -> int:
    """Say after how many parts the tooling of a job has paid for itself.

    Set against making the parts by hand (--minutes) or buying them (--bought). Making the tooling
    counts with its hours and its metal.
    """
    from strapwright.service.costing.money_papers import Today, payback_papers  # noqa: PLC0415

    ask_patience()
    papers = payback_papers(
        job,
        Today(minutes=minutes, setup=setup, scrap=scrap, bought=bought),
        rates=rates,
        rack=rack,
        crib=crib,
        lot=lot,
        a_year=a_year,
        interest=interest,
        years=years,
        tooling_cost=tooling_cost,
        folder=out,
    )
    click.echo(papers.json if as_json else papers.text, nl=False)
    return 0
