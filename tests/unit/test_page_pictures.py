"""Every page there is has its pictures, so that somebody looks at it in all its looks."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.routing import Match

from strapwright.web.app import create_app

ROOT = Path(__file__).parents[2]
JOB = f"/jobs/{'0' * 32}"
# What is asked for by GET and is no page of its own: files, answers to a script, and what only
# leads on.
NO_PAGES = {
    "/jobs/{job}",
    "/join",
    "/assets/{mark}/{name}",
    "/shop.webmanifest",
    "/backup.db",
    "/everything.zip",
    "/cut.csv",
    "/crib.toml",
    "/rack.toml",
    "/rates.toml",
    "/jobs/{job}/log.csv",
    "/bench/gauges.pdf",
    "/jobs/{job}/files/{name}",
    "/jobs/{job}/money/quote.pdf",
    "/jobs/{job}/making/{name}",
    "/jobs/{job}/making/change.pdf",
    "/jobs/{job}/strength/strength.{kind}",
    "/jobs/{job}/bends/search/events",
    "/jobs/{job}/propose/{search}/events",
    "/jobs/{job}/bends/{bend}/frames.json",
    "/jobs/{job}/bends/{bend}/more.json",
    "/jobs/{job}/bends/whole/frames.json",
    "/live/{job}/now",
}


def addresses() -> list[str]:
    pytest.importorskip("selenium")
    sys.path.append(str(ROOT / "tests" / "e2e"))
    named = importlib.util.spec_from_file_location(
        "make_page_pictures", ROOT / "docs" / "make_page_pictures.py"
    )
    assert named is not None
    assert named.loader is not None
    made = importlib.util.module_from_spec(named)
    named.loader.exec_module(made)
    jobs = dict.fromkeys(("demo", "refused", "bracket", "die"), JOB) | {"hanger": "x", "cut": "x"}
    return [path.format_map(jobs).partition("?")[0] for path in made.ADDRESSES.values()]


def routes(of: Any) -> Iterator[Any]:
    for one in of.routes:
        inner = getattr(one, "original_router", None)
        if inner is not None:
            yield from routes(inner)
        elif "GET" in (getattr(one, "methods", None) or ()):
            yield one


def first_match(known: list[Any], path: str) -> str:
    scope = {"type": "http", "method": "GET", "path": path, "headers": []}
    return next((one.path for one in known if one.matches(scope)[0] == Match.FULL), "")


def test_every_page_has_its_pictures() -> None:
    known = list(routes(create_app(object(), 8117)))  # type: ignore[arg-type]
    there = {one.path for one in known}
    assert len(there) > 40
    assert there >= NO_PAGES
    taken = {first_match(known, path) for path in addresses()}
    assert there - NO_PAGES - taken == set()
