"""Words that ask whether another unit was meant."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Choice, Finding, Length, Pressure
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

_SAID: Mapping[str, str] = {
    "thickness": "The bar is {} thick",
    "width": "The bar is {} wide",
    "leg": "The longest leg is {}",
    "nose": "The nose has a radius of {}",
    "opening": "The shoulders are {} apart",
    "bore": "The cylinder has a bore of {}",
    "stroke": "The cylinder has a stroke of {}",
    "relief": "The relief valve is set to {}",
    "high relief": "The relief valve is set to {}",
}
_BAR = 0.1  # MPa, exact
_OTHER = {" in": " mm", " mm": " in", " psi": " bar", " bar": " psi"}


def _slip(finding: Finding, reader: Reader) -> Words:
    show, what = reader.figures, finding.one(Choice, "what").value
    if what == "high relief":  # only bar typed for psi make it, in whatever units the rest is
        size, (unit, one) = finding.one(Pressure, "size").value, (" bar", _BAR)
    elif isinstance(finding.facts["size"], Pressure):
        size, (unit, one) = finding.one(Pressure, "size").value, show.size_of("MPa")
    else:
        size, (unit, one) = finding.one(Length, "size").value, show.size_of("mm")
    number = f"{size / one:.4g}"
    return Words(
        f"{_SAID[what].format(number + unit)}: was {number}{_OTHER[unit]} meant?",
        f"If so, write {number}{_OTHER[unit]}.",
    )


SLIP_WORDS: Mapping[str, Teller] = {"unit-slip": _slip}
