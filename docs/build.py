"""Build the handbook into ``out/docs``; a warning is an error."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import make_key_tables

ROOT = Path(__file__).resolve().parent.parent


def main() -> int:
    """Build, and say where the first page is."""
    make_key_tables.main()
    out = ROOT / "out" / "docs"
    command = [sys.executable, "-m", "sphinx", "-q", "-W", "--keep-going", "-b", "html"]
    done = subprocess.run([*command, str(ROOT / "docs"), str(out)], check=False)  # noqa: S603
    if done.returncode == 0:
        print(f"The handbook is in {out / 'index.html'}")  # noqa: T201
    return done.returncode


if __name__ == "__main__":
    sys.exit(main())
