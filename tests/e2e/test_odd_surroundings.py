"""Commands in surroundings that nobody set up on purpose: odd screens, places, names and files."""

from __future__ import annotations

import io
import json
import os
import shutil
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from strapwright.cli.main import main
from strapwright.service.demo import JOBS

if os.name != "posix":
    pytest.skip("surroundings of POSIX", allow_module_level=True)

JOB = JOBS / "fender-hanger.toml"
STROKE = ["stroke", "--bar", "flat 1/4 x 2", "--material", "A36", "--opening", "2-1/2"]
STROKE += ["--nose-radius", "1/2", "--shoulder-radius", "3/8", "--units", "inch"]


def run(
    *words: str | bytes, before: str = "", env: dict[str, str | None] | None = None, **more: object
) -> subprocess.CompletedProcess[bytes]:
    """Run a command, perhaps by a shell that does something ``before`` it takes its place."""
    command: list[str | bytes] = [sys.executable, "-m", "strapwright", *words]
    if before:
        command = ["/bin/sh", "-c", f'{before}; exec "$@"', "sh", *command]
    surroundings = {**os.environ, **(env or {})}
    return subprocess.run(
        command,
        env={name: text for name, text in surroundings.items() if text is not None},
        check=False,
        capture_output=True,
        timeout=120,
        **more,  # type: ignore[call-overload]
    )


def test_nothing_for_a_closed_screen_gets_into_a_file(tmp_path: Path) -> None:
    """A file opened while 0 to 2 are free would get their numbers, and what is said there."""
    path = tmp_path / "job.toml"
    done = run("new", str(path), before="exec 0<&- 1>&- 2>&-")
    assert done.returncode == 0
    assert main(["new", str(tmp_path / "usual.toml")]) == 0
    assert path.read_bytes() == (tmp_path / "usual.toml").read_bytes()
    done = run("new", str(path), before="exec 0<&- 1>&- 2>&-")  # a refusal has nowhere to go
    assert done.returncode == 2
    assert path.read_bytes() == (tmp_path / "usual.toml").read_bytes()


def said_on(screen: str, *words: str, code: int = 0) -> bytes:
    """Run a command in this process on a screen of other letters."""
    raw = io.BytesIO()
    with pytest.MonkeyPatch.context() as within:
        stream = io.TextIOWrapper(raw, encoding=screen)
        within.setattr(sys, "stdout", stream)
        assert main(list(words)) == code
        stream.flush()
        return raw.getvalue()


@pytest.mark.parametrize("letters", ["iso8859-5", "koi8-r", "latin-1"])
def test_a_screen_without_our_letters_gets_those_it_has(letters: str) -> None:
    said = said_on(letters, *STROKE, "--angle", "90").decode(letters)
    whole = said_on("utf-8", *STROKE, "--angle", "90").decode()
    assert "?" not in said
    for letter, other in {"°": " deg", "±": "+/-"}.items():
        if letter.encode(letters, "ignore") == b"":
            assert letter in whole or letter == "±"
            whole = whole.replace(letter, other)
    assert said == whole


