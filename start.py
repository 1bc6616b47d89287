#!/usr/bin/env python3
"""Start Strapwright: the first time set it up in ``.venv`` beside this file, then run it.

Standard library only. The syntax stays readable to Python 3.6, so that an old Python answers
with a sentence and not with a syntax error.
"""

import os
import signal
import sys

STOPPED = b"Stopped. A set-up that was under way begins afresh at the next start.\n"


def end_at_once(*_):
    """End in one line where nothing is to be tidied up."""
    try:
        os.write(2, STOPPED)
    finally:
        os._exit(130)


if __name__ == "__main__" and signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:
    signal.signal(signal.SIGINT, end_at_once)  # while the rest is loaded

import contextlib
import errno
import hashlib
import json
import shutil
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent
ENVIRONMENT = ROOT / ".venv"
NOTE = ENVIRONMENT / "strapwright.json"  # what the environment was made from
LOG = ENVIRONMENT / "set-up.log"
WHEELS = ROOT / "wheels"
ON_WINDOWS = os.name == "nt"
SCRIPTS = ENVIRONMENT / ("Scripts" if ON_WINDOWS else "bin")
PYTHON = SCRIPTS / ("python.exe" if ON_WINDOWS else "python")

LOCKED = ("--require-hashes", "--only-binary", ":all:", "--requirement")
OLDEST, NEWEST = (3, 11), (3, 14)  # as requires-python in pyproject.toml
PREFERRED = ("3.13", "3.12", "3.14", "3.11")  # the order in which another Python is looked for

SHOP_VERBS = ("demo", "new", "plan", "stroke", "more", "force", "serve")
SHOP_VERBS += ("backup", "restore")  # passed on as they are
MANY_VERBS = ("batch", "study")  # the same, with packages of their own
SCRIPT_VERBS = {
    "validate": "validation/run.py",
    "bench": "benchmarks/run.py",
    "test": ".ci/checks.py",
    "docs": "docs/build.py",
}
PROGRAM = ["-m", "strapwright"]
VERBS = (*SHOP_VERBS, *MANY_VERBS, *SCRIPT_VERBS)

USAGE = """\
usage: python3 start.py VERB ...

  demo       plan the demonstration jobs
  new        start a job file
  plan       plan a job: python3 start.py plan JOB.toml --out FOLDER
  stroke     the press stroke for one bend
  more       what to add when a bend came out short of its angle
  force      the force for one bend
  batch      plan every job in a folder: python3 start.py batch FOLDER --out RESULTS
  study      plan a job with other values: python3 start.py study STUDY.toml --out RESULTS
  validate   compare with published and reference cases
  bench      measure how long things take
  test       check the project itself: test [--install-browser] [--long] [pytest arguments]
  serve      the pages in a browser on this machine: python3 start.py serve
  backup     all jobs with all versions into one file: python3 start.py backup FILE
  restore    a backup into an empty store: python3 start.py restore FILE
  docs       build the handbook into out/docs

The first start sets everything up in .venv beside this file. Python 3.11 to 3.14.
Without a network: put the wheels of requirements.lock into a folder 'wheels' beside this file.
More about a verb: python3 start.py plan --help"""


class Stopped(Exception):  # noqa: N818 - an unbuilt verb is no error
    """What is in the way and what to do about it, in one or two sentences."""

    code = 1


class Refused(Stopped):
    """A verb that cannot be served."""

    code = 2


def say(text: str) -> None:
    """Print one line for the person, apart from the results."""
    try:
        print(text, file=sys.stderr, flush=True)
    except OSError:  # nobody may listen there; at its end Python must not try again and fail
        os.dup2(os.open(os.devnull, os.O_WRONLY), 2)


def captured(command: list, **options: object) -> tuple:
    """Run a command in silence and return its exit code and all that it printed."""
    done = subprocess.run(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        check=False,
        **options,
    )
    return done.returncode, done.stdout.decode(errors="replace")


def unsuitable(version: tuple, implementation: str = "cpython") -> str:
    """Say what is wrong with a Python of this (major, minor); empty where it suits."""
    wanted = f"install 3.{OLDEST[1]} to 3.{NEWEST[1]}"
    if implementation != "cpython":
        return f"This Python is {implementation}; {wanted} from python.org."
    if not OLDEST <= tuple(version[:2]) <= NEWEST:
        return f"You have Python {version[0]}.{version[1]}; {wanted}."
    return ""


def another_python() -> str:
    """Path of a Python on this machine that suits and can make environments, or empty."""
    probe = (
        "import sys, venv, ensurepip;"
        "sys.implementation.name == 'cpython' and print(sys.executable, *sys.version_info[:2])"
    )
    for version in PREFERRED:
        candidate = ["py", "-" + version] if ON_WINDOWS else ["python" + version]
        if shutil.which(candidate[0]) is None:
            continue
        code, printed = captured([*candidate, "-c", probe])
        words = printed.strip().rsplit(" ", 2)
        if code == 0 and len(words) == 3 and not unsuitable(tuple(map(int, words[1:]))):
            return words[0]
    return ""


