"""Make the chart that the page on many jobs shows: ``python docs/make_study_pictures.py``."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from strapwright.cli.main import main as command

HERE = Path(__file__).resolve().parent
STUDY = HERE / "examples" / "studies" / "shelf-bracket-opening.toml"


def main() -> int:
    """Plan the study and keep one of its charts; return the exit code."""
    with tempfile.TemporaryDirectory() as there:
        command(["study", str(STUDY), "--out", there, "--json"])
        for theme in ("dark", "light"):
            drawn = (Path(there) / f"gauge.{theme}.svg").read_bytes()
            (HERE / "pictures" / f"study-gauge.{theme}.svg").write_bytes(drawn)
    return 0


if __name__ == "__main__":
    sys.exit(main())
