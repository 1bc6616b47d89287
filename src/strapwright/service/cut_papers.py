"""A cut plan as it is handed over: text, data, table and drawings."""

from __future__ import annotations

from pathlib import Path

from attrs import frozen

from strapwright.report.cut_text import cut_to_csv, cut_to_data, cut_to_text
from strapwright.report.json_text import to_text
from strapwright.service.check_tooling import load_rack
from strapwright.service.cut_jobs import CutOrder
from strapwright.service.file_access import write_files
from strapwright.service.rack_after_cut import kept_offcuts
from strapwright.wording.bars_and_money.cut_words import CutWords


@frozen(kw_only=True)
class CutPapers:
    """What is said of a cut plan.

    Attributes
    ----------
    text, json, csv
        For a terminal, and for other programs.
    labels
        Bar size and bar, from 0 -> what to write on its off-cut.
    """

    text: str
    json: str
    csv: str
    labels: dict[tuple[int, int], str]


def cut_papers(order: CutOrder, rack: Path | None) -> CutPapers:
    """Tell a cut plan.

    Parameters
    ----------
    order
        The cut plan.
    rack
        File it was made from, for labels that are not taken yet.
    """
    there = None if rack is None else load_rack(rack)
    labels = {(one.section, one.bar): one.label for one in kept_offcuts(order, there)}
    words = CutWords(units=order.units, reading=order.reading)
    assumed = order.assumed_kerf
    return CutPapers(
        text=cut_to_text(order.sections, words, labels, assumed_kerf=assumed, mark=order.mark),
        json=to_text(
            cut_to_data(order.sections, words, labels, assumed_kerf=assumed, mark=order.mark)
        ),
        csv=cut_to_csv(order.sections, words),
        labels=labels,
    )


def write_cut(order: CutOrder, papers: CutPapers, folder: Path) -> tuple[Path, ...]:
    """Write the cut list and a drawing of every bar size into a folder.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    from strapwright.drawing import to_svg  # noqa: PLC0415
    from strapwright.drawing.bars_and_money.cut_drawing import cut_scene  # noqa: PLC0415

    files = {"cuts.csv": papers.csv.encode()}
    words = CutWords(units=order.units, reading=order.reading)
    for number, cuts in enumerate(order.sections, start=1):
        labels = {bar: label for (section, bar), label in papers.labels.items()
                  if section == number - 1}  # fmt: skip
        scene = cut_scene(cuts, words, labels)
        for theme in ("dark", "light"):
            files[f"bars-{number}.{theme}.svg"] = to_svg(scene, theme).encode()
    return write_files(folder, files)
