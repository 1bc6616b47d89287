"""Write ``docs/validation.md`` from the case files: every case, our figure, the verdict."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HEAD = """# Validation

Written by `python docs/make_validation.py` from the case files under `validation/cases`; run the
cases yourself with `python3 start.py validate`. *within*: inside the tolerance of the case file.
*flagged*: outside it, but inside the band that the plan states and with a remark that says why.

The stroke cases are finite elements; some of them helped to choose the solver's constants, so treat
their figures as fitted, not blind.

| kind | case | figures | verdict |
|---|---|---|---|
"""


def main() -> int:
    """Run the cases and write the page; fails where a case does."""
    done = subprocess.run(  # noqa: S603  our own script
        [sys.executable, str(ROOT / "validation" / "run.py")],
        capture_output=True,
        text=True,
        check=False,
    )
    rows = []
    for line in done.stdout.splitlines():
        words, _, verdict = line.rpartition(": ")
        kind, _, rest = words.partition(" ")
        if kind in ("stroke", "order", "freeing", "cut"):
            name, _, figures = rest.strip().partition(" ")
            rows.append(f"| {kind} | {name} | {figures.strip().replace('|', '/')} | {verdict} |")
    page = HEAD + "\n".join(rows) + f"\n\n{done.stdout.splitlines()[-1]}\n"
    (ROOT / "docs" / "validation.md").write_text(page, encoding="utf-8")
    return done.returncode


if __name__ == "__main__":
    sys.exit(main())
