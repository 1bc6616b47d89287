"""Write ``docs/openapi.json``: what every address of the pages takes and answers."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

from strapwright import __version__
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store
from strapwright.web import create_app
from strapwright.web.described.description import description

FILE = Path(__file__).resolve().parent / "openapi.json"


def text() -> str:
    """Return the description as it belongs into the file."""
    with tempfile.TemporaryDirectory() as place, open_store(Path(place)) as store:
        made = description(create_app(Workshop(store), 8117), __version__)
    return json.dumps(made, indent=1, sort_keys=True, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
