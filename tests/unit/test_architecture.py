"""What holds the project together: layers, sizes, documented findings, locks."""

from __future__ import annotations

import ast
import itertools
import os
import re
import shutil
import statistics
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version
from source_trees import parsed

import strapwright

pytestmark = pytest.mark.usefixtures("trees_are_kept")

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "strapwright"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
MODULES = sorted(SOURCE.rglob("*.py"))


def project_files() -> list[Path]:
    if (ROOT / ".git").exists():
        listed = subprocess.run(
            # a checkout owned by another user is read all the same
            ["git", "-c", "safe.directory=*", "ls-files", "-z"],
            cwd=ROOT,
            check=True,
            capture_output=True,
            text=True,
        ).stdout.split("\0")
        files = [ROOT / name for name in listed if name]
    else:
        kept = ("src", "tests", "docs", "validation", "benchmarks", ".ci", "contracts")
        files = [path for name in kept for path in (ROOT / name).rglob("*")]
        files += ROOT.glob("*")
    return [path for path in files if path.is_file() and "__pycache__" not in path.parts]


def test_modules_are_short() -> None:
    lines = {
        str(path.relative_to(SOURCE)): len(path.read_text(encoding="utf-8").splitlines())
        for path in MODULES
        if path.name != "__init__.py"
    }
    assert {name: count for name, count in lines.items() if count > 400} == {}
    assert statistics.median(lines.values()) < 200


def test_no_two_modules_share_a_name() -> None:
    seen: dict[str, list[str]] = {}
    for path in MODULES:
        if (
            path.name != "__init__.py" and path.parent.name != "cli"
        ):  # those are named as their verbs
            seen.setdefault(path.stem, []).append(str(path.relative_to(SOURCE)))
    assert {name: paths for name, paths in seen.items() if len(paths) > 1} == {}


def test_no_folder_is_a_heap() -> None:
    counts: dict[str, int] = {}
    for path in MODULES:
        if path.name != "__init__.py":
            folder = str(path.parent.relative_to(SOURCE))
            counts[folder] = counts.get(folder, 0) + 1
    assert {folder: count for folder, count in counts.items() if count > 25} == {}


def test_every_package_says_what_it_is_for() -> None:
    folders = {path.parent for path in MODULES}
    silent = [
        str(folder.relative_to(SOURCE))
        for folder in folders
        if not (folder / "__init__.py").exists()
        or len(
            ast.get_docstring(parsed((folder / "__init__.py").read_text(encoding="utf-8"))) or ""
        )
        < 20
    ]
    assert silent == []


def test_every_part_of_the_package_has_its_layer() -> None:
    parts = {
        f"strapwright.{path.stem}"
        for path in SOURCE.iterdir()
        if path.name != "__init__.py"
        and (path.suffix == ".py" or (path.is_dir() and (path / "__init__.py").exists()))
    }
    (layered,) = (
        contract["layers"]
        for contract in PROJECT["tool"]["importlinter"]["contracts"]
        if contract["type"] == "layers"
    )
    assert {name for layer in layered for name in layer.split(" | ")} == parts


def lint_imports(root: Path, *options: str) -> subprocess.CompletedProcess[str]:
    command = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    assert command is not None
    return subprocess.run(
        [command, "--config", "pyproject.toml", *options],
        cwd=root,
        env={**os.environ, "PYTHONPATH": str(root / "src"), "COLUMNS": "300"},
        check=False,
        capture_output=True,
        text=True,
    )


def test_import_contracts_hold() -> None:
    done = lint_imports(ROOT, "--no-cache")
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def copied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("copied")
    shutil.copy(ROOT / "pyproject.toml", root)
    for folder in ("src", "contracts"):
        shutil.copytree(ROOT / folder, root / folder, ignore=shutil.ignore_patterns("__pycache__"))
    return root


