"""A file that would eat time and memory is refused before it is parsed."""

from __future__ import annotations

import contextlib
import subprocess
import sys
import time

import pytest

from strapwright.errors import InputError
from strapwright.shop_files.opening import parse
from strapwright.shop_files.text_limits import refuse_beyond_limits
from strapwright.store.text_check import kind_of

HEAD = "format = 1\n"
BOMBS = {
    "dots": (HEAD + ".".join("a" * 40_000) + " = 1\n", "names are joined by dots"),
    "a dotted table": (HEAD + "[" + ".".join("a" * 40_000) + "]\n", "names are joined by dots"),
    "quoted dots": (HEAD + ".".join(['"a"'] * 20_000) + " = 1\n", "names are joined by dots"),
    "lists in lists": (HEAD + "a = " + "[" * 40_000 + "]" * 40_000, "brackets are open"),
    "tables in tables": (
        HEAD + "a = " + "{a = " * 5_000 + "1" + "}" * 5_000,
        "brackets are open",
    ),
    "digits": (HEAD + "a = " + "9" * 5_000 + "\n", "more than 40 digits"),
    "lines": (HEAD + "[[a]]\n" * 6_000, "lines, more than 5000"),
    "values": (HEAD + "a = [" + "1," * 20_000 + "]\n", "values, more than 10000"),
    "length": (HEAD + "#" * 100_000, "characters, more than 100000"),
}


# A guard that looks at a character again and again would be the bomb itself.
LONG_AND_HARMLESS = {
    "one long word": "a" * 90_000,
    "one long number": "a = " + "9" * 40,
    "quoted marks": "a = " + '""' * 40_000,
    "names within texts": '"a".' * 7 + '""a' * 20_000,
    "a text that is not closed": 'a = "' + '\\"' * 45_000,
    "dashes": "-" * 90_000,
    "many open texts": "'a" * 40_000,
    "spaces": "a" + " " * 90_000 + ".",
}


@pytest.mark.parametrize("text", LONG_AND_HARMLESS.values(), ids=LONG_AND_HARMLESS.keys())
def test_measuring_looks_at_each_character_once(text: str) -> None:
    """Counted in the processor's time: 6 to 60 s before, a hundredth of a second now."""
    began = time.process_time()
    with contextlib.suppress(InputError):
        refuse_beyond_limits(text, "job file")
    assert time.process_time() - began < 1.0


def test_a_key_twice_in_a_table_of_several_places_is_told() -> None:
    text = HEAD + "[money]\na = 1\n[part]\n[money.b]\n[part.c]\n[money]\na = 2\n"
    with pytest.raises(InputError, match="this is not a TOML file"):
        parse(text)


@pytest.mark.parametrize(("text", "said"), BOMBS.values(), ids=BOMBS.keys())
def test_a_bomb_is_refused_in_one_sentence(text: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        parse(text, "job file")
    assert kind_of(text) == "job"


def test_bombs_take_no_memory() -> None:
    """All of them at once with half a gigabyte, where one took more than twenty before."""
    program = f"""
import resource
resource.setrlimit(resource.RLIMIT_DATA, (5 << 28, 5 << 28))
from strapwright.errors import InputError
from strapwright.store.text_check import judge, kind_of
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
for text in {[text for text, _ in BOMBS.values()]!r}:
    assert judge(kind_of(text), text, {{}}).trouble
print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) // 1024)
"""
    done = subprocess.run(
        [sys.executable, "-"], input=program, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-500:]
    assert int(done.stdout) < 60  # MB


def test_what_a_person_writes_passes() -> None:
    """Comments and quoted names may hold dots and brackets; the line of a fault is told."""
    text = (
        HEAD + '# a.b.c.d.e.f.g.h.i.j [[[[[[[[[[ {{{{{{{{{\nname = "a.b.c.d.e.f.g.h.i.j [[[[[[[["\n'
    )
    refuse_beyond_limits(text + '[tooling.nose.x]\na = [1.5, 2.5, ["3.5"]]\n' * 1000, "job file")
    with pytest.raises(InputError) as said:
        parse(text + "a = 1\na.b.c.d.e.f.g.h.i = 2\n", "job file")
    assert said.value.line == 5
