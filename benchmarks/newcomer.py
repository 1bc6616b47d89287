"""How long a newcomer takes from an empty store to sheet and template of a part of their own.

``python benchmarks/newcomer.py [--key 0.2] [--read 3] [--reach 1] [--tab]`` drives a real browser
at the speed of a person: so many seconds a keystroke, to read a page, and to reach a field or
button with the pointer.  A field that the page has given the focus needs no click; with ``--tab``
the person goes to a near field by the Tab key.  The part is a flat bar with two bends; the press
has a bore and a relief, the tooling the three sizes that a plan needs.  Prints one JSON object:
seconds, clicks, keystrokes, and how often something wanted was out of sight; the same to the first
blank.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
import time
from pathlib import Path

import attrs

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "e2e"))

from browsing import PHONE, WIDE, Page, browser, served, wait_for_file
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webelement import WebElement

PRINT = "a[href$='papers.pdf']"
FEW = 3  # times that Tab is pressed for a near field
IN_SIGHT = """
const box = arguments[0].getBoundingClientRect();
const there = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
return box.top >= 0 && box.bottom <= innerHeight && arguments[0].contains(there);
"""


@attrs.define
class Person:
    """Reads, points and types at their own pace, and counts."""

    page: Page
    key: float
    read: float
    reach: float
    tab: bool = False
    clicks: int = 0
    keystrokes: int = 0
    fields: int = 0
    out_of_sight: int = 0
    first_blank: dict[str, float] = attrs.field(factory=dict)
    pages: list[tuple[str, float]] = attrs.field(factory=list)
    begun: float = attrs.field(factory=time.monotonic)

    def look(self) -> None:
        """Read a page that has just come."""
        time.sleep(self.read)

    def click(self, element: WebElement) -> None:
        """Reach for something; scroll first where it is not in sight."""
        driver = self.page.driver
        if not driver.execute_script(IN_SIGHT, element):
            self.out_of_sight += 1
            driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", element)
        time.sleep(self.reach)
        element.click()
        self.clicks += 1

    def fill(self, name: str, text: str) -> None:
        """Go into a field where the focus is elsewhere, and type key by key."""
        field = self.page.field(name)
        if not self.has_focus(field) and not (self.tab and self.tabs_to(field)):
            self.click(field)
        self.fields += 1
        for one in text:
            time.sleep(self.key)
            field.send_keys(one)
            self.keystrokes += 1

    def has_focus(self, field: WebElement) -> bool:
        """Whether what is typed goes into a field."""
        return bool(self.page.driver.switch_to.active_element == field)

    def tabs_to(self, field: WebElement) -> bool:
        """Press Tab until a field has the focus, a few times at most."""
        for _ in range(FEW):
            time.sleep(self.key)
            self.page.driver.switch_to.active_element.send_keys(Keys.TAB)
            self.keystrokes += 1
            if self.has_focus(field):
                return True
        return False

    def sees_blank(self) -> None:
        """Note what it took until a length of the blank is shown."""
        self.page.until(lambda: "blank" in self.page.find("[data-piece=numbers]").text)
        self.first_blank = {
            "seconds": round(time.monotonic() - self.begun, 1),
            "fields": self.fields,
            "clicks": self.clicks,
            "keystrokes": self.keystrokes,
        }

    def press(self, words: str) -> None:
        """Press a button or link by what it says, and read what comes."""
        path = (
            "//*[self::button or self::a][not(contains(@class, 'unseen'))]"
            f"[starts-with(normalize-space(.), {words!r})][not(@disabled)]"
        )
        left, before = self.page.path, self.page.find("html").id
        self.click(self.page.driver.find_element(By.XPATH, path))
        self.page.until(lambda: self.page.find("html").id != before and self.page.ready())
        self.pages.append((left, time.monotonic()))
        self.look()


def main() -> int:
    parser = argparse.ArgumentParser(description="Time a newcomer to the pages.")
    parser.add_argument("--key", type=float, default=0.2, help="seconds a keystroke (0.2)")
    parser.add_argument("--read", type=float, default=3.0, help="seconds to read a page (3)")
    parser.add_argument("--reach", type=float, default=1.0, help="seconds to reach a field (1)")
    parser.add_argument("--tab", action="store_true", help="go to near fields by the Tab key")
    parser.add_argument("--phone", action="store_true", help="on a phone's screen")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        saves = Path(folder) / "saved"
        saves.mkdir()
        with (
            served(Path(folder) / "store") as server,
            browser(server, PHONE if options.phone else WIDE, saves_to=saves) as page,
        ):
            person = Person(page, options.key, options.read, options.reach, options.tab)
            walk(person)
            sheet = wait_for_file(saves, "papers.pdf").read_bytes()
            taken = time.monotonic() - person.begun
            complaints = page.complaints()
    places = [path.rpartition("/")[2] or "start" for path, _ in person.pages]
    ends = [end - person.begun for _, end in person.pages]
    found = {
        "first_blank": person.first_blank,
        "seconds": round(taken, 1),
        "fields": person.fields,
        "clicks": person.clicks,
        "keystrokes": person.keystrokes,
        "out_of_sight": person.out_of_sight,
        "left_after_s": {place: round(end, 1) for place, end in zip(places, ends, strict=True)},
        "sheet": sheet.startswith(b"%PDF-"),
        "complaints": complaints,
    }
    print(json.dumps(found, indent=2))
    return 0 if found["sheet"] and not complaints else 1


def walk(person: Person) -> None:
    """From the empty start to the sheet, by what the pages say themselves."""
    person.page.open("/")
    person.look()
    person.fill("part.name", "gate latch")
    person.fill("bar.thickness", "1/4 x 1-1/2")
    person.press("Next")
    person.fill("part.shape[1]", "4")
    person.fill("part.shape[2]", "90")
    person.fill("part.shape[3]", "6")
    person.sees_blank()
    person.press("Add a bend and a leg")
    person.fill("part.shape[4]", "45")
    person.fill("part.shape[5]", "3")
    person.press("Next")
    person.fill("press.bore", "3-1/2")
    person.fill("press.relief", "2000 psi")
    person.press("Next")
    person.fill("tooling.nose.shaft", "1")
    person.fill("tooling.shoulders.radius", "3/8")
    person.fill("tooling.shoulders.opening", "2-1/2")
    person.page.until(lambda: person.page.driver.find_elements(By.CSS_SELECTOR, PRINT))
    person.click(person.page.find(PRINT))


if __name__ == "__main__":
    sys.exit(main())
