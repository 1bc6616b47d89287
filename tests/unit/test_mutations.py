"""The runner of mutations: only a test that ran, and passes without the change, has caught it."""

from __future__ import annotations

import subprocess
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]


def runner() -> ModuleType:
    spec = spec_from_file_location("mutations", ROOT / ".ci" / "mutations.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


MUTATIONS = runner()
FAILED = "F\n=== short test summary info ===\nFAILED tests/unit/test_a.py::test_b - assert 1 == 2\n"
COLLECTED = "ERROR tests/unit/test_a.py - ModuleNotFoundError: No module named 'x'\n"


@pytest.mark.parametrize(
    ("code", "output", "kind"),
    [
        (0, "5 passed", "SURVIVES"),
        (1, FAILED, "caught"),
        (1, "", "NOT PROVEN"),
        (2, COLLECTED, "NOT PROVEN"),
        (3, "INTERNALERROR>", "NOT PROVEN"),
        (4, "ERROR: file or directory not found", "NOT PROVEN"),
        (5, "no tests ran", "NOT PROVEN"),
    ],
)
def test_only_a_test_that_failed_has_caught_a_change(code: int, output: str, kind: str) -> None:
    assert MUTATIONS.verdict(code, output).kind == kind


def test_the_test_that_failed_is_named_whole() -> None:
    named = "FAILED tests/unit/test_a.py::test_b[1 in, 2 in] - assert 1 == 2\n"
    assert MUTATIONS.verdict(1, named).why == "tests/unit/test_a.py::test_b[1 in, 2 in]"
    assert (
        MUTATIONS.verdict(1, named.partition(" - ")[0]).why
        == "tests/unit/test_a.py::test_b[1 in, 2 in]"
    )


@pytest.mark.parametrize(
    ("without", "kind"), [(0, "caught"), (1, "NOT PROVEN"), (None, "NOT PROVEN")]
)
def test_the_test_that_failed_has_to_pass_without_the_change(
    without: int | None, kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[Any] = []

    def run(command: list[str], env: dict[str, str], **_: Any) -> Any:
        asked.append(command[-1])
        if "MUTANT_MODULE" in env:
            return subprocess.CompletedProcess(command, 1, FAILED, "")
        if without is None:
            raise subprocess.TimeoutExpired(command, 1.0)
        return subprocess.CompletedProcess(command, without, FAILED if without else "", "")

    monkeypatch.setattr(MUTATIONS.subprocess, "run", run)
    change = next(MUTATIONS.changes_of(ROOT / "src" / "strapwright" / "strength" / "pins.py"))
    assert MUTATIONS.judged(change, tmp_path).kind == kind
    assert asked[1] == "tests/unit/test_a.py::test_b"


def test_a_run_that_takes_too_long_proves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def run(command: list[str], **_: Any) -> Any:
        raise subprocess.TimeoutExpired(command, 1.0)

    monkeypatch.setattr(MUTATIONS.subprocess, "run", run)
    change = next(MUTATIONS.changes_of(ROOT / "src" / "strapwright" / "strength" / "pins.py"))
    assert MUTATIONS.judged(change, tmp_path).kind == "NOT PROVEN"
