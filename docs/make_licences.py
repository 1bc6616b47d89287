"""Write ``docs/licences.md``: the licence of every package that a pinned install brings along.

Run by ``python docs/make_licences.py`` in the project's environment.  What a package states stands
in its own metadata: the expression if it has one, then the classifier, then the short name.
"""

from __future__ import annotations

import re
from importlib.metadata import distribution
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "licences.md"
LOCKS = {
    "requirements.lock": "What the program runs with",
    "requirements-many.lock": "What folders of jobs and studies add",
}
LONGEST = 60  # characters; a longer field is a whole text, not a name
HEAD = """# Licences

Strapwright itself is under the MIT licence: `LICENSE` in its folder. The packages that it installs
stay under their own, as their metadata state it; each brings its text along in the environment.
Wheels of NumPy, SciPy and Shapely carry compiled libraries under their own terms, which stand in
the texts of these packages.

Written by `python docs/make_licences.py`.
"""


def pinned(lock: Path) -> tuple[str, ...]:
    """Give the names of a lock, each once, as the lock has them."""
    found = re.findall(r"^([A-Za-z0-9._-]+)==", lock.read_text("utf-8"), re.MULTILINE)
    return tuple(dict.fromkeys(found))


def licence(name: str) -> str:
    """Give what a package states, on one line; '' where it states nothing."""
    about = distribution(name).metadata
    stated = about.get("License-Expression") or ""
    classes = [
        one.split("::")[-1].strip()
        for one in about.get_all("Classifier") or []
        if one.startswith("License ::")
    ]
    short = (about.get("License") or "").strip()
    return stated or ", ".join(classes) or (short if len(short) <= LONGEST else "")


def page() -> str:
    """Give the whole page."""
    parts = [HEAD]
    for lock, title in LOCKS.items():
        rows = "".join(f"| {name} | {licence(name)} |\n" for name in pinned(ROOT / lock))
        parts.append(f"\n## {title}\n\n| package | licence |\n|---|---|\n{rows}")
    return "".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
