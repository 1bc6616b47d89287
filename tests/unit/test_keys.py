"""A key of a job file stands once: everything else follows from it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from strapwright.shop.job import BlankSettings, HitSettings
from strapwright.shop.keys import keys_of, stated_by
from strapwright.shop.members import SEVERAL, SINGLE
from strapwright.shop.press import Press
from strapwright.shop_files.key_help import help_of
from strapwright.shop_files.known_keys import TABLES
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.template import new_job_text

ROOT = Path(__file__).resolve().parents[2]
MADE = {**TABLES, **SINGLE, **SEVERAL}

NEW_KEY = """
    spring: float = key(
        "force",
        default=500.0,
        help="push that the return spring takes from the ram",
        inch="100 lbf",
        metric="450 N",
        label="Return spring",
        group="cylinder",
    )
"""

FOLLOWS = """
from strapwright.errors import InputError
from strapwright.pages.form import field_at, form_text, open_form
from strapwright.pages.page_statements import labels
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.template import new_job_text
from strapwright.shop_files.writing import write_job
from make_key_tables import key_table

def job(line):
    return new_job_text("inch").replace("[press]", f"[press]\\n{line}")

def refused(line):
    try:
        read_job(job(line))
    except InputError as error:
        return str(error)
    return ""

# reader: unit, default, bounds, a slip in its name
assert abs(read_job(job("spring = '100 lbf'")).press.spring - 444.8221615) < 1e-6
assert read_job(new_job_text("inch")).press.spring == 500.0
assert "press.spring" in refused("spring = '1 N'"), refused("spring = '1 N'")
assert "out of range" in refused("spring = '1 N'")
assert 'did you mean "spring"' in refused("sprimg = '100 lbf'")
# writer
read = read_job(job("spring = '100 lbf'"))
assert 'spring = "0.05 tons (US)"' in write_job(read)
assert read_job(write_job(read)) == read
# the file to begin with, in both systems
told = "# Push that the return spring takes from the ram; default: 500 N."
assert f'{told}\\n# spring = "100 lbf"\\n' in new_job_text("inch")
assert f'{told}\\n# spring = "450 N"\\n' in new_job_text("metric")
# the page: label, help, example, and what is typed there
form = open_form(new_job_text("inch"), "press")
field = field_at(form, "press.spring")
assert (field.label, field.kind, field.example("inch")) == ("Return spring", "force", "100 lbf")
assert field.hint == "push that the return spring takes from the ram"
assert field.group == "1  Measure the cylinder"
assert labels()["press.spring"] == "Return spring"
typed = open_form(new_job_text("inch"), "press", {"press.spring": "90 lbf"})
assert read_job(form_text(new_job_text("inch"), typed)).press.spring > 400
# the handbook
row = "| `spring` | force | push that the return spring takes from the ram | 500 N |"
assert row in key_table("press")
"""


def test_one_key_more_in_the_press_is_read_written_begun_with_asked_for_and_described(
    tmp_path: Path,
) -> None:
    shutil.copytree(
        ROOT / "src" / "strapwright",
        tmp_path / "strapwright",
        ignore=shutil.ignore_patterns("__pycache__"),
    )
    press = tmp_path / "strapwright" / "shop" / "press.py"
    press.write_text(press.read_text(encoding="utf-8").rstrip() + NEW_KEY, encoding="utf-8")
    paths = os.pathsep.join((str(tmp_path), str(ROOT / "docs")))
    done = subprocess.run(
        [sys.executable, "-c", FOLLOWS],
        env={**os.environ, "PYTHONPATH": paths},
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize("name", MADE)
def test_every_key_says_what_reader_and_writer_need(name: str) -> None:
    names = [key.name for one in stated_by(MADE[name]) for key in one.keys]
    assert len(names) == len(set(names))
    for key in keys_of(MADE[name]).values():
        if key.kind == "choice":
            assert key.options
            assert set(key.words) <= set(key.options)
        if key.instead_of:
            assert key.instead_of in names
        if key.only_with is not None:
            other, word = key.only_with
            stands = keys_of(MADE[name])[other]
            # A list has a grammar of its own: its example is read with the file to begin with.
            assert word in stands.options or (stands.kind == "own" and word.startswith("["))


@pytest.mark.parametrize("name", TABLES)
def test_every_key_of_a_job_file_says_what_it_is(name: str) -> None:
    keys = [key for key in keys_of(TABLES[name]).values() if key.last == key.name]
    assert [key.name for key in keys if not help_of(key)] == []
    # What is told of a choice tells every word of it.
    for key in keys:
        assert [word for word in key.options if f'"{word}"' not in help_of(key)] == []


def test_a_value_made_without_a_file_has_the_defaults_of_the_file() -> None:
    text = new_job_text("inch")
    bare = text[: text.index("# The press.")] + "[press]\n[blank]\n[hits]\n"
    job = read_job(bare)
    assert (job.press, job.blank, job.hits) == (Press(), BlankSettings(), HitSettings())
