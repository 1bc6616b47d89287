"""``strapwright log``: what was read at the press."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, job_argument, json_option, store_option


@click.group("log", context_settings={"help_option_names": ["-h", "--help"]})
def command() -> None:
    """Keep what you read at the press, and hear how to make the next part right.

    The log is kept in the store. It never overwrites a line: a correction keeps the old values.
    """


@command.command("add")
@job_argument
@click.option("--bend", required=True, type=int, metavar="N", help="Number of the bend.")
@click.option("--part", type=int, metavar="N", help="Which piece; default: the next one.")
@click.option("--travel", metavar="TRAVEL", help="From first contact; default: the plan's stop.")
@click.option("--angle", metavar="DEGREES", help="Bend angle measured after release.")
@click.option("--again", metavar="DEGREES", help="The same, measured again at the other edge.")
@click.option("--gauge", metavar="PRESSURE", help="Pressure gauge at the end of the push.")
@click.option("--loaded", metavar="DEGREES", help="Angle under load, pump off, from outside.")
@click.option("--radius", metavar="LENGTH", help="Inside radius, with a radius gauge.")
@click.option("--blank", metavar="LENGTH", help="Length of the blank as cut.")
@click.option("--legs", metavar="L1,L2,..", help="Every finished leg; metric: '127,5; 89'.")
@click.option("--minutes", metavar="MINUTES", help="To lay the part in, without the push.")
@click.option("--note", metavar="TEXT", help="Anything else.")
@click.option("--new-setup", is_flag=True, help="The tooling was put in again since the last line.")
@click.option("--sure", is_flag=True, help="Keep it although it looks wrong.")
@store_option
@json_option
def add(
    *,
    job: Path,
    bend: int,
    part: int | None,
    new_setup: bool,
    sure: bool,
    folder: Path | None,
    as_json: bool,
    **typed: str | None,
) -> int:
    """Keep one push: its travel and what you read.

    A reading that cannot be is asked about and not kept; with --sure it is. The answer says how
    much further to push this part, and where to stop with the next one.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.log_commands import add_line  # noqa: PLC0415
    from strapwright.service.shop_log.log_text import logged_to_data, logged_to_text  # noqa: PLC0415

    ask_patience()
    given = {name: text for name, text in typed.items() if text is not None}
    found = add_line(job, folder, given, bend=bend, part=part, sure=sure, new_mounting=new_setup)
    click.echo(to_text(logged_to_data(found)) if as_json else logged_to_text(found), nl=False)
    return 0 if found.entry is not None else 3


@command.command("list")
@job_argument
@store_option
@json_option
def show(*, job: Path, folder: Path | None, as_json: bool) -> int:
    """List what was logged of a job."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.log_commands import lines_of  # noqa: PLC0415
    from strapwright.service.shop_log.log_text import entry_to_data, log_to_text  # noqa: PLC0415

    found = lines_of(job, folder)
    if as_json:
        data = {"format": 1, "lines": [entry_to_data(one) for one in found]}
        click.echo(to_text(data), nl=False)
    else:
        click.echo(log_to_text(found), nl=False)
    return 0


@command.command("correct")
@job_argument
@click.option("--line", required=True, type=int, metavar="N", help="Number of the line.")
@click.option("--travel", metavar="TRAVEL", help="From first contact.")
@click.option("--angle", metavar="DEGREES", help="Bend angle measured after release.")
@click.option("--again", metavar="DEGREES", help="The same, measured again at the other edge.")
@click.option("--gauge", metavar="PRESSURE", help="Pressure gauge at the end of the push.")
@click.option("--loaded", metavar="DEGREES", help="Angle under load.")
@click.option("--minutes", metavar="MINUTES", help="To lay the part in, without the push.")
@click.option("--leave-out", is_flag=True, help="Keep it, but do not learn from it.")
@click.option("--count-again", is_flag=True, help="Learn from it again.")
@click.option("--sure", is_flag=True, help="Keep it although it looks wrong.")
@click.option("--why", default="", metavar="TEXT", help="Why, in your own words.")
@store_option
def correct(
    *,
    job: Path,
    line: int,
    leave_out: bool,
    count_again: bool,
    sure: bool,
    why: str,
    folder: Path | None,
    **typed: str | None,
) -> int:
    """Correct a line, or leave it out; the old values stay in the log.

    A reading that cannot be is asked about and not kept; with --sure it is.
    """
    from strapwright.errors import InputError  # noqa: PLC0415
    from strapwright.service.shop_log.log_commands import asked_of_line, correct_line  # noqa: PLC0415
    from strapwright.service.shop_log.log_text import log_to_text  # noqa: PLC0415

    if leave_out and count_again:
        raise InputError(
            "--leave-out", "a line cannot be left out and counted again at once", "give one of both"
        )
    counted = False if leave_out else True if count_again else None
    given = {name: text for name, text in typed.items() if text is not None}
    asked = () if sure else asked_of_line(job, folder, line, given)
    if asked:
        click.echo("\n".join([f"Not kept yet: line {line}.", *asked]))
        return 3
    states = correct_line(job, folder, line, given, counted=counted, why=why)
    click.echo(f"Line {line} now, then as it was before:")
    click.echo(log_to_text(states), nl=False)
    return 0


@command.command("csv")
@job_argument
@click.argument("target", metavar="FILE.csv", type=click.Path(path_type=Path))
@store_option
def export(*, job: Path, target: Path, folder: Path | None) -> int:
    """Write the log of a job as a table: mm, degrees, MPa."""
    from strapwright.service.shop_log.log_text import write_csv  # noqa: PLC0415

    count = write_csv(job, folder, target)
    click.echo(f"Wrote {'1 line' if count == 1 else f'{count} lines'} into {target}")
    return 0


@command.command("import")
@job_argument
@click.argument("table", metavar="FILE.csv", type=click.Path(path_type=Path))
@click.option("--sure", is_flag=True, help="Keep rows although they look wrong.")
@store_option
def import_lines(*, job: Path, table: Path, sure: bool, folder: Path | None) -> int:
    """Import a table of pushes into the log, a row each.

    Its first row names the columns: those of a log written with csv, or part, bend, travel, angle,
    again, gauge, loaded, radius, blank, legs, minutes and note. If a row cannot be read, none is
    imported. One that looks wrong is asked about and not kept.
    """
    from strapwright.service.shop_log.log_from_table import import_table  # noqa: PLC0415

    ask_patience()
    found = import_table(job, folder, table, sure=sure)
    for row, questions in found.asked:
        click.echo("\n".join([f"Not kept: row {row}.", *questions]))
    count = len(found.kept)
    click.echo(f"Kept {'1 line' if count == 1 else f'{count} lines'}.")
    return 3 if found.asked else 0


@command.command("chart")
@job_argument
@click.option("--bend", required=True, type=int, metavar="N", help="Number of the bend.")
@store_option
@json_option
def chart(*, job: Path, bend: int, folder: Path | None, as_json: bool) -> int:
    """Chart a bend over the parts of a batch, and say whether the set-up has moved."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.batch import batch_of_file  # noqa: PLC0415
    from strapwright.service.shop_log.batch_text import (  # noqa: PLC0415
        batch_to_data,
        batch_to_text,
    )

    ask_patience()
    found = batch_of_file(job, folder, bend)
    click.echo(to_text(batch_to_data(found)) if as_json else batch_to_text(found), nl=False)
    return 0