CORE = "the core works with values alone"
KERNELS = "kernels are numbers in, numbers out"
PICTURES = "pictures and reports are made in memory"
LAYERS = "one direction of dependency"
WEB = "the web reaches the core through pages, service, report and values"
COMMANDS = "commands reach the core through service and report"
STORE = "the store keeps what the shop's files say, and neither plans nor draws"
COMPILER = "the compiler is known to one module"
TOML = "TOML is known to the shop's files"
DATABASE = "the database is known to the store"
PAPER = "paper is known to the sheets"
NETWORK = "the network is known to the web and what starts it"
TERMINAL = "the terminal is known to the commands"
DXF = "DXF is known to the drawings"
LOCKS = "the lock of a folder is known to the store and the many jobs"
ENGINE = "the engine for several machines is known to the many jobs"
FORBIDDEN = {  # module, what it imports -> the contracts that this breaks
    # The core reaches for the world: files, clock, chance, programs, what nobody thought of.
    ("planning/plan.py", "import pathlib"): {CORE},
    ("strength/beams.py", "import os.path"): {CORE},
    ("quantities/reading.py", "from datetime import datetime"): {CORE},
    ("making/fits.py", "import random"): {CORE},
    ("proposing/search_rack.py", "import subprocess"): {CORE},
    ("shop/part.py", "import pydantic"): {CORE},
    ("bending/solver.py", "import sqlite3"): {CORE, DATABASE},
    # What one part of the core may, another may not.
    ("blank/leg_straights.py", "import numba"): {CORE, COMPILER},
    ("planning/plan.py", "import tomlkit"): {CORE, TOML},
    ("bending/solver.py", "import tomllib"): {CORE},
    ("bending/kernel_frame.py", "import scipy"): {KERNELS},
    ("ordering/kernel_wings.py", "import attrs"): {KERNELS},
    ("bending/kernel_frame.py", "import strapwright.bending.bend_values"): {KERNELS},
    ("ordering/kernel_wings.py", "import numba"): {CORE, KERNELS, COMPILER},
    # Each library from outside has one room.
    ("pages/workshop.py", "import tomlkit"): {TOML},
    ("service/file_access.py", "import numba"): {COMPILER},
    ("service/file_access.py", "import sqlalchemy"): {DATABASE},
    ("drawing/blank_drawing.py", "import segno"): {PICTURES, PAPER},
    ("service/file_access.py", "import uvicorn"): {NETWORK},
    ("service/file_access.py", "import click"): {TERMINAL},
    ("service/file_access.py", "import distributed"): {ENGINE},
    ("service/file_access.py", "import filelock"): {LOCKS},
    # Pictures and reports.
    ("drawing/blank_drawing.py", "import pathlib"): {PICTURES},
    ("report/plan_text.py", "import os"): {PICTURES},
    ("scene/svg.py", "import ezdxf"): {PICTURES, DXF},
    # The edges go round the rooms that speak for the core, or into each other.
    ("web/live_answers.py", "import strapwright.planning.plan"): {WEB},
    ("web/live_answers.py", "import strapwright.shop_files.updating"): {WEB},
    ("web/live_answers.py", "import strapwright.cli.options"): {WEB, LAYERS},
    ("web/live_answers.py", "import strapwright.serving"): {WEB, LAYERS},
    ("cli/check.py", "import strapwright.planning.plan_values"): {COMMANDS},
    ("cli/check.py", "import strapwright.web.live_answers"): {COMMANDS},
    ("cli/check.py", "import strapwright.pages.form"): {COMMANDS},
    # Upwards.
    ("planning/plan.py", "import strapwright.proposing.candidate_sizes"): {LAYERS},
    ("service/file_access.py", "import strapwright.pages.form"): {LAYERS},
    ("strength/beams.py", "import strapwright.making.fits"): {LAYERS},
    ("store/table_rows.py", "import strapwright.planning.plan"): {STORE},
    ("store/table_rows.py", "import strapwright.quantities"): {STORE},
}


def rounds() -> list[list[tuple[str, str]]]:
    """Imports that are tried together: no two that break one contract or stand in one module."""
    found: list[list[tuple[str, str]]] = []
    for one, breaks in FORBIDDEN.items():
        for together in found:
            if all(one[0] != other[0] and not breaks & FORBIDDEN[other] for other in together):
                together.append(one)
                break
        else:
            found.append([one])
    return found


