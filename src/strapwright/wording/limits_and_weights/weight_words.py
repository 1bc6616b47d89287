"""Weights in words: of bar, blank and part, what is too much for one, and where a stand goes."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Finding, Length, Mass
from strapwright.planning.limits_and_weights.weight_values import STOCK_LENGTH, Weights
from strapwright.planning.limits_and_weights.weights import Stand
from strapwright.quantities.inside_units import INCH_MM
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

_FOOT = 12 * INCH_MM
_METRE = 1000.0
_TOGETHER = "Two people, or a hoist."


def weight_words(weights: Weights | None, show: Figures) -> str:
    """Say what there is to lift, in one line; empty where nobody weighed it.

    Parameters
    ----------
    weights
        Of a plan.
    show
        Prints its figures.
    """
    if weights is None:
        return ""
    inch = show.units == "inch"
    per = show.mass(weights.per_length * (_FOOT if inch else _METRE))
    stock = f"{show.mass(weights.stock_bar)} a bar of {stock_length(show, STOCK_LENGTH)}"
    said = [f"bar {per} per {'ft' if inch else 'm'} ({stock})"]
    if weights.blank is not None and weights.part is not None:
        said = [f"blank {show.mass(weights.blank)}", f"part {show.mass(weights.part)}", *said]
    if weights.lifted is not None and weights.blank is not None and weights.lifted > weights.blank:
        said.append(f"bars at the press together {show.mass(weights.lifted)}")
    return ", ".join(said)


def blank_weight(weights: Weights | None, show: Figures) -> str:
    """Say what the blank weighs, and all bars at the press; empty where nobody weighed it."""
    if weights is None or weights.blank is None or weights.lifted is None:
        return ""
    together = f", {show.mass(weights.lifted)} at once" if weights.lifted > weights.blank else ""
    return f"blank {show.mass(weights.blank)}{together}"


def stock_length(show: Figures, mm: float) -> str:
    """Name the length of a bar as it is sold."""
    return f"{mm / _FOOT:g} ft" if show.units == "inch" else f"{mm / _METRE:.3g} m"


def stand_words(stand: Stand, show: Figures) -> str:
    """Say where a stand goes, as an order without its full stop."""
    side = "right" if stand.across > 0.0 else "left"
    above = "" if stand.height is None else f", {show.size(stand.height)} above the bed"
    return (
        f"Put a stand {show.size(abs(stand.across))} to the {side} of the nose centre, level with "
        f"the shoulder tops{above}. It carries {show.mass(stand.carries)}"
    )


def _heavy(finding: Finding, reader: Reader) -> Words:
    lifted, alone = (reader.figures.mass(finding.one(Mass, n).value) for n in ("lifted", "alone"))
    return Words(
        f"What goes under the nose weighs {lifted}. One person should lift no more than {alone} "
        "(NIOSH lifting equation, from memory).",
        f"{_TOGETHER} Put stands beside the press that take the bar before and after each bend.",
    )


def _stock(finding: Finding, reader: Reader) -> Words:
    show = reader.figures
    bar, alone = (show.mass(finding.one(Mass, name).value) for name in ("bar", "alone"))
    said = stock_length(show, finding.one(Length, "length").value)
    return Words(
        f"A bar of {said} weighs {bar}, more than the {alone} that one person should lift.",
        f"{_TOGETHER} Or let the bar be cut where you buy it.",
    )


WEIGHT_WORDS: Mapping[str, Teller] = {
    "too-heavy-to-lift": _heavy,
    "heavy-stock-bar": _stock,
}
