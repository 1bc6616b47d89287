"""Where compiled loops are kept between runs, and compiling them once ahead of the first job.

The compiler keeps its cache by source file and does not notice a change in a called file, so the
folder carries a digest of every file that hands loops to it, and of the versions that shape the
machine code.  :func:`prepare_cache` must run before the compiler is imported.  Folders of earlier
versions are removed once they have not been started from for :data:`STALE_DAYS`.
"""

from __future__ import annotations

import atexit
import functools
import hashlib
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from strapwright.service.user_folders import user_cache_folder

PACKAGE = Path(__file__).resolve().parent.parent
VARIABLE = "NUMBA_CACHE_DIR"
_SHAPING = ("numba", "llvmlite", "numpy")
STALE_DAYS = 30  # two versions side by side, each started now and then, keep both their folders
_DIGEST = re.compile(r"[0-9a-f]{16}")
_COMPILED = {".nbi", ".nbc"}  # what the compiler writes


def prepare_cache() -> str | None:
    """Tell the compiler where to keep its work, unless the user has done so.

    Returns
    -------
    str or None
        A one-line note where the user's cache folder cannot be written and a folder for this run
        alone is used, else ``None``.
    """
    if os.environ.get(VARIABLE):
        return None
    wanted = user_cache_folder() / "strapwright" / kernel_digest()
    try:
        wanted.mkdir(parents=True, exist_ok=True)
        # A folder can be there and still refuse files; asking is the only sure way to know.
        with tempfile.NamedTemporaryFile(dir=wanted):
            pass
    except OSError as error:
        # Not a fixed name under the common temporary folder: others could put code there.
        passing = tempfile.mkdtemp(prefix="strapwright-")
        atexit.register(shutil.rmtree, passing, ignore_errors=True)
        os.environ[VARIABLE] = passing
        return f"note: {wanted} cannot be written ({error.strerror}); every start will be slow"
    os.environ[VARIABLE] = str(wanted)
    _touch(wanted)
    remove_stale(wanted.parent, wanted.name, time.time())
    return None


def remove_stale(folder: Path, mine: str, now: float) -> list[str]:
    """Remove what earlier versions compiled and nobody starts from any more.

    Only a folder is touched whose name is a digest, that is no link, and that holds nothing but
    what the compiler writes; whatever else a person keeps there stays.

    Parameters
    ----------
    folder
        Where the folders of all versions lie.
    mine
        Name of the folder in use, which stays.
    now
        Seconds since the epoch.

    Returns
    -------
    list of str
        Names of the folders removed.
    """
    removed = []
    try:
        found = sorted(folder.iterdir())
    except OSError:
        return []
    for one in found:
        if one.name == mine or not _DIGEST.fullmatch(one.name):
            continue
        try:
            if now - one.stat().st_mtime > STALE_DAYS * 86_400 and _holds_only_compiled(one):
                shutil.rmtree(one)
                removed.append(one.name)
        except OSError:
            continue  # in use elsewhere, or another's: it costs room and nothing else
    return removed


def _holds_only_compiled(folder: Path) -> bool:
    if folder.is_symlink() or not folder.is_dir():
        return False
    return all(
        not one.is_symlink() and (one.is_dir() or one.suffix in _COMPILED)
        for one in folder.rglob("*")
    )


def _touch(folder: Path) -> None:
    """Mark a folder as started from now."""
    try:
        os.utime(folder)
    except OSError:
        return  # another's, yet readable and writable: its age then tells when it was written


def is_cold() -> bool:
    """Whether the folder for compiled loops holds none yet, so that the first answer takes long."""
    folder = os.environ.get(VARIABLE)
    return not folder or next(Path(folder).rglob("*.nbi"), None) is None


def kernel_digest(package: Path = PACKAGE) -> str:
    """Short digest of all that decides the machine code.

    Parameters
    ----------
    package
        Folder of the package's sources.

    Returns
    -------
    str
        16 hexadecimal digits over the sources that use the compiler and the versions in play.
    """
    seen = hashlib.sha256(sys.version.encode())
    for name in _SHAPING:
        seen.update(f"{name} {version(name)}".encode())
    for path in sorted(package.rglob("*.py")):
        source = path.read_bytes()
        if path.name == "compiled.py" or b"strapwright.compiled" in source:
            seen.update(path.relative_to(package).as_posix().encode())
            seen.update(source)
    return seen.hexdigest()[:16]


@functools.cache
def load_loops() -> None:
    """Load every compiled loop, once a process; those that are not there yet are compiled.

    :func:`prepare_cache` comes first where the compiler's work is to be kept.
    """
    _of_one_part()
    _of_the_search()


def _of_one_part() -> None:
    # Only now: the compiler reads the folder when it is imported.
    from strapwright.planning.plan import plan  # noqa: PLC0415
    from strapwright.service.load_job import load_job  # noqa: PLC0415

    plan(load_job(PACKAGE / "service" / "demo_jobs" / "fender-hanger.toml"), search=False)


def _of_the_search() -> None:
    """One part does not pass through every loop of the search."""
    from strapwright.ordering.exercise_kernels import exercise  # noqa: PLC0415

    exercise()


def main(words: Sequence[str] = ()) -> int:
    """Compile every loop, so that the first real job starts at once.

    Those of a part and those of the search take as long as each other and share little: a second
    process compiles the second half meanwhile, which the word ``search`` asks it to.

    Returns
    -------
    int
        Exit code, 0.
    """
    note = prepare_cache()
    if note:
        sys.stderr.write(note + "\n")
    if "search" in words:
        _of_the_search()
        return 0
    command = [sys.executable, "-m", "strapwright.service.compiler_cache", "search"]
    with subprocess.Popen(command) as other:  # noqa: S603 - this very module
        _of_one_part()
    return other.returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
