"""``strapwright check``: only what a plan finds."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, job_argument, json_option


@click.command("check")
@job_argument
@json_option
def command(*, job: Path, as_json: bool) -> int:
    """Show only the notes, warnings and refusals of a plan."""
    from strapwright.service.plan_files import falls_short, plan_job  # noqa: PLC0415

    ask_patience()
    plan = plan_job(job)
    if as_json:
        from strapwright.report.json_text import to_text  # noqa: PLC0415
        from strapwright.report.plan_json import plan_to_data  # noqa: PLC0415

        data = plan_to_data(plan)
        click.echo(to_text({name: data[name] for name in ("format", "part", "findings")}), nl=False)
    else:
        from strapwright.report.plan_text import findings_to_text  # noqa: PLC0415

        click.echo(findings_to_text(plan), nl=False)
    return 3 if falls_short(plan) else 0
