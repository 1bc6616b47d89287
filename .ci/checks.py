"""Check the project: lint, types, import contracts, then the tests; the first that fails ends it.

Run by ``python3 start.py test [--install-browser] [--long] [pytest arguments]``.  Tests marked as
long have shorter ones beside them that show the same of fewer parts, pages or sizes: they are run
with ``--long`` alone, and then nothing else.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

HELPERS = {  # marker of the tests that need them -> programs, and their packages in Debian
    "browser": (("chromium", "chromedriver"), ("chromium", "chromium-driver")),
    "poppler": (("pdftoppm",), ("poppler-utils",)),
}


class Stopped(Exception):  # noqa: N818 - it is the person's turn, nothing is broken
    """What is in the way and what to do about it."""


def present(programs: tuple[str, ...]) -> bool:
    """Tell whether all these programs are installed."""
    return all(shutil.which(program) for program in programs)


def on_debian() -> bool:
    """Tell whether this is Debian itself, whose package names we know."""
    release = Path("/etc/os-release")
    return release.is_file() and "ID=debian" in release.read_text(encoding="utf-8").splitlines()


def install_helpers(*, asked: bool) -> None:
    """Install what browser and paper tests need, as root on Debian or where it was asked for."""
    missing = [name for need, names in HELPERS.values() if not present(need) for name in names]
    as_root = hasattr(os, "geteuid") and os.geteuid() == 0
    if not missing or not (asked or (as_root and on_debian())):
        return
    names = ", ".join(missing)
    if not on_debian():
        raise Stopped(
            f"--install-browser knows Debian only: install what corresponds to {names} yourself, "
            "then run the tests without it."
        )
    if not as_root and shutil.which("sudo") is None:
        raise Stopped("--install-browser needs root: there is no sudo here, so log in as root.")
    print(f"Installing {names} ...", file=sys.stderr)
    command = [] if as_root else ["sudo"]
    command += ["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq"]
    for step in (["update"], ["install", "--yes", "--no-install-recommends", *missing]):
        done = subprocess.run([*command, *step], stdout=subprocess.DEVNULL, check=False)
        if done.returncode != 0 and asked:
            raise Stopped(f"apt-get {step[0]} failed; its message is above.")


def pytest_command(arguments: list[str]) -> tuple[list[str], list[str]]:
    """Compose the pytest command, and say which kinds of test it leaves out.

    The tests read from the environment which programs are there.
    """
    rest, chosen, left_out = list(arguments), [], []
    if "--long" in rest:
        rest = [word for word in rest if word != "--long"]
        chosen.append("long")
    else:
        chosen.append("not long")
        left_out.append("long tests (python3 start.py test --long runs them)")
    while "-m" in rest[:-1]:  # only one expression reaches pytest: theirs is joined to ours
        at = rest.index("-m")
        chosen.append(f"({rest[at + 1]})")
        del rest[at : at + 2]
    for marker, (programs, packages) in HELPERS.items():
        there = present(programs)
        os.environ["STRAPWRIGHT_" + marker.upper()] = "1" if there else "0"
        if not there:
            chosen.append("not " + marker)
            left_out.append(f"{marker} tests (they need {', '.join(packages)})")
    marked = ["-m", " and ".join(chosen)]
    # Neighbours stay with one worker until the other has nothing left: what a module prepares for
    # its tests is then prepared once.
    spread = ["-n", "2", "--dist", "worksteal"]
    return [sys.executable, "-m", "pytest", *spread, *marked, *rest], left_out


def _in_silence(command: list[str]) -> tuple[int, str]:
    done = subprocess.run(
        command, cwd=ROOT, check=False, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    return done.returncode, done.stdout.decode(errors="replace")


def run_checks() -> int:
    """Run what looks at the source; return the exit code of the first that fails, else 0."""
    python = [sys.executable, "-m"]
    contracts = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    checks = {
        "ruff check": [*python, "ruff", "check", "--quiet"],
        "ruff format": [*python, "ruff", "format", "--check", "--quiet"],
        "lint-imports": [contracts or "lint-imports"],
        "handbook": [sys.executable, str(ROOT / "docs" / "build.py")],
        # Compiled here once, they are not compiled by each worker of the tests.
        "compiled loops": [*python, "strapwright.service.compiler_cache"],
        "mypy": [*python, "mypy", "--no-error-summary"],
    }
    with ThreadPoolExecutor(max_workers=2) as pool:  # the longest first, as there are two cores
        done = {name: pool.submit(_in_silence, checks[name]) for name in reversed(checks)}
        for name in checks:
            code, printed = done[name].result()
            if code != 0:
                pool.shutdown(wait=False, cancel_futures=True)
                sys.stdout.write(printed)
                print(f"{name}: failed")
                return code
            print(f"{name}: passed", flush=True)
    return 0


def run_tests(arguments: list[str]) -> int:
    """Run the tests, name those that were left out, and return their exit code."""
    install_helpers(asked="--install-browser" in arguments)
    command, left_out = pytest_command([word for word in arguments if word != "--install-browser"])
    code = subprocess.call(command, cwd=ROOT)
    if left_out:
        print(f"Not tested here: {'; '.join(left_out)}.")
    return code


def main() -> int:
    """Run, and say in a sentence what is in the way."""
    try:
        arguments = sys.argv[1:]
        code = 0 if "--long" in arguments else run_checks()
        return code or run_tests(arguments)
    except Stopped as reason:
        print(reason, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return 130


if __name__ == "__main__":
    sys.exit(main())
