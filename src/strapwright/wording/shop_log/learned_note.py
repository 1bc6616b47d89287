"""Words for what the log did to a plan."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Count, Finding, Length, Yes
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words


def _learned(finding: Finding, reader: Reader) -> Words:
    del reader
    count = finding.one(Count, "readings").value
    lines = "1 logged push" if count == 1 else f"{count} logged pushes"
    things = {"lot": "bar lot", "press": "press", "tooling": "tooling"}
    shared = [words for name, words in things.items() if finding.one(Yes, name).value]
    named = " and ".join([", ".join(shared[:-1]), shared[-1]]) if len(shared) > 1 else shared[0]
    return Words(
        f"Settings, angles and pressures use what {lines} with this {named} taught.",
        "Log the first part again: another bar, or tooling put in again, can differ.",
    )


def _outlier(finding: Finding, reader: Reader) -> Words:
    del reader
    line = finding.one(Count, "line").value
    return Words(
        f"Line {line} of the log does not fit the others, and it is counted.",
        "Correct it, or leave it out yourself, if it was misread.",
    )


def _blank(finding: Finding, reader: Reader) -> Words:
    count = finding.one(Count, "parts").value
    parts = "1 measured part" if count == 1 else f"{count} measured parts"
    more, half = finding.one(Length, "more").value, finding.one(Length, "half").value
    show = reader.figures
    way = "longer" if more > 0 else "shorter"
    return Words(
        f"By {parts} of this bar lot and tooling the blank is {show.setting(abs(more))} {way} than "
        f"worked out, give or take {show.setting(half)}."
    )


LEARNED_WORDS: Mapping[str, Teller] = {
    "learned-from-log": _learned,
    "log-line-does-not-fit": _outlier,
    "blank-from-measured-parts": _blank,
}