def keep_compiled() -> None:
    """Where Python is told to keep nothing that it compiles, let it do so in our own folder.

    The packages are installed uncompiled: read anew at every start, they take most of its time.
    """
    if os.environ.pop("PYTHONDONTWRITEBYTECODE", ""):
        os.environ.setdefault("PYTHONPYCACHEPREFIX", str(ENVIRONMENT / "compiled"))


def hand_over(command: list) -> int:
    """Let the command take the place of this process; where that cannot be, wait for it."""
    sys.stdout.flush()
    if not ON_WINDOWS:
        if command[1:3] == PROGRAM:  # and not a script that has this name among its words
            # It lets Ctrl-C through once it can answer it; what comes until then waits.
            signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        os.execv(command[0], command)  # noqa: S606 - no shell is wanted
    return subprocess.call(command)


def digest(*names: str) -> str:
    """Fingerprint of files of the project: a change asks for the set-up again."""
    total = hashlib.sha256()
    for name in names:
        if not (ROOT / name).is_file():
            raise Stopped(f"{name} is missing beside start.py; unpack the project again.")
        total.update((ROOT / name).read_bytes() + b"\0")
    return total.hexdigest()


def wanted_note(dev: bool, many: bool = False) -> dict:
    """Describe the environment that this start needs."""
    return {
        "state": "ready",
        "python": "{}.{}".format(*sys.version_info[:2]),
        "folder": str(ROOT),
        "project": digest("pyproject.toml", "requirements.lock"),
        "many": digest("requirements.lock", "requirements-many.lock") if many else "",
        "dev": digest("requirements.lock", "requirements-dev.lock") if dev else "",
    }


