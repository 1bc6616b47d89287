"""A cut plan as text for a terminal, as plain data and as a table for other programs."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from typing import Any

from strapwright.cutting.laid_bars import LaidBar
from strapwright.cutting.shop_cuts import SectionCuts
from strapwright.wording.bars_and_money.cut_words import CutWords

FORMAT = 1
NO_KERF = "No saw is entered: the kerf of a usual band saw is used. Measure one cut of yours."
# (bar size, bar) -> what to write on its off-cut.
Labels = Mapping[tuple[int, int], str]


def cut_to_text(
    sections: tuple[SectionCuts, ...],
    words: CutWords,
    labels: Labels,
    *,
    assumed_kerf: bool,
    mark: str,
) -> str:
    """Write the cut plan: each bar size, each bar, each stop setting with where the pieces end.

    Parameters
    ----------
    sections
        One for each bar size.
    words
        In whose units.
    labels
        Of the off-cuts to keep.
    assumed_kerf
        Whether no saw is stated.
    mark
        Of the plan.
    """
    lines: list[str] = []
    for number, cuts in enumerate(sections):
        lines += [*_section(cuts, words, number, labels), ""]
    if assumed_kerf:
        lines.append(NO_KERF)
    lines.append("Positions are from the end that was squared; the saw cuts on the far side.")
    lines.append(f"The mark of this plan is {mark}.")
    return "\n".join(lines) + "\n"


def _section(cuts: SectionCuts, words: CutWords, number: int, labels: Labels) -> Iterator[str]:
    yield f"{words.bar_name(cuts.bar)}, {cuts.material}"
    yield f"  {words.summary(cuts)} {words.proof(cuts)}"
    yield f"  {words.saw(cuts)} {round(100 * cuts.used)} % of the metal is used or kept."
    if note := words.new_bar_note(cuts):
        yield f"  {note}"
    for at, bar in enumerate(cuts.bars):
        source = cuts.sources[bar.kind]
        yield ""
        yield f"  Bar {at + 1}: {words.length(bar.length)}, {words.origin(source)}"
        for line in words.lines(cuts, bar):
            yield f"    {line.count} x {line.length}  {line.name}"
            yield from _wrapped(line.ends)
        label = labels.get((number, at))
        written = f", write on it {label!r}" if label else ""
        yield f"    {words.left(cuts, bar)}{written}"


def _wrapped(ends: tuple[str, ...]) -> Iterator[str]:
    for begin in range(0, len(ends), 6):
        before = "ends at " if begin == 0 else "        "
        yield f"        {before}{', '.join(ends[begin : begin + 6])}"


def cut_to_data(
    sections: tuple[SectionCuts, ...],
    words: CutWords,
    labels: Labels,
    *,
    assumed_kerf: bool,
    mark: str,
) -> dict[str, Any]:
    """Return the cut plan as plain data; parameters as of :func:`cut_to_text`.

    Lengths are in mm, starts and ends from the bar's own end, before it is squared.
    """
    return {
        "format": FORMAT,
        "units": words.units,
        "assumed_kerf": assumed_kerf,
        "mark": mark,
        "sections": [
            {
                "bar": words.bar_name(cuts.bar),
                "section": cuts.bar.section,
                "thickness_mm": cuts.bar.thickness,
                "width_mm": cuts.bar.width,
                "material": cuts.material,
                "kerf_mm": cuts.kerf,
                "squaring_mm": cuts.squaring,
                "least_offcut_mm": cuts.least_offcut,
                "bought": cuts.plan.new,
                "at_least": cuts.plan.least,
                "proven": cuts.plan.proven,
                "longest_first_bought": cuts.plan.first_fit,
                "seconds": round(cuts.plan.seconds, 3),
                "cuts": cuts.cuts,
                "stop_settings": cuts.settings,
                "used_share": cuts.used,
                "pieces": [
                    {"name": one.name, "length_mm": one.length, "quantity": one.quantity}
                    for one in cuts.pieces
                ],
                "bars": [
                    _bar_data(cuts, bar, labels.get((number, at)))
                    for at, bar in enumerate(cuts.bars)
                ],
            }
            for number, cuts in enumerate(sections)
        ],
    }


def _bar_data(cuts: SectionCuts, bar: LaidBar, label: str | None) -> dict[str, Any]:
    source = cuts.sources[bar.kind]
    return {
        "from": source.name,
        "origin": source.origin,
        "bought": source.bought,
        "length_mm": bar.length,
        "pieces": [
            {"name": cuts.pieces[one.number].name, "start_mm": one.start, "end_mm": one.end}
            for one in bar.pieces
        ],
        "sawdust_mm": bar.sawdust,
        "offcut_mm": bar.offcut,
        "kept": cuts.keeps(bar),
        "label": label,
    }


def cut_to_csv(sections: tuple[SectionCuts, ...], words: CutWords) -> str:
    """Return the cut list as comma-separated values, a line a piece, in the order of sawing."""
    into = io.StringIO()
    table = csv.writer(into, lineterminator="\n")
    table.writerow(
        ["bar size", "material", "bar", "from", "piece", "length", "length mm", "ends at",
         "ends at mm"]
    )  # fmt: skip
    for cuts in sections:
        for at, bar in enumerate(cuts.bars, start=1):
            for piece in bar.pieces:
                wanted = cuts.pieces[piece.number]
                table.writerow(
                    [
                        words.bar_name(cuts.bar),
                        cuts.material,
                        at,
                        words.origin(cuts.sources[bar.kind]),
                        _plain(wanted.name),
                        words.length(wanted.length),
                        f"{wanted.length:.3f}",
                        words.length(piece.end - cuts.squaring),
                        f"{piece.end - cuts.squaring:.3f}",
                    ]
                )
    return into.getvalue()


def _plain(name: str) -> str:
    """Keep a name that begins like a formula from being taken for one."""
    return f"'{name}" if name[:1] in "=+-@\t\r" else name
