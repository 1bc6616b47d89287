"""``strapwright tap``: tap drill and percentage of thread."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import click

from strapwright.cli.options import crib_option, json_option, units_option


@click.command("tap")
@click.argument("thread", metavar="THREAD")
@click.option("--drill", metavar="DRILL", help="Say what this drill leaves.")
@click.option("--percent", type=float, help="Percentage of a full thread to aim at; 75 is usual.")
@crib_option
@units_option
@json_option
def command(
    *,
    thread: str,
    drill: str | None,
    percent: float | None,
    crib: Path | None,
    units: Literal["inch", "metric"] | None,
    as_json: bool,
) -> int:
    """Find the tap drill of a thread such as 3/8-16, '10-24' or M10x1.25."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.bench_sums import tap_answer  # noqa: PLC0415
    from strapwright.service.crib_files import load_cutters  # noqa: PLC0415

    lines, data = tap_answer(
        thread, drill=drill, percent=percent, cutters=load_cutters(crib), units=units
    )
    click.echo(to_text(data) if as_json else "\n".join(lines) + "\n", nl=False)
    return 0
