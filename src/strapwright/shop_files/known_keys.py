"""The keys a job file knows, and the nearest one to a key it does not know."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from types import MappingProxyType

# Table -> its keys in the order in which they are written.  "" is the head of the file.
KNOWN: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "": ("format", "units", "part", "lot", "press", "tooling", "blank", "hits"),
        "part": (
            "name",
            "quantity",
            "bar",
            "material",
            "measured",
            "shape",
            "inside_radius",
            "order",
            "at_once",
            "stacked",
            "close",
            "grain",
            "edges",
            "hot",
            "weld",
            "hole",
        ),
        "part.close": ("kind", "size", "absorb"),
        "part.weld": ("leg", "from_end", "from_bend", "distance"),
        "part.hole": ("leg", "from_end", "from_bend", "distance", "diameter", "across"),
        "lot": ("yield", "tensile", "exponent", "unloading_ratio", "thickness"),
        "press": (
            "bore",
            "rod",
            "relief",
            "stroke",
            "pump",
            "hand_pump",
            "efficiency",
            "no_load",
            "give",
            "gauge_step",
            "axis",
            "daylight",
            "columns",
            "bed_width",
        ),
        "press.columns": ("apart", "width"),
        "press.hand_pump": ("volume", "strokes_per_minute"),
        "press.give": ("travel", "at"),
        "tooling": (
            "ram_side",
            "friction",
            "touch_error",
            "rating",
            "plate",
            "nose",
            "shoulders",
            "rod",
            "obstacle",
            "members",
        ),
        "tooling.plate": ("width", "thick", "length"),
        "tooling.rod": ("out", "along", "diameter"),
        "tooling.obstacle": ("name", "side", "box", "along"),
        "tooling.nose": (
            "shaft",
            "radius",
            "reach",
            "held",
            "drawable",
            "groove",
            "span",
            "web",
        ),
        "tooling.nose.web": ("thick", "height"),
        "tooling.shoulders": (
            "radius",
            "opening",
            "gap",
            "depth",
            "floor",
            "vee_angle",
            "channel_width",
            "channel_walls",
            "height",
            "outer_edge",
            "length",
        ),
        "blank": ("method", "factor", "reading"),
        "hits": ("tolerance",),
    }
)

# A file beside the job carries whole tables, so that one can be moved over as it is.
SHOP_TABLES = ("press", "tooling")
SHOP_KEYS = ("format", "units", *SHOP_TABLES)

# Tables that a person writes in one line.
INLINE = (
    "press.hand_pump",
    "press.give",
    "press.columns",
    "tooling.plate",
    "tooling.nose",
    "tooling.nose.web",
    "tooling.shoulders",
)


def nearest(word: str, among: Iterable[str]) -> str | None:
    """Return the likeliest of ``among`` for a mistyped word, or ``None`` where none is near.

    Parameters
    ----------
    word
        As typed.
    among
        What would do.
    """
    plain = {one.lower(): one for one in among}
    # 0.6 lets through one slip in a short word ("rodd", "bor") and two in a long one.
    found = difflib.get_close_matches(word[:60].lower(), plain, n=1, cutoff=0.6)
    return plain[found[0]] if found else None


def home(key: str, table: str) -> str | None:
    """Return the other table that knows this key, where it is the only one.

    Parameters
    ----------
    key
        As typed.
    table
        Where it was written, as in :data:`KNOWN`.
    """
    homes = [name for name, keys in KNOWN.items() if key in keys and name != table]
    return homes[0] if len(homes) == 1 else None


def one_of(words: Iterable[str]) -> str:
    """Return words as a list in a sentence: ``"a", "b" or "c"``."""
    quoted = [f'"{word}"' for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"
