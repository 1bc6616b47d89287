"""``strapwright lot``: bar lots, presses and toolings as the log knows them."""

from __future__ import annotations

from pathlib import Path

import click

from strapwright.cli.options import ask_patience, job_argument, json_option, store_option


@click.group("lot", context_settings={"help_option_names": ["-h", "--help"]})
def command() -> None:
    """Bar lots, presses and toolings, which several jobs share.

    A job takes a lot by the name of its file: lot = "rack 2.toml" at its head.
    """


@command.command("list")
@store_option
@json_option
def show(*, folder: Path | None, as_json: bool) -> int:
    """List bar lots, presses and tooling with the jobs and the lines of the log of each."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.things import list_things  # noqa: PLC0415
    from strapwright.service.shop_log.things_text import (  # noqa: PLC0415
        things_to_data,
        things_to_text,
    )

    found = list_things(folder)
    click.echo(to_text(things_to_data(found)) if as_json else things_to_text(found), nl=False)
    return 0


@command.command("new")
@click.argument("name")
@store_option
def new(*, name: str, folder: Path | None) -> int:
    """Keep a new bar lot, without a certificate."""
    from strapwright.service.shop_log.things import new_lot  # noqa: PLC0415

    click.echo(f'Kept. Write this at the head of a job: lot = "{new_lot(folder, name)}"')
    return 0


@command.command("merge")
@click.argument("lot", metavar="LOT.toml")
@click.argument("into", metavar="INTO.toml")
@store_option
def merge(*, lot: str, into: str, folder: Path | None) -> int:
    """Make one lot of two; jobs and log lines of the first count as the second."""
    from strapwright.service.shop_log.things import merge_lots  # noqa: PLC0415

    count = merge_lots(folder, lot, into)
    lines = "1 line" if count == 1 else f"{count} lines"
    click.echo(f"{lot} is one with {into} now; {lines} of the log went over.")
    return 0


@command.command("split")
@click.argument("lot", metavar="LOT.toml")
@click.argument("name", metavar="NAME")
@click.option("--lines", required=True, metavar="N,N-N,..", help="Lines of the log that go over.")
@store_option
def split(*, lot: str, name: str, lines: str, folder: Path | None) -> int:
    """Make a new lot of some lines of another: it turned out to be another bar."""
    from strapwright.service.shop_log.things import read_lines, split_lot  # noqa: PLC0415

    numbers = read_lines(lines)
    file = split_lot(folder, lot, numbers, name)
    are = "1 line is" if len(numbers) == 1 else f"{len(numbers)} lines are"
    click.echo(f'{are} of a lot of their own now: lot = "{file}"')
    return 0


@command.command("retire")
@click.argument("name", metavar="FILE.toml")
@store_option
def put_away(*, name: str, folder: Path | None) -> int:
    """Put a lot, a press or tooling away; it is kept with its log."""
    from strapwright.service.shop_log.things import retire  # noqa: PLC0415

    click.echo(f"The {retire(folder, name)} is put away; its log is kept.")
    return 0


@command.command("grade")
@job_argument
@click.option("--magnet", type=click.Choice(["yes", "no"]), help="Does a magnet hold?")
@click.option(
    "--spark", type=click.Choice(["long", "bursts", "short", "none"]), help="On a grinding wheel."
)
@click.option(
    "--scratch", type=click.Choice(["grey", "white", "red", "yellow"]), help="Colour, scratched."
)
@click.option("--file-skates", is_flag=True, help="A file does not bite.")
@store_option
@json_option
def grade(
    *, job: Path, file_skates: bool, folder: Path | None, as_json: bool, **seen: str | None
) -> int:
    """Say which grades a job's unknown bar may be, and what to test next.

    Goes by the trial bends of its lot in the log and by the tests of the bench.
    """
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.unknown_bar import (  # noqa: PLC0415
        hard_to_text,
        unknown_to_data,
        unknown_to_text,
        what_it_may_be,
    )

    ask_patience()
    shown = {name: result for name, result in seen.items() if result is not None}
    if file_skates and not as_json:  # whatever the log says: it is not to be bent at all
        click.echo(hard_to_text(), nl=False)
        return 0
    found = what_it_may_be(job, folder, shown)
    if as_json:
        click.echo(to_text(unknown_to_data(found, skates=file_skates)), nl=False)
    else:
        click.echo(unknown_to_text(found), nl=False)
    return 0


@command.command("trial")
@job_argument
@click.option("--bend", required=True, type=int, metavar="N", help="Number of the bend.")
@store_option
@json_option
def trial(*, job: Path, bend: int, folder: Path | None, as_json: bool) -> int:
    """Say which trial bend of an off-cut tells most before the first good part."""
    from strapwright.report.json_text import to_text  # noqa: PLC0415
    from strapwright.service.shop_log.unknown_bar import (  # noqa: PLC0415
        trial_plan,
        trial_to_data,
        trial_to_text,
    )

    ask_patience()
    found = trial_plan(job, folder, bend)
    click.echo(to_text(trial_to_data(found)) if as_json else trial_to_text(found), nl=False)
    return 0
