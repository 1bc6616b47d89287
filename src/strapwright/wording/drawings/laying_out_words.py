"""Words for what is found where a tooling is laid out and drawn."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.errors import named
from strapwright.findings import Finding, Length, Name
from strapwright.making.shop_lengths import size
from strapwright.shop.member_names import Member
from strapwright.wording.member_words import member_name
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words


def _not_laid_out(finding: Finding, reader: Reader) -> Words:
    member = member_name(finding.one(Member, "member").name)
    problem, remedy = (
        named(finding.one(Name, name).value, reader.key, reader.table)
        for name in ("problem", "remedy")
    )
    return Words(
        f"{_first_up(member)} cannot be laid out: {problem}.",
        f"{_first_up(remedy)}.",
    )


def _thin_wall(finding: Finding, reader: Reader) -> Words:
    units = reader.figures.units
    across, wall, least = (
        size(finding.one(Length, name).value, units) for name in ("across", "wall", "least")
    )
    return Words(
        f"{_first_up(finding.one(Name, 'plate').value)}: the {finding.one(Name, 'hole').value}, "
        f"{across} across, leaves {wall} of metal beside it, less than half its diameter.",
        f"Leave {least} where there is room; see that the check of the member holds.",
    )


def _drawn_otherwise(finding: Finding, reader: Reader) -> Words:
    units = reader.figures.units
    member = member_name(finding.one(Member, "member").name)
    stated = size(finding.one(Length, "stated").value, units)
    what = f"{_first_up(member)}, {finding.one(Name, 'size').value}: you entered {stated}"
    if "drawn" in finding.facts:
        drawn = size(finding.one(Length, "drawn").value, units)
        return Words(
            f"{what}, but the other sizes lead to {drawn}. It is drawn and checked as {drawn}.",
            "Enter the size as drawn, or change the other sizes.",
        )
    return Words(
        f"{what}, but the other sizes leave it out. It is drawn and checked without it.",
        "Change the other sizes, or leave it empty.",
    )


def _first_up(text: str) -> str:
    return text[:1].upper() + text[1:]


LAYING_OUT_WORDS: Mapping[str, Teller] = {
    "not-laid-out": _not_laid_out,
    "thin-wall": _thin_wall,
    "drawn-otherwise": _drawn_otherwise,
}
