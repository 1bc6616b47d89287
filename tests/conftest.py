"""Compiled loops go to the folder that carries the digest of the kernels, as for the commands.

What several kinds of test share lies beside this file.

No property has a deadline: how long an example takes belongs to the machine and who else is on it.
The matrices are small, and a second thread for them waits for a core that another test has: that
took nine tenths of the time of the comparisons with the chain.
"""

import os
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # read when numpy is imported

import pytest
from hypothesis import settings

from strapwright.service.compiler_cache import prepare_cache

sys.path.append(str(Path(__file__).parent))
prepare_cache()
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


@pytest.fixture(scope="session", autouse=True)
def own_starts() -> Iterator[dict[ModuleType, Any]]:
    """Let searches beside the pages be copies; gives how the program starts them, by module."""
    import warm_serving  # noqa: PLC0415  beside this file
    from strapwright.pages.long_work import (  # noqa: PLC0415  after the cache is prepared
        running_searches,
        searching_on,
    )

    own: dict[ModuleType, Any] = {one: one._started for one in (searching_on, running_searches)}
    searching_on._started = lambda: warm_serving.start_search("order_worker", text=False)
    running_searches._started = lambda: warm_serving.start_search("search_worker", text=True)
    yield own
    warm_serving.forget()


@pytest.fixture
def searches_start_anew(own_starts: dict[ModuleType, Any], monkeypatch: pytest.MonkeyPatch) -> None:
    """Let searches start as the program itself starts them."""
    for where, start in own_starts.items():
        monkeypatch.setattr(where, "_started", start)
