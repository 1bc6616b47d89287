"""``strapwright force``: pressure to force and back."""

from __future__ import annotations

import click

from strapwright.cli.options import json_option, units_option


@click.command("force")
@click.option("--bore", metavar="LENGTH", help="Bore of the cylinder.")
@click.option("--rod", metavar="LENGTH", help="Its piston rod, for pulling back.")
@click.option("--pressure", metavar="PRESSURE", help="What the gauge reads.")
@click.option("--force", metavar="FORCE", help="What the ram should push with.")
@click.option("--flow", metavar="FLOW", help="What the pump delivers.")
@click.option(
    "--efficiency",
    metavar="SHARE",
    default="1",
    show_default=True,
    help="Share of the force that arrives past seals and guides.",
)
@units_option
@json_option
def command(
    *,
    bore: str | None,
    rod: str | None,
    pressure: str | None,
    force: str | None,
    flow: str | None,
    efficiency: str,
    units: str | None,
    as_json: bool,
) -> int:
    """Turn pressure into force and back for a cylinder.

    State two or more of them with their units, for example: strapwright force --bore '4 in'
    --pressure '2500 psi'. A bare number needs --units.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.cylinder_figures import (  # noqa: PLC0415
        NO_FRICTION,
        answers,
        cautions,
        read_cylinder,
    )

    given = read_cylinder(
        bore=bore,
        rod=rod,
        pressure=pressure,
        force=force,
        flow=flow,
        efficiency=efficiency,
        units=units,
    )
    found = answers(given)
    if as_json:
        data = {"format": 1, **{one.key: one.value for one in found}, "estimate": cautions()}
        click.echo(to_text(data), nl=False)
        return 0
    for one in found:
        click.echo(f"{one.name:<16} {one.text(None)}")
    if given.efficiency == 1.0:
        click.echo(NO_FRICTION)
    click.echo(cautions())
    return 0
