"""``strapwright materials``: the metals of the catalog."""

from __future__ import annotations

import click

from strapwright.cli.options import json_option


@click.command("materials")
@json_option
def command(*, as_json: bool) -> int:
    """List the metals of the catalog: yield, smallest inside radius, and how each is known.

    Names and aliases in the JSON are what a job file may write.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.metal_list import metals_to_data, metals_to_text  # noqa: PLC0415

    click.echo(to_text(metals_to_data()) if as_json else metals_to_text(), nl=False)
    return 0
