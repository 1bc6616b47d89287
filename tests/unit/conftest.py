"""Let tests of this folder share plans made by hand, and the program's text as trees."""

import gc
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent))

from source_trees import parsed


@pytest.fixture(scope="module")
def trees_are_kept() -> Iterator[None]:
    """Most of the time of parsing goes into looking for what can be thrown away; nothing can."""
    gc.disable()
    yield
    parsed.cache_clear()
    gc.enable()
    gc.collect()
