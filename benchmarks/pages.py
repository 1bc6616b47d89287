"""How quick the pages are in a real browser: field to drawing, a scrubbed picture, first page.

``python benchmarks/pages.py [--changes 40]`` prints one JSON object.  The part has six bends; a
change is timed from the key to the picture painted with it, debounce and server included.  Times
belong to a machine, so each also stands as a ratio to one plan of that part, made in the same run.
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "e2e"))

from browsing import Page, browser, served

from strapwright.service.compiler_cache import prepare_cache

ROUNDS = 9  # plans timed for the ratio

SIX = {
    "part.shape[1]": "3",
    "part.shape[2]": "45",
    "part.shape[3]": "4",
}
TOOLING = {
    "tooling.nose.shaft": "1/2",
    "tooling.shoulders.radius": "1/4",
    "tooling.shoulders.opening": "1-3/4",
}
# From the key that changes a field to the second frame after the drawing was set in place: by then
# the first has been painted.
TIMED = """
const [name, text, done] = arguments, field = document.getElementById(name);
const start = performance.now();
let drawn = 0;
document.addEventListener("handles", () => requestAnimationFrame(() => requestAnimationFrame(() => {
  drawn = performance.now() - start;
})), { once: true });
const bench = document.querySelector(".bench");
const watch = setInterval(() => {
  if (drawn && bench.dataset.results === "fresh") {
    clearInterval(watch);
    done([drawn, performance.now() - start]);
  }
}, 4);
field.value = text;
field.dispatchEvent(new Event("input", { bubbles: true }));
"""
SCRUBBED = """
const done = arguments[0], slider = document.getElementById("ram"), times = [];
let at = 0;
function step() {
  slider.value = at;
  const start = performance.now();
  slider.dispatchEvent(new Event("input", { bubbles: true }));
  times.push(performance.now() - start);
  at += 1;
  if (at > Number(slider.max)) done(times); else requestAnimationFrame(step);
}
step();
"""
LOADED = """
const done = arguments[0];
document.fonts.ready.then(() => done(
  performance.getEntriesByType("resource").concat(performance.getEntriesByType("navigation"))
    .reduce((sum, one) => sum + one.transferSize, 0)
));
"""


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--changes", type=int, default=40)
    options = parser.parse_args()
    with (
        tempfile.TemporaryDirectory() as folder,
        served(Path(folder) / "store") as server,
        browser(server) as page,
    ):
        page.open("/")
        found = {"first_page_kB": round(page.driver.execute_async_script(LOADED) / 1000, 1)}
        six_bends(page)
        found["part_page_kB"] = round(page.driver.execute_async_script(LOADED) / 1000, 1)
        lengths = [f"{4 + k % 7 / 8}" for k in range(1, options.changes + 1)]
        angles = [f"{40 + k % 9}" for k in range(1, options.changes + 1)]
        found |= changed(page, "leg", "part.shape[3]", lengths)
        found |= changed(page, "angle", "part.shape[4]", angles)
        root = page.path.partition("/part")[0]
        one_plan = plan_seconds(f"{server.address.rstrip('/')}{root}/files/job.toml")
        found["one_plan_median_ms"] = round(1000 * one_plan)
        for what in ("leg", "angle"):
            for share in ("median", "p95"):
                drawn = found[f"{what}_drawn_{share}_ms"]
                found[f"{what}_drawn_{share}_per_plan"] = round(drawn / (1000 * one_plan), 2)
        # The demonstration is played, for no order makes these six bends on their tooling.
        page.open("/")
        page.press("Open the example")
        root = page.path.partition("/part")[0]
        # One bend with its part coming off and the marker on its curve; then all of them.
        for name, bend in (("scrub", "3"), ("scrub_whole", "whole")):
            page.open(f"{root}/bends/{bend}")
            page.until(lambda: page.find("[data-ram]").get_attribute("data-ready"))
            times = page.driver.execute_async_script(SCRUBBED)
            found[f"{name}_pictures"] = len(times)
            found[f"{name}_script_median_ms"] = round(statistics.median(times), 2)
            found[f"{name}_script_most_ms"] = round(max(times), 2)
            found[f"{name}_page_kB"] = round(page.driver.execute_async_script(LOADED) / 1000, 1)
    print(json.dumps(found, indent=2))
    return 0


def plan_seconds(address: str) -> float:
    """Median time of one plan of the job at an address, beside nothing else [s]."""
    prepare_cache()
    from strapwright.planning.plan import plan  # noqa: PLC0415 - the compiler reads its folder on import
    from strapwright.shop_files.reading_job import read_job  # noqa: PLC0415

    with urllib.request.urlopen(address) as answer:  # noqa: S310 - the server of this run
        job = read_job(answer.read().decode())
    plan(job)  # compiles, fills caches
    taken = []
    for _ in range(ROUNDS):
        begun = time.perf_counter()
        plan(job)
        taken.append(time.perf_counter() - begun)
    return statistics.median(taken)


def six_bends(page: Page) -> None:
    """Type a part of six bends, with tooling, so that all of the plan is asked for."""
    for name, text in {"part.name": "six", "bar.thickness": "1/8", "bar.width": "1"}.items():
        page.type(name, text)
    page.press("Next: the part")
    for name, text in SIX.items():
        page.type(name, text)
    for _ in range(5):
        page.press("Add a bend and a leg")
    root = page.path.partition("/part")[0]
    page.open(f"{root}/tooling")
    for name, text in TOOLING.items():
        page.type(name, text)
    page.press("Save")
    page.open(f"{root}/part")
    page.until(lambda: page.find(".bench").get_attribute("data-results") == "fresh")


def changed(page: Page, what: str, field: str, texts: list[str]) -> dict[str, float]:
    """Time changes of one field."""
    drawn, followed = [], []
    for text in texts:
        first, rest = page.driver.execute_async_script(TIMED, field, text)
        drawn.append(first)
        followed.append(rest)
    return {
        f"{what}_drawn_median_ms": round(statistics.median(drawn)),
        f"{what}_drawn_p95_ms": round(statistics.quantiles(drawn, n=20)[-1]),
        f"{what}_results_median_ms": round(statistics.median(followed)),
        f"{what}_results_p95_ms": round(statistics.quantiles(followed, n=20)[-1]),
    }


if __name__ == "__main__":
    sys.exit(main())
