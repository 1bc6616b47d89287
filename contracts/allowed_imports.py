"""A contract for import-linter: some modules import what is named, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fnmatch import fnmatchcase
from typing import Any

from grimp import ImportGraph
from importlinter import Contract, ContractCheck, fields, output
from importlinter.application import contract_utils


class AllowedImports(Contract):
    """Everything that the modules import directly stands in a list.

    The linter's own kinds of contract name what is forbidden, and let through what nobody thought
    of; this one is the other way about.

    Configuration options:

    - ``modules``: whose imports are judged, each with all modules beneath it.  ``*`` stands for
      any text, dots too: ``strapwright.*.kernel_*``.
    - ``allowed``: what they may import, written likewise.  They may always import each other.
    - ``judged``: ``outside`` judges imports from outside the project alone, the standard library
      among them; ``inside`` those of the project's own modules alone; ``all`` both.
    - ``ignore_imports``, ``unmatched_ignore_imports_alerting``: as in the linter's own contracts.
    """

    type_name = "allowed"

    modules: Any = fields.ListField(subfield=fields.StringField())
    allowed: Any = fields.ListField(subfield=fields.StringField())
    judged: Any = fields.StringField()
    ignore_imports: Any = fields.SetField(subfield=fields.ImportExpressionField(), required=False)
    unmatched_ignore_imports_alerting: Any = fields.EnumField(
        contract_utils.AlertLevel, default=contract_utils.AlertLevel.ERROR
    )

    def check(self, graph: ImportGraph, verbose: bool) -> ContractCheck:  # noqa: ARG002
        """Hold every direct import of the modules to the list."""
        if self.judged not in ("outside", "inside", "all"):
            raise ValueError(f"judged = {self.judged!r}: write outside, inside or all")
        warnings = contract_utils.remove_ignored_imports(
            graph, self.ignore_imports, self.unmatched_ignore_imports_alerting
        )
        # A package that was renamed must not slip out of its contract.
        for pattern in self.modules:
            if not any(_matches(name, (pattern,)) for name in graph.modules):
                raise ValueError(f"{self.name}: there is no module {pattern}")
        broken = sorted(self._broken(graph))
        return ContractCheck(kept=not broken, warnings=warnings, metadata={"broken": broken})

    def render_broken_contract(self, check: ContractCheck) -> None:
        """Print what was imported, by whom, and in which lines."""
        for importer, imported, lines in check.metadata["broken"]:
            output.print_error(f"{importer} may not import {imported} ({lines})", bold=False)
        output.new_line()

    def _broken(self, graph: ImportGraph) -> Iterator[tuple[str, str, str]]:
        roots: set[Any] = set(self.session_options["root_packages"])
        for importer in graph.modules:
            if not _matches(importer, self.modules):
                continue
            for imported in graph.find_modules_directly_imported_by(importer):
                own = imported.partition(".")[0] in roots
                if self.judged == ("outside" if own else "inside"):
                    continue
                if _matches(imported, (*self.modules, *self.allowed)):
                    continue
                details = graph.get_import_details(importer=importer, imported=imported)
                lines = ", ".join(f"line {one['line_number']}" for one in details)
                yield importer, imported, lines


def _matches(name: str, patterns: Iterable[str]) -> bool:
    return any(fnmatchcase(name, one) or fnmatchcase(name, f"{one}.*") for one in patterns)
