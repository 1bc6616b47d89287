"""How long a batch of twelve takes to log at the press, at the speed of a person.

``python benchmarks/log_batch.py [--key 0.2] [--read 2] [--reach 1] [--phone]`` drives a real
browser: so many seconds a keystroke, to read the screen of a bend, and to reach a field or button.
Every bend of every part of the example, three a part, is logged with its angle and pressure as they
come: what was expected, and an angle off by a few tenths.  At a keyboard the person types, tabs and
presses enter; on a phone each field and the button are tapped.  Prints one JSON object: seconds a
part and a bend without the bending itself, how much of a part is the person's own pace and not the
machine's, how long the page took to answer, clicks and keystrokes.
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
from selenium.webdriver.common.keys import Keys

from newcomer import Person

OFF = (0.1, -0.2, 0.0, 0.2, -0.1)  # deg that a reading lies beside what was expected
KEEP = "button.main.big"
LOGGED = "Every bend of every part is logged."


def shown(page: Page) -> list[float]:
    """Return the figures that are expected: the angle, then the pressure."""
    found = page.driver.find_elements(By.CSS_SELECTOR, ".bigs div:not(.stop) dd:not(.between)")
    return [float(match[0]) for one in found if (match := re.search(r"[\d.]+", one.text))]


def log_bend(person: Person, count: int, *, taps: bool) -> float:
    """Log the bend on the screen; return how long the page took to answer [s]."""
    page = person.page
    angle, gauge = shown(page)
    typed = f"{angle + OFF[count % len(OFF)]:.1f}", f"{gauge:.0f}"
    before = page.find("html").id
    if taps:
        person.fill("angle", typed[0])
        person.fill("gauge", typed[1])
        button = page.find(KEEP)
        time.sleep(person.reach)
        begun = time.monotonic()
        button.click()
        person.clicks += 1
    else:
        if count == 0:
            person.click(page.field("angle"))
        # A first angle has a second field beside it, which is left empty.
        onward = 2 if page.driver.find_elements(By.CSS_SELECTOR, ".twice") else 1
        type_on(person, [*typed[0], *[Keys.TAB] * onward, *typed[1]])
        begun = time.monotonic()
        type_on(person, [Keys.ENTER])
        begun += person.key
    page.until(lambda: page.find("html").id != before and page.ready())
    answered = time.monotonic() - begun
    person.look()
    return answered


def type_on(person: Person, keys: list[str]) -> None:
    """Type into whatever has the focus, key by key."""
    for one in keys:
        time.sleep(person.key)
        person.page.driver.switch_to.active_element.send_keys(one)
        person.keystrokes += 1


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
        # On a phone the pages of a job are folded away behind a button.
        page.driver.get(page.find('a[href$="/log"]').get_property("href"))
        person = Person(page, options.key, options.read, options.reach)
        bends, answers = [], []
        while not page.says(LOGGED):
            begun = time.monotonic()
            answers.append(log_bend(person, len(bends), taps=options.phone))
            bends.append(time.monotonic() - begun)
        table = server.address.rstrip("/") + page.path.partition("?")[0] + ".csv"
        with urllib.request.urlopen(table) as answer:  # noqa: S310 - its own server
            lines = len(answer.read().decode().splitlines()) - 1
        complaints = page.complaints()
    parts = 12
    pace = (
        person.clicks * options.reach + person.keystrokes * options.key + len(bends) * options.read
    )
    found = {
        "parts": parts,
        "bends": len(bends),
        "lines_in_the_log": lines,
        "seconds_a_part": round(sum(bends) / parts, 1),
        "of_that_the_person": round(pace / parts, 1),
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
