"""``strapwright fit``: a shaft in a hole."""

from __future__ import annotations

from typing import Literal

import click

from strapwright.cli.options import json_option, units_option


@click.command("fit")
@click.argument("size", metavar="[SIZE]", required=False)
@click.argument("classes", metavar="[HOLE/SHAFT]", required=False)
@click.option("--hole", metavar="LENGTH", help="Hole as measured, or '25 to 25.02 mm'.")
@click.option("--shaft", metavar="LENGTH", help="Shaft as measured, or from-to.")
@click.option("--reamer", metavar="LENGTH", help="Hole as this reamer leaves it.")
@click.option("--drill", metavar="DRILL", help="Hole as this drill leaves it.")
@units_option
@json_option
def command(
    *,
    size: str | None,
    classes: str | None,
    hole: str | None,
    shaft: str | None,
    reamer: str | None,
    drill: str | None,
    units: Literal["inch", "metric"] | None,
    as_json: bool,
) -> int:
    """Say the least and most clearance, and how it feels.

    By ISO 286 classes: strapwright fit '25 mm' H7/g6. By real sizes: strapwright fit --reamer '1
    in' --shaft '0.9995 in'.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.bench_sums import fit_answer  # noqa: PLC0415

    lines, data = fit_answer(
        size, classes, hole=hole, shaft=shaft, reamer=reamer, drill=drill, units=units
    )
    click.echo(to_text(data) if as_json else "\n".join(lines) + "\n", nl=False)
    return 0
