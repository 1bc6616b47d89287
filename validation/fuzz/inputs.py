"""Inputs that no person writes, each made from its kind, a seed and a number and from nothing else.

What a person does write is taken apart and put together again: lines and values of the examples
change places, figures grow, shrink and change sign, characters go astray.
"""

from __future__ import annotations

import io
import json
import random
import re
import zipfile
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = ("docs/examples", "docs/examples/studies", "src/strapwright/service/demo_jobs")

NUMBERS = (
    *(
        "0",
        "1",
        "2",
        "1/4",
        "1-1/2",
        "3 1/8",
        "1/0",
        "0/5",
        "-3",
        "+2.5",
        ".5",
        "5.",
        "1e3",
        "1e400",
    ),
    *("-1e-400", "nan", "inf", "1,5", "1.000,5", "1_000", "9" * 41, "0" * 60, "½", "1¾", "٣", "²"),
    *("0x10", "1//2", "--1", "1-", "1 2 3", "1e", "1/2/3", "360", "90", "6000", "0.001", "25.4"),
)
UNITS = (
    *(
        "",
        "in",
        "inch",
        '"',
        "''",
        "ft",
        "'",
        "mm",
        "cm",
        "m",
        "deg",
        "°",
        "rad",
        "psi",
        "MPa",
        "bar",
    ),
    *(
        "kPa",
        "ksi",
        "lb",
        "lbf",
        "kN",
        "N",
        "t",
        "ton",
        "tons",
        "kgf",
        "l/min",
        "gpm",
        "mm mm",
        "parsec",
    ),
    *("µm", "thou", "’", "″", "%", "IN", "Mm", "\u200b", "\0", "\ud7ff", "𝟗", "\n", "\t"),
)
JOINTS = ("", " ", "-", "+", " and ", "/", " x ", "±", ",", ";", "  ")
VALUES = (
    *("true", "false", "0", "-1", "1e400", "nan", "-inf", "1979-05-27", "9223372036854775808"),
    *('""', '"\\u0000"', '"1/0"', '"flat 1 x"', '"a.toml"', "[]", "{}", "[[1]]", '["up 90", 3]'),
    *('"flat 1/4 x 2"', '"round 1/2"', '"square 12"', '"A36"', '"6061-T6"', '"up 90"', '"down 45"'),
    *(
        '"0"',
        '"-5"',
        '"1e9 mm"',
        '"1e-9 mm"',
        '"1000 ft"',
        '"0.0001 in"',
        '"179.9 deg"',
        '"360 deg"',
    ),
)
CHARACTERS = "\"'[]{}=#.,\\\n\r\t \0\x7f\u00a0\u2028\ufeff\ud7ffeE+-0123456789abcxyzäβ𝟗"
KINDS = ("quantities", "limits", "jobs", "plans", "json", "uploads", "backups", "forms")


def rng_of(kind: str, seed: int, number: int) -> random.Random:
    """Return where an input gets its chances from."""
    return random.Random(f"{kind} {seed} {number}")  # noqa: S311  to be repeated, not to be secret


@cache
def examples() -> tuple[str, ...]:
    """Texts of the job and shop files of this project."""
    found = [path for folder in FOLDERS for path in sorted((ROOT / folder).glob("*.toml"))]
    return tuple(path.read_text(encoding="utf-8") for path in found)


@cache
def quick_examples() -> tuple[str, ...]:
    """Those of a single part that need no other file and are planned in no time."""
    found = [
        text for text in examples() if "[part]" in text and not re.search(r'= "[^"]*\.toml"', text)
    ]
    return tuple(text for text in found if len(text) < 2200)


@cache
def lines_and_values() -> tuple[tuple[str, ...], tuple[str, ...]]:
    """All lines of the examples, and all that stands behind an equals sign there."""
    lines = [line for text in examples() for line in text.split("\n") if line.strip()]
    values = {line.partition("=")[2].partition("#")[0].strip() for line in lines if "=" in line}
    return tuple(lines), tuple(sorted(values))


