"""Coverage of the core by line and branch, the compiled loops included.

Run by ``.venv/bin/python .ci/core_coverage.py``.  A compiled loop is invisible to the measurement,
and with the compiler off the bands, of 512 bars a bend, would take an hour.  So two runs are added
up: all tests of the core as they are, and those that reach every loop with the compiler off.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
CORE = ("quantities", "catalog", "shop", "bending", "blank", "ordering", "strength")
CORE += ("making", "midline", "cutting", "shop_files", "planning", "proposing", "motion")
COMPILED = ("tests/unit", "tests/property", "tests/published")
# Every kernel of bending in a few seconds without the compiler; no test here draws 512 bars.
UNCOMPILED = (
    "tests/property/test_stroke.py",
    "tests/unit/test_released_shape.py",
    "tests/unit/test_bend_band.py::test_draws_that_jam_are_told_apart",
    "tests/reference/test_closed_forms.py",
    "tests/reference/test_width_rule.py",
)


def measure(folder: Path, tests: tuple[str, ...], **more: str) -> int:
    """Run tests under measurement, and return pytest's exit code."""
    environment = dict(os.environ, COVERAGE_FILE=str(folder / ".coverage"), **more)
    command = [sys.executable, "-m", "coverage", "run", "--parallel-mode", "-m", "pytest", "-q"]
    return subprocess.call([*command, "-p", "no:cacheprovider", *tests], cwd=ROOT, env=environment)


def coverage(folder: Path, *words: str) -> None:
    """Run one of coverage's own commands on what was measured."""
    environment = dict(os.environ, COVERAGE_FILE=str(folder / ".coverage"))
    subprocess.run(
        [sys.executable, "-m", "coverage", *words],
        cwd=ROOT,
        env=environment,
        check=True,
        stdout=subprocess.DEVNULL,
    )


def share(done: int, whole: int) -> str:
    """Percentage, rounded down so that 100 % means all."""
    return f"{1000 * done // whole / 10:.1f} %" if whole else "-"


def report(folder: Path) -> None:
    """Print lines and branches of each package, and what its worst file lacks."""
    coverage(folder, "json", "-o", str(folder / "core.json"))
    files = json.loads((folder / "core.json").read_text(encoding="utf-8"))["files"]
    print(f"{'':<12}{'lines':>9}{'branches':>10}  least covered")
    for package in CORE:
        marker = f"strapwright/{package}/"
        found = {k: v["summary"] for k, v in files.items() if marker in Path(k).as_posix()}
        if not found:
            continue
        total = {
            key: sum(one[key] for one in found.values())
            for key in ("covered_lines", "num_statements", "covered_branches", "num_branches")
        }
        worst = min(found, key=lambda name: found[name]["percent_covered"])
        missing = files[worst]["missing_lines"]
        shown = ", ".join(map(str, missing[:8])) + (" ..." if len(missing) > 8 else "")
        lacks = f"; lines {shown}" if missing else ""
        print(
            f"{package:<12}{share(total['covered_lines'], total['num_statements']):>9}"
            f"{share(total['covered_branches'], total['num_branches']):>10}  "
            f"{Path(worst).name} {found[worst]['percent_covered']:.0f} %{lacks}"
        )


def main() -> int:
    """Measure twice, add up, report; the exit code is that of the first tests that fail."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for tests, more in ((COMPILED, {}), (UNCOMPILED, {"NUMBA_DISABLE_JIT": "1"})):
            code = measure(folder, tests, **more)
            if code != 0:
                return code
        coverage(folder, "combine")
        report(folder)
    return 0


if __name__ == "__main__":
    sys.exit(main())
