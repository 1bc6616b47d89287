"""A kept reading, and the log, as text and as plain data."""

from __future__ import annotations

import csv
import io
import math
import textwrap
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from strapwright.bending.bend_values import Band
from strapwright.learning.foretelling import Figure
from strapwright.planning.from_the_log.learned_job import own_bend
from strapwright.planning.from_the_log.pushed_bend import pushed_bend
from strapwright.service.file_access import write_new_file
from strapwright.service.shop_log.log_commands import Known, lines_of
from strapwright.service.shop_log.logged_push import Logged
from strapwright.service.shop_log.part_goes_on import Aim
from strapwright.service.shop_log.typed_readings import ANGLES, FIELDS, TIMED
from strapwright.shop.part_limits import bend_limit
from strapwright.store import LogEntry
from strapwright.wording.figures import Figures, figures_for
from strapwright.wording.reader import at_command
from strapwright.wording.shop_log.learned_words import LearnedWords, learned_words
from strapwright.wording.shop_log.log_words import (
    assumed_words,
    expected_words,
    further_words,
    measured_words,
    next_words,
    no_push_words,
    setting_words,
)
from strapwright.wording.telling import tell_all

WIDTH = 88  # columns
_ANGLES = (*ANGLES, "loaded")


def logged_sentences(found: Logged) -> list[str]:
    """Say what came of a reading, one sentence or two a line."""
    show = figures_for(found.job)
    head = f"part {found.part}, bend {found.bend}"
    if found.entry is None:
        asked = [one.sentence for one in tell_all(found.asked, at_command(found.job))]
        return [f"Not kept yet: {head}.", *asked]
    said = [f"Line {found.entry.line}: {head} kept."]
    said.append(assumed_words(found.travel, show) if found.assumed else "")
    said.append(expected_words(found.expected, show))
    said.append(measured_words(found.free, found.wanted, show))
    said.append(onward_words(found, show))
    if found.next_part is not None:
        said.append(next_words(found.next_part.travel, found.next_part.band, show))
    return [one for one in said if one]


def onward_words(found: Logged, show: Figures) -> str:
    """Say what follows for the part on the press; nothing before the line is kept."""
    then = found.onward
    if then is None:
        return ""
    if then.aim is not None:
        hits = pushed_bend(found.job, found.bend).hits
        return further_words(then.aim.travel, then.aim.band, found.travel, show, hits)
    return no_push_words(then.standing, bend_limit(found.job.part, found.bend)[0], show)


def logged_to_text(found: Logged) -> str:
    """Write what came of a reading."""
    lines = [line for one in logged_sentences(found) for line in textwrap.wrap(one, WIDTH)]
    return "\n".join(lines) + "\n"


def logged_to_data(found: Logged) -> dict[str, Any]:
    """Turn what came of a reading into plain data: mm, degrees, MPa."""
    expected = found.expected
    return {
        "format": 1,
        "kept": None if found.entry is None else entry_to_data(found.entry),
        "part": found.part,
        "bend": found.bend,
        "asked": [
            {"code": one.code, "text": one.text, "remedy": one.remedy}
            for one in tell_all(found.asked, at_command(found.job))
        ],
        "travel_mm": found.travel,
        "free_angle_deg": None if found.free is None else math.degrees(found.free),
        "wanted_deg": math.degrees(found.wanted),
        "expected": None
        if expected is None
        else {
            "free_angle_deg": _figure(expected.free, math.degrees(1.0)),
            "loaded_angle_deg": _figure(expected.loaded, math.degrees(1.0)),
            "gauge_MPa": None if expected.gauge is None else _figure(expected.gauge, 1.0),
        },
        "travel_assumed": found.assumed,
        "standing": None if found.onward is None else found.onward.standing,
        "further_mm": None if found.onward is None else _aim(found.onward.aim),
        "next_part_mm": _aim(found.next_part),
    }


def entry_to_data(entry: LogEntry) -> dict[str, Any]:
    """Turn a line of the log into plain data: figures in mm, degrees and MPa, and as typed."""
    return {
        "line": entry.line,
        "revision": entry.revision,
        "part": entry.part,
        "bend": entry.bend,
        "lot": entry.lot,
        "press": entry.press,
        "tooling": entry.tooling,
        "mounting": entry.mounting,
        "typed": dict(entry.typed),
        **_figures(entry),
        "counted": entry.counted,
        "why": entry.why,
        "kept_at": entry.kept_at.isoformat(timespec="seconds"),
    }


def known_to_text(known: Known) -> str:
    """Write what the log says of a job: each figure, then each bend before and now."""
    show = figures_for(known.job)
    blocks: list[list[str]] = []
    for words in known_words(known):
        if not blocks or blocks[-1][0] != f"The {words.thing}":
            blocks.append([f"The {words.thing}"])
        blocks[-1] += _indented(words.sentence)
    blank = tell_all(known.learned.blank_findings(known.job), at_command(known.job))
    blocks += [["The blank", *_indented(one.text)] for one in blank]
    if not blocks:
        blocks = [["The log says nothing yet of this bar lot, this press or this tooling."]]
    settings = ["Where to stop"]
    settings += [
        line
        for one in known.settings
        for line in _indented(
            setting_words(
                one.bend,
                one.before.travel,
                one.now.travel,
                (one.free_before, one.free_now),
                show,
            )
        )
    ]
    if known.settings:
        blocks.append(settings)
    if known.left_out:
        left = [f"  Line {line}: {why}" for line, why in known.left_out]
        blocks.append(["Not learned from", *left])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _indented(sentence: str) -> list[str]:
    return textwrap.wrap(sentence, WIDTH, initial_indent="  ", subsequent_indent="    ")