def test_json_is_utf_8_on_any_screen(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    text = JOB.read_text(encoding="utf-8").replace('name = "', 'name = "Hängelasche \u2192 ', 1)
    job.write_text(text, encoding="utf-8")
    told = json.loads(said_on("latin-1", "check", str(job), "--json"))
    assert told["part"]["name"].startswith("Hängelasche \u2192 ")


def test_a_name_of_bytes_that_are_no_letters(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made, other, missing = (
        str(tmp_path / f"{name}.toml") for name in ("\udcff", "\udcfe", "\udcfd")
    )
    assert os.fsencode(made) in said_on("utf-8", "new", made)
    assert Path(made).is_file()
    assert json.loads(said_on("utf-8", "new", other, "--json"))["file"] == other
    assert main(["check", missing]) == 2
    said = capsys.readouterr().err
    assert "there is no such job file" in said
    assert said.count("\n") == 1


@pytest.fixture(scope="module")
def usual() -> bytes:
    return run(*STROKE, "--angle", "90", "--json").stdout


@pytest.mark.parametrize(
    "env",
    [
        {
            "HOME": None, "XDG_DATA_HOME": None, "XDG_CACHE_HOME": None, "COLUMNS": "10",
            "TMPDIR": "/nowhere/at/all", "TZ": "Pacific/Kiritimati", "NO_COLOR": "1",
        },
        {"LANG": "tr_TR.UTF-8", "LC_ALL": "tr_TR.UTF-8", "TZ": "nonsense", "COLUMNS": "0"},
        {"LANG": "C", "LC_ALL": "C", "PYTHONUTF8": "0", "TERM": "dumb"},
    ],
    ids=["nothing", "turkish", "plain"],
)  # fmt: skip
def test_surroundings_change_no_figure(env: dict[str, str | None], usual: bytes) -> None:
    done = run(*STROKE, "--angle", "90", "--json", env=env)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout == usual


def test_help_on_a_screen_of_ten_columns(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "10")
    assert main(["--help"]) == 0
    assert "plan" in capsys.readouterr().out


@pytest.mark.parametrize(("mask", "mode"), [(0o077, 0o600), (0o022, 0o644)])
def test_nobody_but_the_owner_reads_what_a_careful_umask_made(
    mask: int, mode: int, tmp_path: Path
) -> None:
    before = os.umask(mask)
    try:
        assert main(["new", str(tmp_path / "job.toml")]) == 0
        assert main(["angles", "90", "--out", str(tmp_path / "gauges.pdf")]) == 0
    finally:
        os.umask(before)
    assert {path.stat().st_mode & 0o777 for path in tmp_path.iterdir()} == {mode}


def test_no_browser_is_needed_to_serve(tmp_path: Path) -> None:
    """It prints the address; nothing is opened, and nothing missing for it is missed."""
    command = [sys.executable, "-m", "strapwright", "serve", "--port", "0"]
    env = {**os.environ, "PATH": "/nowhere", "BROWSER": "nothing", "DISPLAY": ""}
    with subprocess.Popen(
        [*command, "--store", str(tmp_path)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=env,
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline().startswith("Open http://127.0.0.1:")
        process.terminate()
        _, said = process.communicate(timeout=120)
    assert said == ""


def test_no_network_is_needed_to_plan(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def refused(*_: object, **__: object) -> None:
        raise OSError("Network is unreachable")

    for name in ("socket", "create_connection", "getaddrinfo"):
        monkeypatch.setattr(socket, name, refused)
    assert main(["plan", str(JOB), "--out", str(tmp_path / "out")]) == 0
    assert (tmp_path / "out" / "sheet.pdf").is_file()


@pytest.fixture
def odd(tmp_path: Path) -> Path:
    shutil.copy(JOB, tmp_path / "job.toml")
    text = JOB.read_bytes()
    (tmp_path / "bom.toml").write_bytes(b"\xef\xbb\xbf" + text)
    (tmp_path / "crlf.toml").write_bytes(text.replace(b"\n", b"\r\n"))
    (tmp_path / "nul.toml").write_bytes(text + b"\0")
    (tmp_path / "utf16.toml").write_bytes(text.decode().encode("utf-16"))
    (tmp_path / "cr.toml").write_bytes(text.replace(b"\n", b"\r"))
    os.mkfifo(tmp_path / "pipe.toml")
    (tmp_path / "folder.toml").mkdir()
    (tmp_path / "loop.toml").symlink_to(tmp_path / "loop.toml")
    (tmp_path / "dangling.toml").symlink_to(tmp_path / "nothing")
    (tmp_path / "link.toml").symlink_to(tmp_path / "job.toml")
    return tmp_path


USABLE = ("bom.toml", "crlf.toml", "link.toml")
UNUSABLE = (
    *("nul.toml", "utf16.toml", "cr.toml", "pipe.toml", "folder.toml", "loop.toml"),
    *("dangling.toml", "x" * 300 + ".toml", "x" * 100_000, "\udcff", "", ".", "job.toml/x"),
    *("/proc/self/mem", "/proc/kmsg", "/proc/self/environ", "/dev/null", "/dev/zero", "/dev/tty"),
)


@pytest.mark.parametrize("name", USABLE)
def test_a_job_file_of_another_make_is_the_same_job(
    name: str, odd: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(odd / "job.toml")]) == 0
    usual = capsys.readouterr().out
    assert main(["check", str(odd / name)]) == 0
    assert capsys.readouterr().out == usual


@pytest.mark.parametrize(
    "words",
    [
        ("check",),
        ("plan",),
        ("cut",),
        ("cut", "{odd}/job.toml", "--rack"),
        ("quote", "{odd}/job.toml", "--rates"),
        ("tooling", "make"),
        ("holes",),
        ("week",),
        ("study", "--out", "{odd}/out"),
        ("batch", "--out", "{odd}/out"),
        ("drill", "1/4", "--crib"),
        ("restore", "--store", "{odd}/store"),
        ("log", "list", "--store", "{odd}/store"),
    ],
    ids=" ".join,
)
def test_what_is_no_file_of_the_shop_is_one_sentence(
    words: tuple[str, ...], odd: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in UNUSABLE:
        if words[0] == "batch" and name in (".", "folder.toml"):
            continue  # a folder is what it wants
        if words[:2] == ("log", "list") and name == "cr.toml":
            continue  # it looks a text up, whatever that says, and finds no line
        path = name if name.startswith("/") or not name else str(odd / name)
        code = main([*(word.format(odd=odd) for word in words), path])
        said = capsys.readouterr()
        assert (code, said.out) == (2, ""), name[:80]
        assert said.err.count("\n") == 1, name[:80]
        assert said.err.endswith((".\n", "?\n")), name[:80]
        assert len(said.err) < 600, name[:80]


@pytest.mark.parametrize(
    "words",
    [
        ("plan", "{job}", "--out", "{bad}"),
        ("angles", "90", "--out", "{bad}.pdf"),
        ("new", "{bad}.toml"),
        ("backup", "{bad}.db", "--store", "{odd}/store"),
        ("serve", "--port", "0", "--store", "{bad}"),
        ("lot", "new", "x", "--store", "{bad}"),
        ("quote", "{job}", "--rates", "{odd}/rates.toml", "--out", "{bad}.pdf"),
        ("batch", "{odd}", "--out", "{bad}"),
        ("demo", "--out", "{bad}"),
    ],
    ids=" ".join,
)
def test_a_place_that_nothing_can_be_written_to_is_one_sentence(
    words: tuple[str, ...], odd: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["lot", "new", "x", "--store", str(odd / "store")]) == 0
    (odd / "rates.toml").write_text(
        'format = 1\nunits = "inch"\n[money]\ncurrency = "NOK"\nlabour = 450\n'
        '[[price]]\nprice = 12\nby = "kg"\n',
        encoding="utf-8",
    )
    capsys.readouterr()
    for bad in ("x" * 300, "x" * 100_000, "/proc/out", "loop.toml/out"):
        place = bad if bad.startswith("/") else f"{odd}/{bad}"
        names = {"odd": odd, "bad": place, "job": odd / "job.toml"}
        code = main([word.format(**names) for word in words])
        said = capsys.readouterr()
        assert (code, said.out) == (2, ""), bad[:80]
        assert said.err.count("\n") == 1, bad[:80]
        assert said.err.endswith(".\n"), bad[:80]
        assert len(said.err) < 700, bad[:80]


@pytest.mark.parametrize(
    ("size", "means"),
    [
        ("\u0661/\u0664", None),  # Arabic-Indic digits
        ("1/4\u200f", None),  # a mark for writing from the right
        ("\u202e4/1", None),
        ("\uff11/\uff14", None),  # full-width
        ("1e400", None),
        ("1e-400 in", None),
        ("9" * 5000, None),
        ("1E5 mm", None),
        ("0,25 in", None),
        ("1/4", "1/4"),
        (" 1/4 in ", "1/4"),
    ],
)
def test_digits_of_other_scripts_and_sizes_beyond_the_shop(
    size: str, means: str | None, capsys: pytest.CaptureFixture[str]
) -> None:
    code = main(["drill", size, "--units", "inch"])
    said = capsys.readouterr()
    if means is None:
        assert (code, said.out) == (2, "")
        assert said.err.count("\n") == 1
    else:
        assert code == 0
        assert means in said.out
