"""How much a file may hold: refused before a parser sees it, which is slow or hungry beyond."""

from __future__ import annotations

import re

from strapwright.errors import InputError

# A job has a few thousand characters and a full rack some fifty thousand; more is a slip or an
# attack.  A key of many dots takes a parser memory with the square of their number.
LONGEST_FILE = 100_000  # characters
MOST_LINES = 5_000
MOST_VALUES = 10_000  # keys, and entries of lists
DEEPEST = 8  # names joined by dots, and brackets within brackets
MOST_DIGITS = 40  # in a row

# One look at each character: what is matched is never given back, a name is begun at its front
# alone, and a text that is not closed goes to the end of its line, or of the file.
_TEXTS = re.compile(
    r'"""(?:\\.|[^\\])*?(?:"""|\Z)|\'\'\'.*?(?:\'\'\'|\Z)'
    r'|"(?:\\.|[^"\\\n])*+"?|\'[^\'\n]*+\'?|(#[^\n]*)',
    re.DOTALL,
)
_DOTTED = re.compile(rf"(?<![\w\-])[\w\-]++(?:[ \t]*+\.[ \t]*+[\w\-]++){{{DEEPEST},}}")
_DIGITS = re.compile(rf"[0-9_]{{{MOST_DIGITS + 1},}}")
_NO_JOB = "this is too big to be a job file"


def refuse_beyond_limits(text: str, where: str) -> None:
    """Refuse a text that no person writes and that a parser should not be given.

    Parameters
    ----------
    text
        The file.
    where
        Its name, for the message.

    Raises
    ------
    InputError
        With what there is too much of, and the line where one is to blame.
    """
    if len(text) > LONGEST_FILE:
        raise InputError(
            where, f"the file has {len(text)} characters, more than {LONGEST_FILE}", _NO_JOB
        )
    lines = text.count("\n") + 1
    if lines > MOST_LINES:
        raise InputError(where, f"the file has {lines} lines, more than {MOST_LINES}", _NO_JOB)
    # Quoted texts and comments may hold anything: a name stands for the one, nothing for the other.
    bare = _TEXTS.sub(lambda found: "" if found[1] else "q" + "\n" * found[0].count("\n"), text)
    values = bare.count("=") + bare.count(",")
    if values > MOST_VALUES:
        raise InputError(where, f"the file has {values} values, more than {MOST_VALUES}", _NO_JOB)
    for pattern, problem, remedy in (
        (_DOTTED, f"more than {DEEPEST} names are joined by dots", "write tables as [press]"),
        (_DIGITS, f"a number has more than {MOST_DIGITS} digits", "write it shorter"),
    ):
        found = pattern.search(bare)
        if found is not None:
            line = bare.count("\n", 0, found.start()) + 1
            raise InputError(where, problem, remedy, line=line)
    depth = 0
    for found in re.finditer(r"[\[{\]}]", bare):
        depth += 1 if found[0] in "[{" else -1
        if depth > DEEPEST:
            line = bare.count("\n", 0, found.start()) + 1
            raise InputError(
                where, f"more than {DEEPEST} brackets are open", "close each bracket", line=line
            )
