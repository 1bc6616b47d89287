"""``strapwright plan``: everything said about one job."""

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


@click.command("plan")
@job_argument
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Also write plan.json, drawings, the setup sheet, the 1:1 template and the blank as DXF "
    "into this folder.",
)
@click.option(
    "--details",
    is_flag=True,
    help="Also other ways to stop, force, clearance, other methods for the blank and the textbook "
    "springback.",
)
@click.option(
    "--rack",
    metavar="RACK.toml",
    type=click.Path(path_type=Path),
    help="Also say which bars of your rack the blanks are sawn from.",
)
@learned_option
@store_option
@json_option
def command(
    *,
    job: Path,
    out: Path | None,
    details: bool,
    rack: Path | None,
    learned: bool,
    folder: Path | None,
    as_json: bool,
) -> int:
    """Plan the part in a job file.

    Shows how long to cut the blank and where to mark it. For each bend it shows how to place the
    bar, how far to push and where to stop, what the pressure gauge should read, and the angle
    after release.
    """
    from strapwright.service.file_access import check_folder  # noqa: PLC0415
    from strapwright.service.plan_files import (  # noqa: PLC0415
        falls_short,
        plan_job,
        plan_learned,
        write_plan,
    )

    if out is not None:
        check_folder(out)
    ask_patience()
    plan = plan_learned(job, folder) if learned else plan_job(job)
    bars = ""
    if rack is not None:
        from strapwright.service.cut_jobs import bars_for  # noqa: PLC0415

        bars = bars_for(plan, rack)
    written = () if out is None else write_plan(plan, out, bars)
    if as_json:
        from strapwright.report.json_text import to_text  # noqa: PLC0415
        from strapwright.report.plan_json import plan_to_data  # noqa: PLC0415

        click.echo(to_text(plan_to_data(plan)), nl=False)
    else:
        from strapwright.report.plan_text import plan_to_text  # noqa: PLC0415

        click.echo(plan_to_text(plan, details=details), nl=False)
        if bars:
            click.echo(f"\nSaw from: {bars}")
        if written:
            click.echo(f"\nWrote {len(written)} files into {out}")
    return 3 if falls_short(plan) else 0
