"""Groups whose commands are loaded when they are called, so that help comes at once."""

from __future__ import annotations

from collections.abc import Mapping

import click


class LazyGroup(click.Group):
    """Commands by name, each in a module of its own with an object ``command``.

    Subclasses state ``summaries``, name -> one line, in the order of use, and ``prefix``, the
    dotted start of the modules' names.
    """

    summaries: Mapping[str, str]
    prefix: str

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands in the order of use."""
        del ctx
        return list(self.summaries)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        del ctx
        if cmd_name not in self.summaries:
            return None
        from importlib import import_module  # noqa: PLC0415  a command is loaded when called

        command: click.Command = import_module(f"{self.prefix}{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(self.summaries.items()))
