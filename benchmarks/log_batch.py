"""How long a batch of twelve takes to log at the press, at the speed of a person.

``python benchmarks/log_batch.py [--key 0.2] [--read 2] [--reach 1] [--phone]`` drives a real
browser: so many seconds a keystroke, to read the screen of a bend, and to reach a field or button.
Every bend of every part of the example is logged with its angle and pressure, as they come: what
was expected, and an angle off by a few tenths.  Prints one JSON object: seconds a part and a bend
without the bending itself, the longest answer of the page, clicks and keystrokes.
"""

from __future__ import annotations

import argparse
import json
import re
import statistics
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "e2e"))

from browsing import PHONE, WIDE, Page, browser, served
from selenium.webdriver.common.by import By

from newcomer import Person

OFF = (0.1, -0.2, 0.0, 0.2, -0.1)  # deg that a reading lies beside what was expected
KEEP = "button.main.big"
LOGGED = "Every bend of every part is logged."


def shown(page: Page) -> list[float]:
    """Return the figures that are expected: the angle, then the pressure."""
    found = page.driver.find_elements(By.CSS_SELECTOR, ".bigs div:not(.stop) dd:not(.between)")
    return [float(match[0]) for one in found if (match := re.search(r"[\d.]+", one.text))]


def log_bend(person: Person, count: int) -> float:
    """Log the bend on the screen; return how long the page took to answer [s]."""
    page = person.page
    angle, gauge = shown(page)
    person.fill("angle", f"{angle + OFF[count % len(OFF)]:.1f}")
    person.fill("gauge", f"{gauge:.0f}")
    before = page.find("html").id
    person.click(page.find(KEEP))
    begun = time.monotonic()
    page.until(lambda: page.find("html").id != before and page.ready())
    answered = time.monotonic() - begun
    person.look()
    return answered


def main() -> int:
    parser = argparse.ArgumentParser(description="Time the logging of a batch.")
    parser.add_argument("--key", type=float, default=0.2, help="seconds a keystroke (0.2)")
    parser.add_argument("--read", type=float, default=2.0, help="seconds to read a screen (2)")
    parser.add_argument("--reach", type=float, default=1.0, help="seconds to reach a field (1)")
    parser.add_argument("--phone", action="store_true", help="on a phone's screen")
    options = parser.parse_args()
    with (
        tempfile.TemporaryDirectory() as folder,
        served(Path(folder) / "store") as server,
        browser(server, PHONE if options.phone else WIDE) as page,
    ):
        page.open("/")
        page.press("Open the example")
        page.press("Log")
        person = Person(page, options.key, options.read, options.reach)
        bends, answers = [], []
        while not page.says(LOGGED):
            begun = time.monotonic()
            answers.append(log_bend(person, len(bends)))
            bends.append(time.monotonic() - begun)
        table = server.address.rstrip("/") + page.path.partition("?")[0] + ".csv"
        with urllib.request.urlopen(table) as answer:  # noqa: S310 - its own server
            lines = len(answer.read().decode().splitlines()) - 1
        complaints = page.complaints()
    parts = 12
    found = {
        "parts": parts,
        "bends": len(bends),
        "lines_in_the_log": lines,
        "seconds_a_part": round(sum(bends) / parts, 1),
        "seconds_a_bend": round(statistics.median(bends), 1),
        "answer_median": round(statistics.median(answers), 2),
        "answer_longest": round(max(answers), 2),
        "clicks": person.clicks,
        "keystrokes": person.keystrokes,
        "out_of_sight": person.out_of_sight,
        "complaints": complaints,
    }
    print(json.dumps(found, indent=2))
    return 0 if lines == len(bends) and not complaints else 1


if __name__ == "__main__":
    sys.exit(main())
