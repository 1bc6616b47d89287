"""``strapwright stroke``: one bend from flags."""

from __future__ import annotations

from typing import Literal, cast

import click

from strapwright.cli.options import ask_patience, json_option, units_option


@click.command("stroke")
@click.option("--bar", required=True, metavar="SECTION", help="E.g. 'flat 1/4 x 2 in'.")
@click.option("--material", required=True, metavar="NAME", help="E.g. 'A36 hot rolled'.")
@click.option("--opening", required=True, metavar="LENGTH", help="Shoulders centre to centre.")
@click.option("--nose-radius", required=True, metavar="LENGTH", help="Radius of the nose (punch).")
@click.option("--shoulder-radius", required=True, metavar="LENGTH", help="Radius of the shoulders.")
@click.option(
    "--angle", metavar="DEGREES", help="Angle wanted after release, 90 for a square bracket."
)
@click.option("--travel", metavar="LENGTH", help="Or the travel of the ram from first contact.")
@click.option("--friction", metavar="NUMBER", default="0.1", show_default=True)
@click.option("--bore", metavar="LENGTH", help="Bore of the cylinder, for the gauge.")
@click.option(
    "--relief", metavar="PRESSURE", help="Relief setting, to check the gauge reading against."
)
@click.option(
    "--efficiency",
    metavar="SHARE",
    default="0.95",
    show_default=True,
    help="Share of the force that arrives past seals and guides.",
)
@units_option
@json_option
def command(*, units: str | None, as_json: bool, **flags: str | None) -> int:
    """Work out the stroke of one bend: force, gauge and angle against travel."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.one_bend import (  # noqa: PLC0415
        one_bend_to_data,
        one_bend_to_text,
        solve_one_bend,
    )

    ask_patience()
    named = {f"--{name.replace('_', '-')}": text for name, text in flags.items()}
    found = solve_one_bend(named, cast("Literal['inch', 'metric'] | None", units))
    click.echo(to_text(one_bend_to_data(found)) if as_json else one_bend_to_text(found), nl=False)
    return 3 if found.beyond_relief else 0