def known_words(known: Known) -> list[LearnedWords]:
    """Put each learned figure of a job into words."""
    bend = own_bend(known.job)
    if bend is None:
        return []
    show, setup = figures_for(known.job), pushed_bend(known.job, bend).setup
    return [learned_words(one, setup, show) for one in known.learned.figures(known.job)]


def known_to_data(known: Known) -> dict[str, Any]:
    """Turn what the log says of a job into plain data: mm, MPa, degrees, and words."""
    return {
        "format": 1,
        "lines": list(known.learned.learned.entries),
        "figures": [
            {
                "thing": one.thing,
                "name": one.name,
                "before": one.before,
                "now": one.now,
                "moved": one.moved,
            }
            for one in known_words(known)
        ],
        "settings": [
            {
                "bend": one.bend,
                "travel_mm": {"before": one.before.travel, "now": one.now.travel},
                "free_angle_deg": {
                    "before": _degrees(one.free_before),
                    "now": _degrees(one.free_now),
                },
            }
            for one in known.settings
        ],
        "outliers": [
            {"line": one.entry, "figure": one.kind} for one in known.learned.learned.outliers
        ],
        "not_learned_from": [{"line": line, "why": why} for line, why in known.left_out],
    }


def _degrees(band: Band) -> dict[str, float]:
    return {"low": math.degrees(band.low), "high": math.degrees(band.high)}


def log_to_text(entries: Sequence[LogEntry]) -> str:
    """Write lines of the log, one a line, as typed."""
    if not entries:
        return "The log has no line of this job yet.\n"
    lines = []
    for one in entries:
        typed = ", ".join(f"{name} {text}" for name, text in one.typed.items())
        left = "" if one.counted else "; not counted"
        why = f" ({one.why})" if one.why else ""
        lines += textwrap.wrap(
            f"{one.line}  part {one.part}, bend {one.bend}: {typed}{left}{why}",
            WIDTH,
            subsequent_indent="   ",
        )
    return "\n".join(lines) + "\n"


def log_to_csv(entries: Sequence[LogEntry]) -> str:
    """Write lines of the log as a table, figures in mm, degrees and MPa.

    Every column is there in every table and at the same place; the legs, of which a part has as
    many as it has, stand last.
    """
    measured = {name for one in entries for name in one.figures}
    legs = sorted((name for name in measured if name.startswith("leg ")), key=_leg)
    columns = [*_COLUMNS, *(_column(name) for name in legs)]
    out = io.StringIO(newline="")
    table = csv.DictWriter(out, columns)
    table.writeheader()
    for one in entries:
        data = entry_to_data(one)
        row = {name: data.get(name, "") for name in columns}
        row["note"] = one.typed.get("note", "")
        table.writerow({name: _plain(value) for name, value in row.items()})
    return out.getvalue()


def _plain(value: object) -> object:
    """A text that a spreadsheet would take for a formula is told from one by a quote."""
    if isinstance(value, str) and value[:1] in ("=", "+", "-", "@", "\t", "\r"):
        return f"'{value}"
    return value


def _figures(entry: LogEntry) -> dict[str, float]:
    return {
        _column(name): math.degrees(value) if name in _ANGLES else value
        for name, value in entry.figures.items()
    }


def _column(figure: str) -> str:
    """Name a figure of the log with its unit."""
    if figure == TIMED:
        return "handling_min"
    unit = "deg" if figure in _ANGLES else "MPa" if figure == "gauge" else "mm"
    return f"{figure.replace(' ', '_')}_{unit}"


def _leg(figure: str) -> int:
    return int(figure.removeprefix("leg "))


_COLUMNS = (
    *("line", "kept_at", "part", "bend", "lot", "press", "tooling", "mounting"),
    *(_column(figure) for _, figure in FIELDS.values()),
    _column(TIMED),
    *("counted", "note", "why"),
)


def _figure(figure: Figure, size: float) -> dict[str, float]:
    return {
        "value": figure.value * size,
        "low": figure.band.low * size,
        "high": figure.band.high * size,
    }


def _aim(aim: Aim | None) -> dict[str, float] | None:
    return None if aim is None else {"value": aim.travel, **_band(aim.band)}


def _band(band: Band) -> dict[str, float]:
    return {"low": band.low, "high": band.high}


def write_csv(path: Path, folder: Path | None, target: Path) -> int:
    """Write the log of a job as a table into a new file; return how many lines it has."""
    found = lines_of(path, folder)
    write_new_file(target, log_to_csv(found).encode())
    return len(found)
