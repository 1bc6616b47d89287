"""After the exercise no loop that the ordering package calls is left to compile."""

from __future__ import annotations

import os
import subprocess
import sys

# In a process of its own: other tests have compiled what they use in this one.
LEFT = """
import importlib
import pkgutil
from numba.core.dispatcher import Dispatcher
import strapwright.ordering
from strapwright.ordering.exercise_kernels import exercise
exercise()
called = 0
for found in pkgutil.walk_packages(strapwright.ordering.__path__, "strapwright.ordering."):
    module = importlib.import_module(found.name)
    for key, value in vars(module).items():
        # What a compiled loop calls is compiled into it; what plain code imports is called by it.
        if isinstance(value, Dispatcher) and value.py_func.__module__ != module.__name__:
            if "kernel" in found.name:
                continue
            called += 1
            if not value.signatures:
                print(found.name, key)
assert called > 5
"""


def test_the_exercise_compiles_every_loop_that_plain_code_calls() -> None:
    compiled = {k: v for k, v in os.environ.items() if k != "NUMBA_DISABLE_JIT"}
    done = subprocess.run(
        [sys.executable, "-c", LEFT], capture_output=True, text=True, check=True, env=compiled
    )
    assert done.stdout == ""
