"""The page of licences: every pinned package is on it, under terms that the project may pass on."""

from __future__ import annotations

import re
import sys
from importlib.metadata import PackageNotFoundError
from pathlib import Path

DOCS = Path(__file__).parents[2] / "docs"
sys.path.append(str(DOCS))

from make_licences import LOCKS, PAGE, ROOT, licence, pinned  # noqa: E402  # a script, no package

# Terms that allow use and passing on beside a program under MIT, each file under its own.
ALLOWED = {
    "0BSD", "Apache-2.0", "Apache-2.0 WITH LLVM-exception", "Apache Software License", "BSD",
    "BSD-2-Clause", "BSD-3-Clause", "BSD License", "CC0-1.0", "MIT", "MIT-0", "MIT License",
    "Mozilla Public License 2.0 (MPL 2.0)", "PSF-2.0", "SIL Open Font License 1.1 (OFL-1.1)",
    "Zlib",
}  # fmt: skip


def stated() -> dict[str, str]:
    """Give what the page says of each package."""
    rows = re.findall(r"^\| (\S+) \| (.+) \|$", PAGE.read_text("utf-8"), re.MULTILINE)
    return {name: terms for name, terms in rows if name != "package"}


def test_every_pinned_package_is_on_the_page_and_no_other() -> None:
    locked = {name for lock in LOCKS for name in pinned(ROOT / lock)}
    assert locked == set(stated()), "run python docs/make_licences.py"


def test_the_page_says_what_the_packages_state() -> None:
    for name, terms in stated().items():
        try:
            assert licence(name) == terms, f"{name}: run python docs/make_licences.py"
        except PackageNotFoundError:
            continue  # pinned for another Python than this one


def test_every_licence_is_one_that_may_be_passed_on() -> None:
    unknown = {
        name: term
        for name, terms in stated().items()
        for term in re.split(r" AND | OR ", terms)
        if term not in ALLOWED
    }
    assert unknown == {}
