"""Every code of a finding and what turns it into words."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Finding, Name
from strapwright.wording.bar_words import BAR_WORDS
from strapwright.wording.bend_words import BEND_WORDS
from strapwright.wording.member_words import MEMBER_WORDS
from strapwright.wording.part_words import PART_WORDS
from strapwright.wording.press_words import PRESS_WORDS
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

WORDS: Mapping[str, Teller] = {
    **PART_WORDS,
    **BAR_WORDS,
    **BEND_WORDS,
    **PRESS_WORDS,
    **MEMBER_WORDS,
}


def words_of(finding: Finding, reader: Reader) -> Words:
    """Turn a finding into words."""
    if "text" in finding.facts:
        return Words(finding.one(Name, "text").value, finding.one(Name, "remedy").value)
    return WORDS[finding.code](finding, reader)