def quantity(rng: random.Random) -> str:
    """A length, an angle, a pressure or what looks like one from afar."""
    parts = []
    for _ in range(rng.choice((1, 1, 1, 2, 2, 3, 5))):
        parts += [rng.choice(NUMBERS), rng.choice(("", " ", "", "-")), rng.choice(UNITS)]
        parts.append(rng.choice(JOINTS))
    text = "".join(parts[:-1])
    for _ in range(rng.choice((0, 0, 1, 2, 8))):
        text = _astray(text, rng)
    return text


def _astray(text: str, rng: random.Random) -> str:
    at = rng.randrange(len(text) + 1)
    return rng.choice(
        (
            text[:at] + rng.choice(CHARACTERS) + text[at:],
            text[:at] + text[at + 1 :],
            text[:at] + text[at : at + 4] * 2 + text[at + 4 :],
            text[:at] + chr(rng.choice((rng.randrange(0x20, 0x3000), 0x1F600))) + text[at + 1 :],
        )
    )


def job(rng: random.Random, from_texts: tuple[str, ...] | None = None) -> str:
    """A job file that was taken apart and put together again."""
    texts = from_texts or examples()
    lines = rng.choice(texts).split("\n")
    all_lines, all_values = lines_and_values()
    for _ in range(rng.choice((1, 1, 2, 3, 5, 12))):
        at = rng.randrange(len(lines)) if lines else 0
        how = rng.randrange(9)
        line = lines[at] if lines else ""
        if how == 0 and lines:
            del lines[at]
        elif how == 1:
            lines.insert(at, rng.choice(all_lines))
        elif how == 2:
            lines.insert(at, line)
        elif how in (3, 4, 5) and "=" in line:
            value = rng.choice(
                (rng.choice(VALUES), rng.choice(all_values), json.dumps(quantity(rng)))
            )
            lines[at] = f"{line.partition('=')[0]}= {value}"
        elif how == 6:
            lines[at : at + 1] = [_figures_changed(line, rng)]
        elif how == 7:
            lines[at : at + 1] = [_astray(line, rng)]
        else:
            other = rng.choice(texts).split("\n")
            lines = lines[:at] + other[rng.randrange(len(other)) :]
    return "\n".join(lines)


def plannable(rng: random.Random) -> str:
    """A job file in which figures alone have changed, so that most of them can be planned."""
    text = rng.choice(quick_examples())
    lines = text.split("\n")
    for _ in range(rng.choice((1, 1, 2, 3, 6))):
        at = rng.randrange(len(lines))
        if "=" in lines[at] and not lines[at].lstrip().startswith(("format", "#")):
            lines[at] = _figures_changed(lines[at], rng)
    return "\n".join(lines)


def _figures_changed(line: str, rng: random.Random) -> str:
    def changed(found: re.Match[str]) -> str:
        if rng.random() < 0.5:
            return found[0]
        value = float(found[0]) * rng.choice((0, 0.5, 0.9, 1.1, 1.5, 2, 10, 1000, 1e-3))
        return f"{value:.6g}"

    return re.sub(r"\d+(?:\.\d+)?(?![\d/\-])", changed, line)


