"""``strapwright tooling make``: drawings, hole tables and steps."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import crib_option, json_option, rpm_option, tip_option


@click.command("make")
@click.argument(
    "jobs", metavar="JOB.toml [JOB2.toml ...]", nargs=-1, required=True,
    type=click.Path(path_type=Path),
)  # fmt: skip
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
    jobs: tuple[Path, ...],
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
    the sizes drawn. Of several jobs a plate that stays on the press is drawn once, with the holes
    of all of them, and each change from one to another gets its card.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.report.making_json import making_to_data  # noqa: PLC0415
    from strapwright.report.making_text import making_to_text  # noqa: PLC0415
    from strapwright.service.file_access import check_folder, write_files  # noqa: PLC0415
    from strapwright.service.several_dies.shared_making import (  # noqa: PLC0415
        dies_files,
        load_dies,
    )
    from strapwright.service.tooling_files import load_making, making_files  # noqa: PLC0415

    if out is not None:
        check_folder(out)
    if len(jobs) == 1:
        made = load_making(jobs[0], crib=crib, rpm=rpm, tip=tip)
        written = () if out is None else write_files(out, making_files(made))
        said = to_text(making_to_data(made)) if as_json else making_to_text(made)
        lacking = made.lacking
    else:
        dies = load_dies(jobs, crib=crib, rpm=rpm, tip=tip)
        written = () if out is None else write_files(out, dies_files(dies))
        each = dies.makings
        said = (
            to_text({"format": 1, "makings": [making_to_data(one) for one in each]})
            if as_json
            else "\n".join(f"== {one.name}\n\n{making_to_text(one)}" for one in each)
        )
        lacking = any(one.lacking for one in each)
    click.echo(said, nl=False)
    if written and not as_json:
        click.echo(f"\nWrote {len(written)} files into {out}")
    return 3 if lacking else 0