def read_note() -> dict:
    """Return what the environment was made from; empty where there is no readable note."""
    try:
        note = json.loads(NOTE.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return note if isinstance(note, dict) else {}


def write_note(note: dict) -> None:
    """Replace the note in one step, so that it is never half written."""
    fresh = NOTE.with_suffix(".new")
    fresh.write_text(json.dumps(note, indent=1), encoding="utf-8")
    fresh.replace(NOTE)


def is_ready(note: dict, wanted: dict) -> bool:
    """Tell whether the environment serves; development packages more than needed do no harm."""
    needed = {key: value for key, value in wanted.items() if value}
    return PYTHON.exists() and all(note.get(key) == value for key, value in needed.items())


def try_lock(handle: object) -> bool:
    """Lock the open file for this process, and say whether that was possible just now."""
    try:
        if ON_WINDOWS:
            import msvcrt  # noqa: PLC0415 - only there

            msvcrt.locking(handle.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl  # noqa: PLC0415 - only there

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


@contextlib.contextmanager
def only_one_set_up() -> object:
    """Hold the set-up lock: a second start waits, and a killed one lets go by itself."""
    import time  # noqa: PLC0415 - a ready start has no use for it

    with (ROOT / ".venv.lock").open("a") as handle:
        if not try_lock(handle):
            say("Another start is setting up in this folder; waiting for it to finish ...")
            while not try_lock(handle):
                time.sleep(0.5)
        yield


def logged(command: list, what: str) -> None:
    """Run one step of the set-up in silence; where it fails, raise a sentence about it."""
    quiet = dict(os.environ, PIP_DISABLE_PIP_VERSION_CHECK="1", PIP_NO_INPUT="1", PIP_USER="0")
    code, printed = captured(command, cwd=str(ROOT), env=quiet)
    if code != 0:
        LOG.write_text(printed, encoding="utf-8")
        raise Stopped(failure_sentence(printed, what))


def failure_sentence(output: str, what: str) -> str:
    """Turn what a failed step printed into a sentence with a remedy."""
    lowered = output.lower()
    if "no space left" in lowered:
        return "The disk is full: make about 1 GB free and start again."
    if "do not match the hashes" in lowered:
        return (
            "A downloaded package is not the one this project was tested with, so it was not "
            f"installed ({LOG} says which). Fetch it again: empty the cache with "
            "'pip cache purge', or fill the folder wheels afresh."
        )
    if any(word in lowered for word in ("connection broken by", "connection error", "timed out")):
        return (
            "The packages could not be fetched: no connection to the package index. Connect to "
            f"the internet and start again, or put the wheels of requirements.lock into {WHEELS} "
            "(on a connected machine of the same kind: pip download --only-binary :all: "
            "-r requirements.lock -d wheels)."
        )
    if "no matching distribution" in lowered:
        source = f"in {WHEELS}" if WHEELS.is_dir() else "for this machine and Python"
        last = lowered.split("no matching distribution found for ")[-1].split()[0]
        return f"A package was not found {source}: {last} ({LOG} says more)."
    return f"{what} failed; what was printed is in {LOG}. Mend that and start again."


def install(what: str, *arguments: str) -> None:
    """Install with the environment's own pip, from the folder of wheels where there is one."""
    source = ["--no-index", "--find-links", str(WHEELS)] if WHEELS.is_dir() else []
    # Python compiles what is imported when it is; most of what is installed never is.
    command = [str(PYTHON), "-m", "pip", "install", "--quiet", "--retries", "2", "--no-compile"]
    logged([*command, *source, *arguments], "Installing " + what)


def make_environment(wanted: dict) -> None:
    """Make an empty environment, in place of one that was left half made."""
    from importlib.util import find_spec  # noqa: PLC0415 - a ready start has no use for it

    if find_spec("venv") is None or find_spec("ensurepip") is None:
        package = "python{}-venv".format(wanted["python"])
        raise Stopped(
            "This Python cannot make environments. On Debian and Ubuntu: sudo apt-get install "
            f"{package}; elsewhere install Python from python.org."
        )
    if ENVIRONMENT.is_dir():
        shutil.rmtree(str(ENVIRONMENT))
    ENVIRONMENT.mkdir()
    write_note(dict(wanted, state="making"))
    # Started from inside an environment, the Python beneath it makes the new one.
    base = getattr(sys, "_base_executable", None) or sys.executable
    logged([base, "-m", "venv", str(ENVIRONMENT)], "Making the environment .venv")


def usable(note: dict, wanted: dict) -> bool:
    """Tell whether the environment there can be brought up to date where it stands.

    One without a note was made by hand: it is kept where its Python is the same as ours.
    """
    if not PYTHON.exists():
        return False
    if note:
        return note.get("state") == "ready" and all(
            note.get(key) == wanted[key] for key in ("python", "folder")
        )
    probe = "import sys, pip; print('%d.%d' % sys.version_info[:2])"
    code, printed = captured([str(PYTHON), "-c", probe])
    return code == 0 and printed.strip() == wanted["python"]


def set_up(wanted: dict) -> None:
    """Make or update the environment; the note says 'ready' only after the last step."""
    before = read_note()
    kept = usable(before, wanted)
    if not kept:
        say("Setting up (once, a minute or two) ...")
        make_environment(wanted)
    try:
        write_note(dict(wanted, state="making"))
        if not kept or before.get("project") != wanted["project"]:
            if kept:
                say("Bringing the set-up up to date ...")
            install("the packages", *LOCKED, "requirements.lock")
            install("the project", "--no-deps", "--no-build-isolation", "--editable", str(ROOT))
            say("Compiling the solver (once) ...")
            logged(
                [str(PYTHON), "-m", "strapwright.service.compiler_cache"], "Compiling the solver"
            )
        if wanted["many"] and (not kept or before.get("many") != wanted["many"]):
            say("Setting up what many jobs at once need (once) ...")
            install("the packages of many jobs", *LOCKED, "requirements-many.lock")
        if wanted["dev"] and (not kept or before.get("dev") != wanted["dev"]):
            say("Setting up what the tests need (once) ...")
            install("the packages of the tests", *LOCKED, "requirements-dev.lock")
    except Stopped:
        if kept and before:  # a step that failed cleanly leaves the older set-up as it was
            write_note(before)
        elif kept:
            NOTE.unlink()
        raise
    if kept:  # packages more than needed now stay, and are remembered
        extra = ("many", "dev")
        wanted = dict(wanted, **{key: wanted[key] or before.get(key, "") for key in extra})
    write_note(wanted)


def make_ready(dev: bool, many: bool = False) -> None:
    """See to it that the environment is there and up to date."""
    wanted = wanted_note(dev, many)
    if is_ready(read_note(), wanted):
        return
    try:
        with only_one_set_up():
            if not is_ready(read_note(), wanted):  # another start may have finished meanwhile
                set_up(wanted)
    except OSError as error:
        raise Stopped(
            f"Cannot write in {ROOT} ({error.strerror or error}). Copy the project to a folder of "
            "your own, for example in your home, and start it there."
        ) from None


def start(arguments: list) -> int:
    """Do what the verb asks and return the exit code."""
    if not arguments or arguments[0] in ("-h", "--help"):
        print(USAGE, flush=True)
        return 0
    verb, rest = arguments[0], arguments[1:]
    if verb not in VERBS:
        known = ", ".join(VERBS)
        raise Refused(f"'{verb}' is not a verb of start.py; the verbs are: {known}.")
    trouble = unsuitable(sys.version_info[:2], sys.implementation.name)
    if trouble:
        other = another_python()
        if not other:
            raise Stopped(trouble)
        say(f"{trouble} Going on with {other}.")
        return hand_over([other, str(ROOT / "start.py"), *arguments])
    keep_compiled()
    make_ready(dev=verb in ("test", "docs"), many=verb in MANY_VERBS)
    script = [str(ROOT / SCRIPT_VERBS[verb])] if verb in SCRIPT_VERBS else [*PROGRAM, verb]
    return hand_over([str(PYTHON), *script, *rest])


def main() -> int:
    """Run, turning what can go wrong in a set-up into sentences."""
    if signal.getsignal(signal.SIGINT) is end_at_once:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        return start(sys.argv[1:])
    except Stopped as reason:
        say(str(reason))
        return reason.code
    except KeyboardInterrupt:
        end_at_once()
    except OSError as error:  # of standard output: the reader has seen enough, or the disk is full
        if error.errno not in (errno.EPIPE, errno.ENOSPC):
            raise
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        if error.errno == errno.ENOSPC:
            say("There is no room left to write the answer; free some and ask again.")
            return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
