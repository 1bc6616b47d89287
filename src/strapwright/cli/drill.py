"""``strapwright drill``: one drill by all its names."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import click

from strapwright.cli.options import json_option, units_option


@click.command("drill")
@click.argument("size", metavar="SIZE")
@click.option(
    "--series",
    type=click.Choice(["fraction", "number", "letter", "metric"]),
    help="Only this series.",
)
@click.option(
    "--crib",
    metavar="FILE.toml",
    type=click.Path(path_type=Path),
    help="Only drills of your tool crib.",
)
@units_option
@json_option
def command(
    *,
    size: str,
    series: str | None,
    crib: Path | None,
    units: Literal["inch", "metric"] | None,
    as_json: bool,
) -> int:
    """Find the drills nearest to SIZE: '0.332 in', '8.5 mm', Q, '#7' or 21/64."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.bench_sums import drill_answer  # noqa: PLC0415
    from strapwright.service.crib_files import load_drills  # noqa: PLC0415

    lines, data = drill_answer(size, among=load_drills(crib), series=series, units=units)
    click.echo(to_text(data) if as_json else "\n".join(lines) + "\n", nl=False)
    return 0
