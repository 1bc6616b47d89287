"""``strapwright tooling``: the commands about a tooling, loaded when they are called."""

from __future__ import annotations

import click

from strapwright.cli.loading import LazyGroup

_COMMANDS = {
    "check": "Hold every member to every load.",
    "propose": "Propose a tooling from what lies on the rack.",
    "make": "Draw plates and shafts, list their holes, say each step.",
}


class ToolingCommands(LazyGroup):
    """Commands about a tooling."""

    summaries = _COMMANDS
    prefix = "strapwright.cli.tooling_"


@click.group(
    "tooling", cls=ToolingCommands, context_settings={"help_option_names": ["-h", "--help"]}
)
def command() -> None:
    """Check a tooling, propose one from the rack, make it.

    Every strength is an estimate for planning and not a certification; local codes and licensed
    practice go before it.
    """
