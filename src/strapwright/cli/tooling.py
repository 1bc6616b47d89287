"""``strapwright tooling``: the commands about a tooling, loaded when they are called."""

from __future__ import annotations

import click

_COMMANDS = {
    "check": "Hold every member to every load.",
    "propose": "Propose a tooling from what lies on the rack.",
    "make": "Draw plates and shafts, list their holes, say each step.",
}


class ToolingCommands(click.Group):
    """Commands about a tooling."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands in the order of use."""
        del ctx
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        del ctx
        if cmd_name not in _COMMANDS:
            return None
        from importlib import import_module  # noqa: PLC0415  a command is loaded when called

        command: click.Command = import_module(f"strapwright.cli.tooling_{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(_COMMANDS.items()))


@click.group(
    "tooling", cls=ToolingCommands, context_settings={"help_option_names": ["-h", "--help"]}
)
def command() -> None:
    """Check a tooling, propose one from the rack, make it.

    Every strength is an estimate for planning and not a certification; local codes and licensed
    practice go before it.
    """
