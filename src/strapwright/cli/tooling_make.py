"""``strapwright tooling make``: drawings, hole tables and steps."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import crib_option, json_option, rpm_option, tip_option


@click.command("make")
@click.argument("job", metavar="JOB.toml", type=click.Path(path_type=Path))
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Write sheets, hole tables, drawings and DXF into this folder.",
)
@crib_option
@rpm_option
@tip_option
@json_option
def command(
    *,
    job: Path,
    out: Path | None,
    crib: Path | None,
    rpm: tuple[float, float] | None,
    tip: str | None,
    as_json: bool,
) -> int:
    """Lay out the plates and shafts of a job's tooling and say how each is made.

    Push plate, nose carriers, web, shoulder blocks and base or cheeks and floor, rounds: drawings
    from one datum corner, hole tables, the cutters of the crib with speed and feed, numbered steps.
    What cannot be laid out is named, and the rest still comes. The members are checked again with
    the sizes drawn.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.report.making_json import making_to_data  # noqa: PLC0415
    from strapwright.report.making_text import making_to_text  # noqa: PLC0415
    from strapwright.service.file_access import check_folder, write_files  # noqa: PLC0415
    from strapwright.service.tooling_files import load_making, making_files  # noqa: PLC0415

    if out is not None:
        check_folder(out)
    made = load_making(job, crib=crib, rpm=rpm, tip=tip)
    written = () if out is None else write_files(out, making_files(made))
    click.echo(to_text(making_to_data(made)) if as_json else making_to_text(made), nl=False)
    if written and not as_json:
        click.echo(f"\nWrote {len(written)} files into {out}")
    return 3 if made.lacking else 0
