"""Every code of a finding and what turns it into words."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Finding, Name
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

WORDS: Mapping[str, Teller] = {}


def words_of(finding: Finding, reader: Reader) -> Words:
    """Turn a finding into words."""
    if "text" in finding.facts:
        return Words(finding.one(Name, "text").value, finding.one(Name, "remedy").value)
    return WORDS[finding.code](finding, reader)
