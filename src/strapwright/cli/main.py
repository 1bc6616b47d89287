"""The command ``strapwright`` and its exit codes.

Nothing heavy is imported here: ``--help`` must come at once.  Each command lives in a module of
its own and imports what it needs when it runs.
"""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Sequence

import click

from strapwright import __version__
from strapwright.cli.interrupts import leave_the_rest_unsaid, say_stopped
from strapwright.cli.loading import LazyGroup
from strapwright.cli.screens.written_plainly import write_plainly
from strapwright.errors import StrapwrightError, short_place
from strapwright.service.compiler_cache import prepare_cache

DONE = 0
BAD_INPUT = 2
REFUSED = 3

COMMANDS = {
    "plan": "Plan a part: blank, marks, each bend at the press.",
    "check": "Show only the notes, warnings and refusals of a plan.",
    "stroke": "Work out the stroke of one bend from figures alone.",
    "more": "A bend came out short: how much further to push.",
    "log": "Keep what you measure at the press; see how to go on.",
    "learned": "Show what the log taught about bar, press and tooling.",
    "lot": "Bar lots, presses and tooling: where used, merge, split, retire.",
    "force": "Convert gauge pressure to ram force and back.",
    "materials": "List the metals of the catalog.",
    "holes": "List the holes of plates from one corner, with cutters.",
    "fit": "Work out the fit of a shaft in a hole.",
    "tap": "Find the tap drill and its real percentage of thread.",
    "drill": "Find a drill by fraction, number, letter or millimetres.",
    "angles": "Print paper angle gauges to cut out.",
    "new": "Write a job file with comments to start from.",
    "demo": "Plan three parts of a harbour workshop.",
    "tooling": "Check tooling, find tooling from your stock, make tooling.",
    "cut": "Show which bar every blank is sawn from, with the fewest bars bought.",
    "quote": "Price a part at several quantities, with a sheet for the customer.",
    "payback": "Show after how many parts tooling has paid for itself.",
    "week": "Show which jobs are finished by their due date, and which to move.",
    "batch": "Plan every job file in a folder.",
    "study": "Plan a job with other sizes, metals, tooling or tolerances.",
    "serve": "Open the pages in a browser on this machine.",
    "backup": "Copy every job with all its versions into one file.",
    "restore": "Put a backup into an empty store.",
}


_IN_A_FOLDER = {
    "log": "shop_log.log",
    "learned": "shop_log.learned",
    "lot": "shop_log.lot",
    "batch": "many_jobs.planned_folder",
    "study": "many_jobs.study",
    "cut": "shop_work.cut",
    "quote": "shop_work.quote",
    "payback": "shop_work.paying_back",
    "week": "shop_work.week",
}


class Commands(LazyGroup):
    """Commands that are loaded when they are called."""

    summaries = COMMANDS
    prefix = "strapwright.cli."
    modules = _IN_A_FOLDER


@click.group(
    cls=Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Exit codes: 0 done; 2 the input cannot be used, one sentence on standard error says "
    "why, and nothing was written; 3 done, but the plan holds a refusal, a bend that cannot be "
    "made as entered, or leaves open whether the part comes off.",
)
@click.version_option(__version__, message="%(prog)s %(version)s")
@click.pass_context
def group(context: click.Context) -> None:
    """Plan bent bar parts for a small hydraulic press.

    Every figure is a planning estimate, not a certification. Local codes and licensed
    practice come first. Keep hands out of the pinch, wear eye protection, never go above relief.
    """
    if context.invoked_subcommand is None:
        click.echo(context.get_help())


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line.

    Parameters
    ----------
    arguments
        Words after the command's name; ``None`` takes them from the process.

    Returns
    -------
    int
        Exit code: 0 done, 2 bad input, 3 the plan holds a refusal or leaves open whether the part
        comes off, 130 the person stopped it.
    """
    words = list(sys.argv[1:] if arguments is None else arguments)
    write_plainly(words)
    try:
        note = prepare_cache()
        if note:
            click.echo(note, err=True)
        # Not by the library's own way in, which has other words and codes for what goes wrong.
        with group.make_context("strapwright", words) as context:
            code = group.invoke(context)
        if sys.stdout is not None:
            sys.stdout.flush()  # while what the system says of it can still be told
    except (StrapwrightError, click.ClickException) as error:
        said = error.format_message() if isinstance(error, click.ClickException) else str(error)
        return _refuse(said)
    except click.exceptions.Exit as asked:  # help or the version was shown
        return asked.exit_code
    except (KeyboardInterrupt, click.Abort):
        return say_stopped()
    except BrokenPipeError:
        # The reader (head, a pager) has seen enough.
        leave_the_rest_unsaid(sys.stdout)
        return DONE
    except OSError as error:
        if error.filename is None:  # of the stream that the answer goes to, not of a file
            leave_the_rest_unsaid(sys.stdout)
        return _refuse(_of_the_system(error))
    return code if isinstance(code, int) else DONE


def _of_the_system(error: OSError) -> str:
    """Say what the system would not do, where no step of the command had words of its own."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "There is no room left to write the answer; free some and ask again."
    what = "" if error.filename is None else f"{short_place(os.fsdecode(error.filename))}: "
    why = error.strerror or str(error)
    return (
        f"{what}the system says: {why[:1].lower()}{why[1:200]}; check the name, its folder and "
        "your permissions, then ask again."
    )


def _refuse(sentence: str) -> int:
    try:
        click.echo(" ".join(sentence.split()), err=True)
    except OSError:  # nobody may listen there, and the code says it too
        leave_the_rest_unsaid(sys.stderr)
    return BAD_INPUT
