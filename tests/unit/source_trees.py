"""The program's text as trees, parsed once for all tests of a module that look at it."""

from __future__ import annotations

import ast
from functools import cache


@cache
def parsed(text: str) -> ast.Module:
    """Nobody may change what comes back."""
    return ast.parse(text)
