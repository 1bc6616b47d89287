"""Plain data as JSON text."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any


def to_text(data: Mapping[str, Any]) -> str:
    """Write data as JSON text that ends in a newline; a number that is none is an error here."""
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"
