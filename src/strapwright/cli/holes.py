"""``strapwright holes``: hole tables from one datum corner."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import crib_option, json_option, rpm_option, tip_option


@click.command("holes")
@click.argument("file", metavar="FILE.toml", type=click.Path(path_type=Path))
@click.option(
    "--corner",
    type=click.Choice(["lower left", "lower right", "upper left", "upper right"]),
    help="Measure every plate from this corner.",
)
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
    file: Path,
    corner: str | None,
    out: Path | None,
    crib: Path | None,
    rpm: tuple[float, float] | None,
    tip: str | None,
    as_json: bool,
) -> int:
    """List holes: X and Y from one corner, the same after touching off, and the cutters.

    FILE is a plate file with [plate] and [[plate.hole]], or a job with its tooling.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.report.making_json import making_to_data  # noqa: PLC0415
    from strapwright.report.making_text import holes_to_text  # noqa: PLC0415
    from strapwright.service.file_access import check_folder, write_files  # noqa: PLC0415
    from strapwright.service.tooling_files import load_making, making_files  # noqa: PLC0415

    if out is not None:
        check_folder(out)
    made = load_making(file, crib=crib, rpm=rpm, tip=tip, corner=corner)
    written = () if out is None else write_files(out, making_files(made))
    click.echo(to_text(making_to_data(made)) if as_json else holes_to_text(made), nl=False)
    if written and not as_json:
        click.echo(f"\nWrote {len(written)} files into {out}")
    return 0
