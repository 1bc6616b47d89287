"""The one place where loops are handed to the compiler.

Caches are kept per source file, so a change in a called file elsewhere would leave a stale caller;
the edge therefore keys the cache directory by a digest of the kernels
(:mod:`strapwright.service.compiler_cache`).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

F = TypeVar("F", bound=Callable[..., Any])


def jit(function: F) -> F:
    """Compile ``function`` without Python objects, cached on disk; it guards its divisions itself.

    Other threads run while it does: it holds no Python object.
    """
    return cast("F", numba.njit(cache=True, nogil=True, error_model="numpy")(function))
