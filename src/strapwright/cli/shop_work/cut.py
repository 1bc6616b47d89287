"""``strapwright cut``: which bar each blank is sawn from."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from strapwright.cli.options import ask_patience, crib_option, json_option, rates_option


@click.command("cut")
@click.argument(
    "jobs", metavar="JOB.toml [JOB2.toml ...]", nargs=-1, type=click.Path(path_type=Path)
)
@click.option(
    "--rack",
    metavar="RACK.toml",
    type=click.Path(path_type=Path),
    help="The bars and off-cuts you have, and what your supplier sells.",
)
@crib_option
@rates_option
@click.option("--tooling", is_flag=True, help="Also cut the rounds and plates of the tooling.")
@click.option(
    "--seconds", type=float, default=9.0, show_default=True, help="Longest time for one bar size."
)
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Also write cuts.csv and a drawing of every bar into this folder.",
)
@click.option(
    "--confirm", metavar="MARK", help="The plan with this mark was sawn: take its bars off the "
    "rack file and lay the off-cuts back."
)  # fmt: skip
@click.option("--undo", is_flag=True, help="Put the rack file back as before the last --confirm.")
@json_option
def command(
    *,
    jobs: tuple[Path, ...],
    rack: Path | None,
    crib: Path | None,
    rates: Path | None,
    tooling: bool,
    seconds: float,
    out: Path | None,
    confirm: str | None,
    undo: bool,
    as_json: bool,
) -> int:
    """Say which bar every blank is sawn from, with the fewest bars bought.

    Takes the blanks of all jobs named, bar size by bar size; off-cuts go first. Says for each bar
    where every piece ends, what is left, and whether fewer bars could do.
    """
    from strapwright.errors import InputError  # noqa: PLC0415
    from strapwright.service.cut_jobs import cut_files  # noqa: PLC0415
    from strapwright.service.cut_papers import cut_papers, write_cut  # noqa: PLC0415
    from strapwright.service.rack_after_cut import confirm_cut, undo_cut  # noqa: PLC0415

    if (confirm is not None or undo) and rack is None:
        raise InputError(
            "--rack", "no rack file is named, so there is none to change", "write --rack RACK.toml"
        )
    if undo and rack is not None:
        undo_cut(rack)
        click.echo(f"{rack} is as it was before the cut.")
        return 0
    if not jobs:
        raise InputError(
            "JOB.toml", "no job is named", "write strapwright cut and then the job files"
        )
    ask_patience()
    order = cut_files(
        jobs, rack=rack, crib=crib, rates=rates, tooling=tooling, seconds=seconds,
        told=_tell if sys.stderr.isatty() else None,
    )  # fmt: skip
    papers = cut_papers(order, rack)
    booked = [] if confirm is None or rack is None else [confirm_cut(rack, order, confirm)]
    written = () if out is None else write_cut(order, papers, out)
    click.echo(papers.json if as_json else papers.text, nl=False)
    said = [f"Wrote {len(written)} files into {out}"] if written else []
    said += [
        "Nothing on the rack changed."
        if kept is None
        else f"The rack is changed; as it was before is in {kept}. --undo puts it back."
        for kept in booked
    ]
    for line in said:
        click.echo(line, err=as_json)
    return 0 if all(cuts.plan.proven for cuts in order.sections) else 3


def _tell(name: str, bought: int, least: int) -> None:
    click.echo(f"{name}: {bought} to buy, at least {least}", err=True)
