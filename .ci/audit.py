"""Ask the registry's client and the advisory service about every pinned package.

Run by ``.venv/bin/python .ci/audit.py``.  The installer is asked, with a dry run over each lock,
whether it would still install every pin by its hash and whether one was withdrawn by its makers;
``pip-audit``, fetched into an environment of its own, is asked for known weaknesses.  Exits with 1
where a pin was withdrawn or has a known weakness, and with 2 where the advisory service gave no
answer for some: nothing is then known of those.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCKS = ("requirements.lock", "requirements-many.lock", "requirements-dev.lock")


def withdrawn(python: Path, lock: Path) -> tuple[int, list[str]]:
    """Give how many pins of a lock this Python would install, and which were withdrawn."""
    done = subprocess.run(
        [python, "-m", "pip", "install", "--dry-run", "--ignore-installed", "--no-deps", "--quiet",
         "--require-hashes", "--only-binary", ":all:", "-r", lock, "--report", "-"],
        check=False, capture_output=True, text=True,
    )  # fmt: skip
    if done.returncode != 0:
        raise SystemExit(f"{lock.name} can no longer be installed:\n{done.stderr}")
    found = json.loads(done.stdout)["install"]
    names = [
        f"{one['metadata']['name']} {one['metadata']['version']}"
        for one in found
        if one.get("is_yanked", False)
    ]
    return len(found), names


def weaknesses(auditor: Path, lock: Path) -> tuple[int, list[str], list[str]]:
    """Give how many pins were looked up, the weaknesses known, and the pins nothing is known of."""
    done = subprocess.run(
        [auditor, "--requirement", lock, "--require-hashes", "--disable-pip", "--format", "json",
         "--progress-spinner", "off"],
        check=False, capture_output=True, text=True,
    )  # fmt: skip
    if not done.stdout.strip():
        raise SystemExit(f"{lock.name} could not be looked up:\n{done.stderr}")
    every = json.loads(done.stdout)["dependencies"]
    known = [one for one in every if "skip_reason" not in one]
    unknown = [one["name"] for one in every if "skip_reason" in one]
    weak = [
        f"{one['name']} {one['version']}: {flaw['id']}, mended in {', '.join(flaw['fix_versions'])}"
        for one in known
        for flaw in one["vulns"]
    ]
    return len(known), weak, unknown


def main() -> int:
    """Ask about every lock and say what came back."""
    bad = unanswered = False
    with tempfile.TemporaryDirectory() as name:
        subprocess.run([sys.executable, "-m", "venv", name], check=True)
        programs = Path(name) / ("Scripts" if sys.platform == "win32" else "bin")
        subprocess.run(
            [programs / "python", "-m", "pip", "install", "--quiet", "pip-audit"], check=True
        )
        for lock in (ROOT / lock for lock in LOCKS):
            count, gone = withdrawn(programs / "python", lock)
            print(f"{lock.name}: {count} pins can be installed here by their hashes")
            print(f"  withdrawn by their makers: {', '.join(gone) or 'none'}")
            looked_up, weak, unknown = weaknesses(programs / "pip-audit", lock)
            print(f"  looked up for known weaknesses: {looked_up}")
            for line in weak:
                print(f"  WEAK {line}")
            if unknown:
                print(f"  NO ANSWER for {len(unknown)}: nothing is known of them")
            bad = bad or bool(gone or weak)
            unanswered = unanswered or bool(unknown)
    return 1 if bad else 2 if unanswered else 0


if __name__ == "__main__":
    sys.exit(main())
