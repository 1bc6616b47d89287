"""The fields of the tooling."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from strapwright.pages.fields.form_fields import Field
from strapwright.pages.fields.key_fields import Raw, fields_under
from strapwright.shop.tooling import Nose, Shoulders, Tooling

TABLES: Mapping[str, type[Any]] = MappingProxyType(
    {"tooling.nose": Nose, "tooling": Tooling, "tooling.shoulders": Shoulders}
)
_HEADINGS = {
    "nose": "Nose (punch)",
    "shoulders": "Shoulders (die)",
    "setting": "How closely it is set up (optional)",
}


def tooling_fields(raw: Raw) -> tuple[Field, ...]:
    """Nose and shoulders, each asked for the way the file states it."""
    return fields_under(_HEADINGS, TABLES, raw)
