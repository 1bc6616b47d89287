"""``strapwright more``: it stands at 84, how much more."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import (
    ask_patience,
    job_argument,
    json_option,
    learned_option,
    store_option,
)


@click.command("more")
@job_argument
@click.option("--bend", required=True, type=int, metavar="N", help="Number of the bend.")
@click.option("--stands", required=True, metavar="DEGREES", help="Angle measured after release.")
@click.option("--wanted", metavar="DEGREES", help="Angle you want; default: the job's angle.")
@click.option(
    "--pushed", metavar="TRAVEL", help="Travel used so far, from where you found first contact."
)
@learned_option
@store_option
@json_option
def command(
    *,
    job: Path,
    bend: int,
    stands: str,
    wanted: str | None,
    pushed: str | None,
    learned: bool,
    folder: Path | None,
    as_json: bool,
) -> int:
    """Say how much more to push a bend that stands short, or how to open one bent too far.

    The answer is a difference along the stroke curve, so errors in touch and the give of the
    machine cancel: push that much further than before.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.further_push import (  # noqa: PLC0415
        Further,
        further_to_data,
        further_to_text,
        opening_to_data,
        opening_to_text,
        push_further,
    )
    from strapwright.service.plan_files import plan_job, plan_learned  # noqa: PLC0415

    ask_patience()
    made = plan_learned(job, folder) if learned else plan_job(job)
    found = push_further(made, bend, stands=stands, wanted=wanted, pushed=pushed)
    if isinstance(found, Further):
        said = to_text(further_to_data(found)) if as_json else further_to_text(found)
    else:
        data = opening_to_data(found)
        said = to_text(data) if as_json else opening_to_text(found, made.job.units)
    click.echo(said, nl=False)
    return 0
