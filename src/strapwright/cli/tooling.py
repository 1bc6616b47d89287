"""``strapwright tooling``: the commands about a tooling, loaded when they are called."""

from __future__ import annotations

import click

from strapwright.cli.loading import LazyGroup

_COMMANDS = {
    "check": "Check every member under every load.",
    "propose": "Find tooling from the stock on your rack.",
    "make": "Draw plates and shafts with hole lists and work steps.",
    "change": "Say how the press is changed from one tooling to another.",
}


class ToolingCommands(LazyGroup):
    """Commands about a tooling."""

    summaries = _COMMANDS
    prefix = "strapwright.cli.tooling_"


@click.group(
    "tooling", cls=ToolingCommands, context_settings={"help_option_names": ["-h", "--help"]}
)
def command() -> None:
    """Check a tooling, propose one from the rack, make it, change from one to another.

    Every strength is a planning estimate, not a certification. Local codes and licensed
    practice go before it.
    """
