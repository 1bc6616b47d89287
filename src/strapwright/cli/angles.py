"""``strapwright angles``: paper angle gauges for any list of angles."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import json_option


@click.command("angles")
@click.argument("angles", metavar="A [B ...]", nargs=-1, required=True)
@click.option(
    "--out",
    required=True,
    metavar="FILE.pdf",
    type=click.Path(path_type=Path),
    help="PDF to write; one of that name is replaced.",
)
@click.option(
    "--paper",
    type=click.Choice(["letter", "a4"]),
    default="letter",
    show_default=True,
    help="Size of the paper.",
)
@json_option
def command(*, angles: tuple[str, ...], out: Path, paper: str, as_json: bool) -> int:
    """Print paper gauges for bend angles, each how far the bend turns the bar.

    For example: strapwright angles 90 92.6 45 --out gauges.pdf. Print at 100 % and measure the
    check bars first.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.gauge_files import read_angles, write_gauges  # noqa: PLC0415

    degrees = read_angles(angles)
    write_gauges(degrees, out, "a4" if paper == "a4" else "letter")
    if as_json:
        said = {"format": 1, "file": str(out), "angles_deg": list(degrees)}
        click.echo(to_text(said), nl=False)
        return 0
    count = "1 angle" if len(degrees) == 1 else f"{len(degrees)} angles"
    click.echo(f"Wrote gauges for {count} into {out}; print at 100 % and measure the check bars.")
    return 0
