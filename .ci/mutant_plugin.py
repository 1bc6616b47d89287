"""A pytest plugin that gives one module another text; see ``mutations.py``.

``MUTANT_MODULE`` is its dotted name, ``MUTANT_SOURCE`` the file with the text.
"""

from __future__ import annotations

import importlib.util
import os
import sys
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec
from types import ModuleType


class _Other(MetaPathFinder):
    """Finds the one module in its other file."""

    def find_spec(
        self,
        fullname: str,
        path: Sequence[str] | None = None,  # noqa: ARG002 - as the import system asks
        target: ModuleType | None = None,  # noqa: ARG002 - as the import system asks
    ) -> ModuleSpec | None:
        if fullname != os.environ["MUTANT_MODULE"]:
            return None
        return importlib.util.spec_from_file_location(fullname, os.environ["MUTANT_SOURCE"])


sys.meta_path.insert(0, _Other())
sys.dont_write_bytecode = True
