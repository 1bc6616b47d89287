"""Quick answers on a page say what the commands say, and no command is missing from the pages."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
from pypdf import PdfReader
from test_web import HOSTILE, PORT, Browser

from strapwright.cli.main import COMMANDS, group, main
from strapwright.pages.shop_work.quick_answers import asked_in
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store
from strapwright.web import create_app

# Where a person finds on the pages what each command does, and words that stand there; the job is
# the example.
ON_A_PAGE = {
    "angles": ("/bench", "Paper gauges for angles"),
    "backup": ("/settings", "Download a backup"),
    "check": ("/jobs/{job}/part", "Note"),
    "cut": ("/cut", "Cut plan"),
    "demo": ("/", "Open the example"),
    "drill": ("/bench", "Nearest drill"),
    "fit": ("/bench", "Fit"),
    "force": ("/bench", "Gauge and force"),
    "holes": ("/jobs/{job}/making", "Making sheets"),
    "learned": ("/jobs/{job}/log/learned", "before the log"),
    "log add": ("/jobs/{job}/log", "Keep, next bend"),
    "log chart": ("/jobs/{job}/log", "log/chart"),
    "log correct": ("/jobs/{job}/log/lines?line=1", "Correct the line"),
    "log csv": ("/jobs/{job}/log", "log.csv"),
    "log list": ("/jobs/{job}/log/lines", "part 1, bend 1"),
    "lot grade": ("/jobs/{job}/log/bar", "Unknown bar"),
    "lot list": ("/lots", "Lots"),
    "lot merge": ("/lots", 'value="merge"'),
    "lot new": ("/lots", 'value="new"'),
    "lot retire": ("/lots", 'value="retire"'),
    "lot split": ("/lots", 'value="split"'),
    "lot trial": ("/jobs/{job}/log/trial", "rial"),
    "materials": ("/bench", "Metals of the catalog"),
    "more": ("/jobs/{job}/bends/1", "How much further to push"),
    "new": ("/new", "A new part"),
    "payback": ("/jobs/{job}/money", "The way you make it today"),
    "plan": ("/jobs/{job}/print", "All files of the plan"),
    "quote": ("/jobs/{job}/money", "uote"),
    "restore": ("/settings", "can be restored into an empty store"),
    "stroke": ("/bench", "One bend"),
    "tap": ("/bench", "Tap drill"),
    "tooling change": ("/jobs/{job}/making/change", "Change the tooling"),
    "tooling check": ("/jobs/{job}/strength", "Does it hold"),
    "tooling make": ("/jobs/{job}/making", "Making sheets"),
    "tooling propose": ("/jobs/{job}/propose", "Find tooling"),
    "week": ("/week", "Week"),
}
# Starts the pages, works through folders of files for minutes to hours, or takes a table of pushes.
COMMAND_ALONE = {"serve", "batch", "study", "log import"}


def every_command() -> set[str]:
    """Each command, and of those with commands of their own each of these."""
    found = set()
    for name in COMMANDS:
        command = group.get_command(click.Context(group), name)
        below = (
            command.list_commands(click.Context(command))
            if isinstance(command, click.Group)
            else []
        )
        found |= {f"{name} {one}" for one in below} or {name}
    return found


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Browser]:
    with open_store(tmp_path / "store") as store:
        yield Browser(create_app(Workshop(store), PORT))


def answer(client: Browser, **asked: str) -> str:
    page = client.get("/bench", params=asked)
    assert page.status_code == 200, re.findall(r"wrong-line[^<]*<?", page.text)
    return html.unescape(re.findall(r"(?s)<pre class=.answer.*?>(.*?)</pre>", page.text)[0])


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"ask": "force", "bore": "4 in", "pressure": "2500 psi"},
         ["force", "--bore", "4 in", "--pressure", "2500 psi"]),
        ({"ask": "fit", "size": "25 mm", "classes": "H7/g6"}, ["fit", "25 mm", "H7/g6"]),
        ({"ask": "tap", "thread": "3/8-16"}, ["tap", "3/8-16"]),
        ({"ask": "drill", "size": "8.5", "units": "metric"}, ["drill", "8.5", "--units", "metric"]),
        ({"ask": "materials"}, ["materials"]),
        ({"ask": "stroke", "bar": "flat 1/4 x 2", "material": "A36", "opening": "3",
          "nose_radius": "3/4", "shoulder_radius": "1/2", "angle": "90", "units": "inch"},
         ["stroke", "--bar", "flat 1/4 x 2", "--material", "A36", "--opening", "3",
          "--nose-radius", "3/4", "--shoulder-radius", "1/2", "--angle", "90", "--units", "inch"]),
    ],
)  # fmt: skip
def test_a_page_says_what_the_command_says(
    client: Browser, capsys: pytest.CaptureFixture[str], asked: dict[str, str], words: list[str]
) -> None:
    assert main(words) == 0
    said = capsys.readouterr().out
    shown = answer(client, **asked)
    # The command says both systems of units, the page that of the device or of the question.
    for line, part in zip(said.strip().splitlines(), shown.strip().splitlines(), strict=True):
        lacks = left_out(line, part)
        assert {one for one in lacks if not re.fullmatch(r"[\d.]+", one)} <= OTHER_UNITS, line
        assert lacks == set() or asked["ask"] not in ("stroke", "fit"), line


# What a line of a command has more than that of the page: figures of the other system of units.
OTHER_UNITS = {"", "=", "in", "mm", "mm²", "kN", "tonnes", "MPa", "to"}


def left_out(line: str, part: str) -> set[str]:
    """Words of a line that its part on the page lacks; all of the part stands in it, in order."""
    words, lacks = [one.strip(",;()") for one in line.split()], set[str]()
    for own in (one.strip(",;()") for one in part.split()):
        assert own in words, f"{own!r} is not in {line!r}"
        at = words.index(own)
        lacks |= set(words[:at])
        words = words[at + 1 :]
    return lacks | set(words)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"ask": "force", "bore": "four"}, "Bore: "),
        ({"ask": "force", "bore": "4"}, "Bore: The unit is missing"),
        ({"ask": "fit", "size": "25 mm"}, "neither a size with its classes"),
        ({"ask": "fit", "size": "1", "classes": "H7/g6"}, "Size: The unit is missing"),
        ({"ask": "tap", "thread": "3/9-16"}, "Thread: "),
        ({"ask": "tap", "thread": "3/8-16", "percent": "many"}, "not a plain number"),
        ({"ask": "drill", "size": HOSTILE}, "Size or name: "),
        ({"ask": "stroke"}, "Bar: "),
        ({"ask": "stroke", "bar": "flat 1/4 x 2 in", "material": "A36", "opening": "3 in"},
         "Nose radius: "),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_by_the_label_of_its_field(
    client: Browser, asked: dict[str, str], said: str
) -> None:
    page = client.get("/bench", params=asked)
    assert page.status_code == 422
    assert said in html.unescape(page.text)
    assert HOSTILE not in page.text
    assert "--" not in html.unescape(re.findall(r'role="alert">(.*?)</p>', page.text)[0])


@pytest.mark.parametrize(
    ("size", "units"),
    [("No. 7", "inch"), ("N", "inch"), ("letter M", "inch"), ("M10 x 1.5", "metric"),
     ("8 mm", "metric"), ("250 N", "metric"), ("3 m", "metric"), ("#7", "inch")],
)  # fmt: skip
def test_the_name_of_a_drill_is_no_metric_unit(size: str, units: str) -> None:
    assert asked_in({"size": size}) == units


def test_paper_gauges_are_printed(client: Browser, tmp_path: Path) -> None:
    raw = client.get("/bench/gauges.pdf", params={"angles": "90 92.6", "paper": "a4"}).content
    (tmp_path / "gauges.pdf").write_bytes(raw)
    text = " ".join(one.extract_text() for one in PdfReader(tmp_path / "gauges.pdf").pages)
    assert "92.6" in text
    for wrong in ("", "ninety", "200"):
        assert client.get("/bench/gauges.pdf", params={"angles": wrong}).status_code == 400


def test_nothing_that_commands_do_is_missing_from_the_pages(client: Browser) -> None:
    assert every_command() == set(ON_A_PAGE) | COMMAND_ALONE
    job = re.findall(r"[0-9a-f]{32}", client.post("/demo", follow=False).headers["location"])[0]
    typed = {"part": "1", "bend": "1", "angle": "88", "sure": "yes"}
    assert client.post(f"/jobs/{job}/log", data=typed, follow=False).status_code == 303
    client.post("/lots", data={"do": "new", "name": "spare", "material": "A36 hot rolled"})
    pages = {where: client.get(where.format(job=job)) for where, _ in ON_A_PAGE.values()}
    assert {where for where, answer in pages.items() if answer.status_code != 200} == set()
    missing = {
        command: (where, words)
        for command, (where, words) in ON_A_PAGE.items()
        if words not in pages[where].text
    }
    assert missing == {}
