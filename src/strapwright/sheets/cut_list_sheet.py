"""The cut list on paper: each bar to scale with its positions, and labels for off-cuts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from strapwright.cutting.shop_cuts import SectionCuts
from strapwright.drawing.bars_and_money.cut_drawing import cut_scene
from strapwright.quantities import Units
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import as_fractions
from strapwright.scene.svg import to_svg
from strapwright.wording.bars_and_money.cut_words import CutWords

_WIDE = Frame(width=680.0, height=400.0, body=16.0)


def cut_list_sheet(
    sections: Sequence[SectionCuts],
    words: CutWords,
    labels: Mapping[tuple[int, int], str],
    *,
    mark: str,
    units: Units,
    paper: Literal["letter", "a4"] | None = None,
) -> bytes:
    """Lay the sheet out.

    Parameters
    ----------
    sections
        One for each bar size.
    words
        In whose units.
    labels
        (bar size, bar), from 0 -> what to write on its off-cut.
    mark
        Of the plan.
    units
        Of the job.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for inches and A4 for millimetres.

    Returns
    -------
    bytes
        PDF; the same values give the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415  takes long to load

    chosen = paper or ("letter" if units == "inch" else "a4")
    sizes, drawings = [], {}
    for number, cuts in enumerate(sections):
        own = {bar: label for (section, bar), label in labels.items() if section == number}
        drawings[f"bars-{number}.svg"] = to_svg(cut_scene(cuts, words, own, _WIDE), "paper")
        said = [f"{words.summary(cuts)} {words.proof(cuts)}", words.saw(cuts)]
        said.append(words.new_bar_note(cuts))
        sizes.append(
            {
                "name": as_fractions(f"{words.bar_name(cuts.bar)}, {cuts.material}"),
                "lines": [as_fractions(line) for line in said if line],
                "picture": f"bars-{number}.svg",
            }
        )
    data = {
        "paper": {"letter": "us-letter", "a4": "a4"}[chosen],
        "sizes": sizes,
        "labels": sorted(labels.values()),
        "mark": mark,
    }
    return compile_pdf("cutlist.typ", data, drawings)
