"""One bend over the pieces of a batch, as text and as plain data."""

from __future__ import annotations

import math
import textwrap
from typing import Any

from attrs import asdict

from strapwright.service.shop_log.batch import Batch
from strapwright.wording.shop_log.batch_words import (
    chart_words,
    first_words,
    marked_words,
    moved_words,
)

WIDTH = 88  # columns


def batch_sentences(found: Batch) -> list[str]:
    """Say how a batch goes, a sentence or two a line."""
    said = [] if found.first is None else [first_words(found.first)]
    if found.moved is not None and found.cause is not None:
        said.append(moved_words(found.moved, found.cause, found.pieces[found.moved.since].part))
    if found.chart is not None:
        said.append(chart_words(found.chart))
    return said


def piece_notes(found: Batch, place: int) -> list[str]:
    """Say what is to be looked at of one piece, by its place from 0."""
    marked = {} if found.chart is None else dict(found.chart.marked)
    notes = [] if found.pieces[place].inside else ["out of tolerance"]
    return notes + ([marked_words(marked[place])] if place in marked else [])


def batch_to_text(found: Batch) -> str:
    """Write a batch: each piece, then how it goes."""
    if not found.pieces:
        return "No angle of this bend is in the log yet.\n"
    wanted, tolerance = math.degrees(found.wanted), math.degrees(found.tolerance)
    lines = [f"Bend {found.bend}, {wanted:.4g}° ± {tolerance:.2g}°"]
    for place, one in enumerate(found.pieces):
        notes = piece_notes(found, place)
        tail = f"  {', '.join(notes)}" if notes else ""
        lines.append(f"  part {one.part:>3}  {math.degrees(one.free):6.1f}°{tail}")
    said = [line for one in batch_sentences(found) for line in textwrap.wrap(one, WIDTH)]
    return "\n".join([*lines, "", *said]) + "\n"


def batch_to_data(found: Batch) -> dict[str, Any]:
    """Turn a batch into plain data: degrees and MPa."""
    chart, moved = found.chart, found.moved
    return {
        "format": 1,
        "bend": found.bend,
        "wanted_deg": math.degrees(found.wanted),
        "tolerance_deg": math.degrees(found.tolerance),
        "first_part": found.first,
        "parts": [
            {
                "part": one.part,
                "line": one.line,
                "free_angle_deg": math.degrees(one.free),
                "at_one_stop_deg": math.degrees(one.at_one_stop),
                "gauge_MPa": one.gauge,
                "in_tolerance": one.inside,
            }
            for one in found.pieces
        ],
        "chart": None
        if chart is None
        else {
            **{
                f"{name}_deg": math.degrees(value)
                for name, value in asdict(chart).items()
                if isinstance(value, float)
            },
            "enough": chart.enough,
            "marked": [{"part": found.pieces[i].part, "rule": rule} for i, rule in chart.marked],
        },
        "moved": None
        if moved is None
        else {
            "seen_at_part": found.pieces[moved.seen].part,
            "since_part": found.pieces[moved.since].part,
            "size_deg": math.degrees(moved.size),
            "cause": found.cause,
        },
    }
