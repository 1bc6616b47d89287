"""Words for bends that are made on other tooling than the rest."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Finding, Force, Name
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words


def _unchecked(finding: Finding, reader: Reader) -> Words:
    name = finding.one(Name, "name").value
    limit = finding.facts.get("limit")
    limits = "only the relief valve limits the force on it"
    if isinstance(limit, Force):
        show = reader.figures.force(limit.value)
        limits = f"only the relief valve and the main tooling's rating of {show} limit the force"
    return Words(
        f"What carries {name} is not checked: {limits}.",
        "Check its strength as a job of its own, and enter what it can carry as "
        f"{reader.key('part.other_tooling.rating')}.",
    )


TOOL_CHANGE_WORDS: Mapping[str, Teller] = {"other-tooling-unchecked": _unchecked}
