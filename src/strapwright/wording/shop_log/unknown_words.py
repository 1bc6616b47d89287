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


_LABELS = {
    "file": "A file",
    "magnet": "A magnet",
    "spark": "Spark on the wheel",
    "scratch": "Colour, scratched bright",
}
_RESULTS = {
    ("file", "bites"): "bites",
    ("file", "skates"): "skates on it",
    ("magnet", "yes"): "holds",
    ("magnet", "no"): "does not hold",
}
_NOTHING_LEFT = (
    "No test of the bench would tell much more. Bend and log more of it, or ask for the "
    "certificate of the bar."
)
_KNOWN = "One grade is left."


def bench_label(test: str) -> str:
    """Name a test of the bench."""
    return _LABELS[test]


def bench_result(test: str, result: str) -> str:
    """Name what a test of the bench showed."""
    return _RESULTS.get((test, result), result)


def next_test_words(found: Unknown) -> str:
    """Say what to test next, or that nothing is left."""
    if found.odds.next_test is not None:
        return _NEXT[found.odds.next_test]
    return _KNOWN if len(found.odds.stated) == 1 else _NOTHING_LEFT


def rests_words(pushes: int, tests: int) -> str:
    """Say what the odds rest on."""
    if not pushes and not tests:
        return "Nothing is known of it yet, so every grade is as likely as any other."
    logged = "1 logged push" if pushes == 1 else f"{pushes} logged pushes"
    bench = "1 test" if tests == 1 else f"{tests} tests"
    return (
        f"By {logged} of this lot and {bench} of the bench. The true grade is among these 95 times "
        "in 100. These are odds, not a certificate."
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
    return said + must_not_words(found)


def must_not_words(found: Unknown) -> list[str]:
    """Say what must not be done with a bar until it is known."""
    said = []
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
