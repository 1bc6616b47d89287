"""``strapwright demo``: three parts of a harbour workshop."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, json_option


@click.command("demo")
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path),
    default=Path("strapwright-demo"),
    show_default=True,
    help="Where the plans are written, a folder a part.",
)
@json_option
def command(*, out: Path, as_json: bool) -> int:
    """Plan three parts of a harbour workshop and print the first.

    The workshop is invented; its job files are copied beside their plans, to be changed.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.report.plan_json import plan_to_data  # noqa: PLC0415
    from strapwright.report.plan_text import plan_to_text  # noqa: PLC0415
    from strapwright.service.demo import run_demo  # noqa: PLC0415
    from strapwright.service.plan_files import falls_short  # noqa: PLC0415

    ask_patience()
    plans = run_demo(out)
    if as_json:
        data = {"format": 1, "plans": {name: plan_to_data(plan) for name, plan in plans.items()}}
        click.echo(to_text(data), nl=False)
    else:
        name, first = next(iter(plans.items()))
        click.echo(plan_to_text(first), nl=False)
        rest = [other for other in plans if other != name]
        click.echo(f"\nDrawings, sheet and job file of this part are in {out / name}")
        click.echo("To look at it in a browser: python3 start.py serve")
        click.echo(f"The other parts are in {' and '.join(str(out / other) for other in rest)}")
    return 3 if any(falls_short(plan) for plan in plans.values()) else 0