def bomb(rng: random.Random) -> str:
    """A text with too much of something, or with nearly too much."""
    piece = rng.choice(
        (
            "a.",
            '"a".',
            "[",
            "{a=",
            "1,",
            "9",
            "[[a]]\n",
            "a = 1\n",
            "#",
            '"""',
            "'''",
            "\\",
            "\r\n",
            "=",
        )
    )
    count = rng.choice((1, 7, 8, 9, 39, 41, 500, 4999, 5001, 10_001, 40_000, 100_001))
    before = rng.choice(("", "format = 1\n", "a = ", "[part]\nname = ", '"', "# "))
    after = rng.choice(("", "\n", " = 1\n", "]", '"""', "}" * 50))
    text = before + piece * (count // len(piece) + 1) + after
    return _astray(text, rng) if rng.random() < 0.3 else text


def json_bytes(rng: random.Random) -> bytes:
    """What stands beside an export or in the store as JSON, bent out of shape."""
    whole = {
        "format": 1,
        "items": [{"file": "hook.toml", "kind": "job", "name": "hook", "archived": False}],
    }
    text = json.dumps(rng.choice((whole, whole["items"], {"format": 2}, [whole], "hook", None)))
    for _ in range(rng.choice((0, 1, 1, 2, 4, 9))):
        text = _astray(text, rng)
    if rng.random() < 0.05:
        text = "[" * rng.choice((900, 30_000)) + text
    raw = bytearray(text.encode("utf-8", "surrogatepass"))
    return bytes(_flipped(raw, rng)) if rng.random() < 0.3 else bytes(raw)


def archive(rng: random.Random) -> bytes:
    """A zip archive with odd names, odd contents or odd bytes."""
    packed = io.BytesIO()
    names = (
        "hook.toml",
        "a/b.toml",
        "../x.toml",
        "index.json",
        "con.toml",
        "ä.toml",
        "x.txt",
        "a\n.toml",
    )
    with zipfile.ZipFile(
        packed, "w", rng.choice((zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED))
    ) as made:
        for name in {rng.choice(names) for _ in range(rng.randrange(4))}:
            content = (
                json_bytes(rng) if name == "index.json" else job(rng).encode("utf-8", "replace")
            )
            made.writestr(name, content)
    raw = bytearray(packed.getvalue())
    return bytes(_flipped(raw, rng)) if rng.random() < 0.7 else bytes(raw)


def damaged(raw: bytes, rng: random.Random) -> bytes:
    """The same bytes with some turned, cut off, doubled, moved or emptied."""
    changed = bytearray(raw)
    how = rng.randrange(6)
    page = 4096
    at = rng.randrange(len(raw))
    if how <= 1:
        return bytes(_flipped(changed, rng))
    if how == 2:
        return bytes(changed[:at])
    if how == 3:
        changed[at : at + 64] = bytes(len(changed[at : at + 64]))
    elif how == 4:
        one, other = (rng.randrange(len(raw) // page) * page for _ in range(2))
        changed[one : one + page] = raw[other : other + page]
    else:
        changed[at : at + 16] = bytes(rng.randrange(256) for _ in range(len(changed[at : at + 16])))
    return bytes(changed)


def _flipped(raw: bytearray, rng: random.Random) -> bytearray:
    for _ in range(rng.choice((1, 1, 2, 4, 16))):
        if raw:
            raw[rng.randrange(len(raw))] ^= 1 << rng.randrange(8)
    return raw


def form(rng: random.Random) -> dict[str, str]:
    """Fields of a page as somebody might send them who never saw it."""
    names = (
        *(
            "part.name",
            "part.bar",
            "part.material",
            "part.quantity",
            "bar.section",
            "bar.thickness",
        ),
        *("bar.width", "bar.diameter", "part.shape[1]", "part.shape[2]", "part.shape[2].way"),
        *("part.shape[3]", "shape.count", "holes.count", "part.hole[1].leg", "part.hole[1].from"),
        *("part.hole[1].distance", "base", "do", "version", "press.bore", "press.relief", "units"),
        *("tooling.die_opening", "tooling.nose_radius", "turn", "tab", "size", "number", "page"),
    )
    values = (
        *VALUES, "up", "down", "add-leg", "drop-leg:2", "add-hole", "drop-hole:1", "natural", "yes",
        "earlier:1", "later:99", "remedy:0", "A36 hot rolled", "flat", "4", "90", "x" * 3000,
    )  # fmt: skip
    return {
        rng.choice(names): rng.choice((quantity(rng), rng.choice(values)))
        for _ in range(rng.randrange(1, 9))
    }
