"""Write the list of every source on ``docs/sources.md`` from the catalog's table of sources."""

from __future__ import annotations

from pathlib import Path

from strapwright.catalog.sources import sources

PAGE = Path(__file__).resolve().parent / "sources.md"
TITLE = "## Every source\n"
HEAD = (
    TITLE
    + """
Written by `python docs/make_sources.py` from `sources.toml` of the catalog. A table names a source
by its id; a plan and its sheets print title and edition. *Standard*: published by a standards
body. *Handbook*: a textbook, table book, teaching text, or print that carries the values of the
standards named in the last column at second hand. *Data sheet*: a maker's. *Common practice*: what
the trade does or prints. *From memory*: to be confirmed. *Computed*: worked out by the project.

| id | title | edition | publisher | grade | values of |
|---|---|---|---|---|---|
"""
)


def section() -> str:
    """Return the list as it belongs on the page, from its heading to the end."""
    known = sources()
    rows = (
        f"| {key} | {one.title} | {one.edition} | {one.publisher} | {one.grade} "
        f"| {', '.join(known[at].title for at in one.reprints)} |\n"
        for key, one in known.items()
    )
    return HEAD + "".join(rows)


if __name__ == "__main__":
    above = PAGE.read_text("utf-8").split(TITLE)[0].rstrip("\n")
    PAGE.write_text(f"{above}\n\n{section()}", "utf-8")