@pytest.mark.parametrize("together", rounds(), ids=lambda some: "; ".join(map(" ".join, some)))
def test_a_forbidden_import_breaks_its_contract(
    copied: Path, together: list[tuple[str, str]]
) -> None:
    before = {
        where: (copied / "src" / "strapwright" / where).read_text(encoding="utf-8")
        for where, _ in together
    }
    for where, line in together:
        path = copied / "src" / "strapwright" / where
        path.write_text(f"{before[where]}\n{line}\n", encoding="utf-8")
    try:
        done = lint_imports(copied, "--cache-dir", str(copied / "cache"))
    finally:
        for where, text in before.items():
            (copied / "src" / "strapwright" / where).write_text(text, encoding="utf-8")
    assert done.returncode == 1, done.stdout + done.stderr
    broken = re.findall(r"^(.+) BROKEN$", done.stdout, re.MULTILINE)
    assert sorted(broken) == sorted(itertools.chain(*(FORBIDDEN[one] for one in together)))
    for where, line in together:  # each by its own import
        module = f"strapwright.{where.removesuffix('.py').replace('/', '.')}"
        assert re.search(rf"{re.escape(module)} .*{line.split()[1].split('.')[0]}", done.stdout)


def test_every_contract_has_been_seen_to_break() -> None:
    contracts = {one["name"] for one in PROJECT["tool"]["importlinter"]["contracts"]}
    assert contracts == set().union(*FORBIDDEN.values())


def core_packages() -> list[str]:
    (modules,) = (
        contract["modules"]
        for contract in PROJECT["tool"]["importlinter"]["contracts"]
        if contract["name"] == CORE
    )
    return [name.removeprefix("strapwright.") for name in modules]


def test_all_below_pictures_is_core() -> None:
    # A new package that is put into the layers must not be left out of the core's contract.
    (layers,) = (
        contract["layers"]
        for contract in PROJECT["tool"]["importlinter"]["contracts"]
        if contract["type"] == "layers"
    )
    at = layers.index("strapwright.scene")
    below = {name for layer in layers[at + 1 :] for name in layer.split(" | ")}
    assert below == {f"strapwright.{name}" for name in core_packages()}


