"""Groups whose commands are loaded when they are called, so that help comes at once."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import click


class LazyGroup(click.Group):
    """Commands by name, each in a module of its own with an object ``command``.

    Subclasses state ``summaries``, name -> one line, in the order of use, ``prefix``, the dotted
    start of the modules' names, and in ``modules`` those that have another name than the command.
    """

    summaries: Mapping[str, str]
    prefix: str
    modules: Mapping[str, str] = MappingProxyType({})

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

        module = self.modules.get(cmd_name, cmd_name)
        command: click.Command = import_module(self.prefix + module).command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(self.summaries.items()))
