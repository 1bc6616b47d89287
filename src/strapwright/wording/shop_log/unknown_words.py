"""Words for an unknown bar: what it may be, what to test next, what not to do with it."""

from __future__ import annotations

from strapwright.planning.from_the_log.unknown_grade import Unknown

_NEXT = {
    "magnet": "Next, hold a magnet to it.",
    "spark": "Next, look at its spark on the grinding wheel: long, bursts, short or none.",
    "scratch": "Next, scratch it bright and look at the colour: grey, white, red or yellow.",
    "bend": "Next, bend an off-cut behind a shield and log it.",
}
FILE_FIRST = (
    "Try a file first, whatever the odds say: a bar that it skates on is hardened and can shatter. "
    "Do not bend that bar."
)
_HARD = (
    "A file skates on it: this bar is hardened, and none of the grades here. Do not bend, weld or "
    "strike it."
)


def unknown_words(found: Unknown) -> list[str]:
    """Say what a bar may be and what follows, a sentence or two a line."""
    names = ", ".join(
        f"{name} ({100.0 * share:.0f} %)"
        for name, share in found.odds.odds
        if name in found.odds.stated
    )
    said = [f"It may be {names}. The true grade is among these 95 times in 100."]
    if found.odds.next_test is not None:
        said.append(_NEXT[found.odds.next_test])
    if len(found.odds.stated) > 1:
        said.append(FILE_FIRST)
    if found.no_weld:
        said.append(
            f"Do not weld it as mild steel until you know more: it may be "
            f"{', '.join(found.no_weld)}."
        )
    said.append(
        f"Do not bend it sharper than {found.sharpest:.2g} times its thickness on the inside."
    )
    if found.brittle:
        said.append(
            f"It may snap ({', '.join(found.brittle)}): bend it behind a shield, eyes covered."
        )
    return said


def hard_words() -> str:
    """Say what a file that skates means."""
    return _HARD