def test_the_core_opens_prints_and_runs_nothing() -> None:
    # These need no import, so that no import contract can see them.
    worldly = {"open", "print", "input", "exec", "eval", "__import__", "breakpoint"}
    core = core_packages()
    paths = [path for path in MODULES if path.relative_to(SOURCE).parts[0].split(".")[0] in core]
    assert len(paths) > 150
    found = [
        f"{path.relative_to(SOURCE)}:{call.lineno} {call.func.id}"
        for path in paths
        for call in ast.walk(parsed(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call)
        and isinstance(call.func, ast.Name)
        and call.func.id in worldly
    ]
    assert found == []


def test_only_kernels_are_compiled() -> None:
    compiled = {
        path.stem
        for path in MODULES
        if "from strapwright.compiled import" in path.read_text(encoding="utf-8")
    }
    assert compiled != set()
    assert {name for name in compiled if not name.startswith("kernel_")} == set()


# Called by name from outside: the command line's library, the database's, the server.
CALLED_FROM_OUTSIDE = {
    "list_commands", "get_command", "format_commands", "process_bind_param",
    "process_result_value", "upgrade", "downgrade", "served_app", "__getattr__",
    "description",  # by docs/make_openapi.py
}  # fmt: skip
# What the tables and the store offer beyond what is asked of them today.
OFFERED = {
    "shop_clearance", "end_mill_feed", "minor_diameter",  # of the catalog
    "export_folder", "import_zip", "import_folder", "unarchive",  # of the store
    "locks_on", "trim_to_free",  # of coming off
}  # fmt: skip


def defined_functions(tree: ast.Module) -> Iterator[str]:
    """Functions and methods that no decorator hands to somebody else."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            given = [ast.unparse(one) for one in node.decorator_list]
            if not any(
                word in one for one in given for word in ("router", "command", "group", "handler")
            ):
                yield node.name


def test_no_function_is_there_for_the_tests_alone() -> None:
    trees = [parsed(path.read_text(encoding="utf-8")) for path in MODULES]
    used = {
        name
        for tree in trees
        for node in ast.walk(tree)
        for name in (getattr(node, "id", None), getattr(node, "attr", None))
    }
    pages = "\n".join(path.read_text(encoding="utf-8") for path in (SOURCE / "web").rglob("*.html"))
    used |= set(re.findall(r"\w+", pages))
    unused = {
        name
        for tree in trees
        for name in defined_functions(tree)
        if name not in used and not (name.startswith("__") and name.endswith("__"))
    }
    assert unused - CALLED_FROM_OUTSIDE == OFFERED


def literal_codes(value: ast.expr) -> set[str]:
    """Codes an expression can give; a choice between literals counts as both."""
    if isinstance(value, ast.IfExp):
        return literal_codes(value.body) | literal_codes(value.orelse)
    assert isinstance(value, ast.Constant), (
        f"line {value.lineno}: write the code of a finding as a literal, so that it can be found"
    )
    return {str(value.value)}


def finding_codes() -> set[str]:
    codes: set[str] = set()
    for path in MODULES:
        for node in ast.walk(parsed(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            if name == "Finding":
                for keyword in node.keywords:
                    if keyword.arg == "code":
                        codes |= literal_codes(keyword.value)
    return codes


def test_findings_and_their_page_agree() -> None:
    page = (ROOT / "docs" / "findings.md").read_text(encoding="utf-8")
    documented = re.findall(r"^\| `([a-z0-9-]+)` \|", page, flags=re.MULTILINE)
    assert len(documented) == len(set(documented))
    used = finding_codes()
    assert used - set(documented) == set(), "used, but not in docs/findings.md"
    assert set(documented) - used == set(), "in docs/findings.md, but not used"


def test_changelog_has_the_current_version() -> None:
    assert PROJECT["project"]["version"] == strapwright.__version__
    newest = re.search(
        r"^## \[([^]]+)\]", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.MULTILINE
    )
    assert newest is not None
    assert newest.group(1) == strapwright.__version__


def test_no_file_carries_a_path_of_somebodys_machine() -> None:
    path_of_a_machine = re.compile(
        rb"(?<![\w.$}/-])(?:[A-Z]:)?[/\\](?:work|root|home|Users)[/\\]\w"
    )
    found = [
        f"{path.relative_to(ROOT)}: {match.group().decode()}"
        for path in project_files()
        if path.suffix not in {".png", ".pdf"}
        for match in path_of_a_machine.finditer(path.read_bytes())
    ]
    assert found == []


def pins(lock: str) -> dict[str, list[Requirement]]:
    """Pinned packages of a lock; one name has several lines where Pythons differ."""
    entries: dict[str, list[Requirement]] = {}
    for block in re.split(r"\n(?=\S)", (ROOT / lock).read_text(encoding="utf-8").strip()):
        requirement = Requirement(block.split(" \\\n")[0])
        assert re.search(r"--hash=sha256:[0-9a-f]{64}", block), block
        assert len(requirement.specifier) == 1, block
        assert str(requirement.specifier).startswith("=="), block
        entries.setdefault(canonicalize_name(requirement.name), []).append(requirement)
    return entries


def version(pin: Requirement) -> Version:
    return Version(str(pin.specifier).removeprefix("=="))


MANY = PROJECT["project"]["optional-dependencies"]["many"]


def test_the_extra_and_its_group_are_one() -> None:
    groups = PROJECT["dependency-groups"]
    assert groups["many"] == MANY
    assert {"include-group": "many"} in groups["dev"]


@pytest.mark.parametrize(
    ("lock", "wanted"),
    [
        (
            "requirements.lock",
            PROJECT["project"]["dependencies"]
            + PROJECT["dependency-groups"]["build"]
            + PROJECT["build-system"]["requires"],
        ),
        ("requirements-many.lock", MANY),
        (
            "requirements-dev.lock",
            MANY + [one for one in PROJECT["dependency-groups"]["dev"] if isinstance(one, str)],
        ),
    ],
)
def test_lock_meets_what_the_project_asks_for(lock: str, wanted: list[str]) -> None:
    locked = pins(lock)
    for text in wanted:
        requirement = Requirement(text)
        found = locked[canonicalize_name(requirement.name)]
        assert all(requirement.specifier.contains(version(pin)) for pin in found), text


def test_locks_agree_and_name_no_address() -> None:
    locks = ("requirements.lock", "requirements-many.lock", "requirements-dev.lock")
    for one, other in itertools.combinations(map(pins, locks), 2):
        for name in one.keys() & other.keys():
            assert sorted(map(version, one[name])) == sorted(map(version, other[name])), name
    for lock in locks:
        text = (ROOT / lock).read_text(encoding="utf-8")
        assert "://" not in text
        assert "index" not in text
