"""Build wheel and source archive, and try both as somebody who has no clone of the project.

Run by ``.venv/bin/python .ci/release.py [--python PYTHON ...] [--keep FOLDER]``: on every Python
named, or on every one that ``python3.11`` to ``python3.14`` finds.  For each, the wheel goes into a
fresh environment with the pins of ``requirements.lock``, and the source archive into another with
what the installer chooses itself.  Then, in an empty folder with an empty home: the version, a new
job file, its plan with sheets, the demonstration with the wheel, and a page from the server.
Prints one line a trial with its seconds and exits with 1 where one failed.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PYTHONS = ("3.11", "3.12", "3.13", "3.14")  # as requires-python in pyproject.toml
ON_WINDOWS = os.name == "nt"
SHEETS = ("sheet.pdf", "template.pdf", "inspection.pdf")
PATIENCE = 900.0  # s for one command: the first compiles


class Failed(Exception):  # noqa: N818 - a trial that did not come out is no error of this script
    """What did not come out."""


def there(version: str) -> bool:
    """Tell whether this Python can be started by its usual name."""
    try:
        asked = [f"python{version}", "--version"]
        return subprocess.run(asked, check=False, capture_output=True).returncode == 0
    except OSError:
        return False


def said_by(
    command: list[object], folder: Path, home: Path, *, fine: tuple[int, ...] = (0,)
) -> str:
    """Run a command as a person without the clone would, and give what it printed."""
    done = subprocess.run(
        [str(word) for word in command], cwd=folder, env=plain_environment(home), check=False,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, timeout=PATIENCE,
    )  # fmt: skip
    if done.returncode not in fine:
        last = "\n".join(done.stdout.splitlines()[-15:])
        raise Failed(f"{' '.join(map(str, command))} ended with {done.returncode}:\n{last}")
    return done.stdout


def plain_environment(home: Path) -> dict[str, str]:
    """Give the environment without what would lead back into the clone or to old caches."""
    kept = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith(("PYTHON", "STRAPWRIGHT", "NUMBA", "VIRTUAL_ENV", "XDG", "PYENV"))
    }
    return kept | {"HOME": str(home), "USERPROFILE": str(home), "LOCALAPPDATA": str(home)}


def build(folder: Path) -> tuple[Path, Path]:
    """Build the wheel and the source archive from the files that version control holds."""
    clean = folder / "source"
    clean.mkdir()
    archive = folder / "source.tar"
    subprocess.run(["git", "archive", "-o", archive, "HEAD"], cwd=ROOT, check=True)
    shutil.unpack_archive(archive, clean)
    out = folder / "dist"
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-d", out],
        cwd=clean, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    (wheel,), (source,) = out.glob("*.whl"), out.glob("*.tar.gz")
    return wheel, source


def environment(python: str, folder: Path) -> Path:
    """Make a fresh environment and give the folder of its programs."""
    subprocess.run([python, "-m", "venv", folder], check=True, cwd=folder.parent)
    return folder / ("Scripts" if ON_WINDOWS else "bin")


def install(programs: Path, *arguments: object) -> None:
    """Install without compiling what may never be imported."""
    command = [programs / "python", "-m", "pip", "install", "--quiet", "--no-compile", *arguments]
    said_by(command, programs.parent, Path.home())


def try_pages(strapwright: Path, folder: Path, home: Path) -> None:
    """Ask the server for its first page."""
    server = subprocess.Popen(
        [strapwright, "serve", "--port", "0", "--store", folder / "store"], cwd=folder,
        env=plain_environment(home) | {"PYTHONUNBUFFERED": "1"}, text=True,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
    )  # fmt: skip
    try:
        said = ""
        while (found := re.search(r"http://127\.0\.0\.1:\d+\S*", said)) is None:
            line = "" if server.stdout is None else server.stdout.readline()
            if not line:
                raise Failed(f"serve ended before it listened: {said}")
            said += line
        with urllib.request.urlopen(found[0], timeout=PATIENCE) as answer:  # noqa: S310 - our own
            page = answer.read().decode()
        if "<main" not in page:
            raise Failed("the first page has no content")
    finally:
        server.kill()
        server.communicate()


def try_commands(programs: Path, folder: Path, *, demo: bool) -> None:
    """Do what a person does first, in an empty folder with an empty home."""
    home = folder / "home"
    home.mkdir(parents=True)
    strapwright = programs / "strapwright"
    version = said_by([strapwright, "--version"], folder, home)
    known = re.search(r'^version = "(.+)"', (ROOT / "pyproject.toml").read_text(), re.MULTILINE)
    if known is None or known[1] not in version:
        raise Failed(f"--version said {version!r}")
    if str(ROOT) in said_by(
        [programs / "python", "-c", "import strapwright; print(strapwright.__file__)"], folder, home
    ):
        raise Failed("the package comes from the clone")
    said_by([strapwright, "new", "first.toml"], folder, home)
    said_by([strapwright, "plan", "first.toml", "--out", "first"], folder, home, fine=(0, 3))
    for name in SHEETS:
        if not (folder / "first" / name).read_bytes().startswith(b"%PDF-"):
            raise Failed(f"{name} is no PDF")
    if demo:
        said_by([strapwright, "demo"], folder, home, fine=(0, 3))
    try_pages(strapwright, folder, home)


def trial(python: str, name: str, built: Path, folder: Path) -> None:
    """Install one archive with one Python and use it."""
    folder.mkdir()
    programs = environment(python, folder / "environment")
    if built.suffix == ".whl":
        install(programs, "--require-hashes", "--only-binary", ":all:", "-r",
                ROOT / "requirements.lock")  # fmt: skip
        install(programs, "--no-deps", built)
    else:
        install(programs, built)
    said_by([programs / "python", "-m", "pip", "check"], folder, Path.home())
    try_commands(programs, folder / name, demo=built.suffix == ".whl")


def main() -> int:
    """Build, try everything, and say what came out."""
    parser = argparse.ArgumentParser(description="Build the release and try it outside the clone.")
    parser.add_argument("--python", action="append", help="a Python to try it on; may be repeated")
    parser.add_argument("--keep", type=Path, help="keep wheel and source archive in this folder")
    options = parser.parse_args()
    pythons = options.python or [f"python{version}" for version in PYTHONS if there(version)]
    failures = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        wheel, source = build(folder)
        for built in (wheel, source):
            print(f"{built.name}: {built.stat().st_size / 1e6:.1f} MB", flush=True)
            if options.keep is not None:
                options.keep.mkdir(parents=True, exist_ok=True)
                shutil.copy(built, options.keep)
        for number, python in enumerate(pythons):
            version = said_by([python, "--version"], folder, Path.home()).strip()
            for kind, built in (("wheel", wheel), ("source archive", source)):
                begun = time.perf_counter()
                place = folder / f"{number}-{built.suffix[1:]}"
                try:
                    trial(python, "away", built, place)
                    outcome = "works"
                except (Failed, OSError, subprocess.SubprocessError) as reason:
                    failures += 1
                    outcome = f"FAILED: {reason}"
                print(
                    f"{version}, {kind}: {outcome}, {time.perf_counter() - begun:.0f} s", flush=True
                )
                shutil.rmtree(place, ignore_errors=True)
    if not pythons:
        print("No Python was found to try it on: name one by --python.")
    return 1 if failures or not pythons else 0


if __name__ == "__main__":
    sys.exit(main())
