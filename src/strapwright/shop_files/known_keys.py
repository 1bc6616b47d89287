"""The keys a job file knows, and the nearest one to a key it does not know."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any

from strapwright.shop.bar import Lot
from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop.job import BlankSettings, HitSettings
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.keys import Key, keys_of
from strapwright.shop.members import Members
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.overall_sizes import Overall
from strapwright.shop.part import Closing, Hole, Part, Weld
from strapwright.shop.part_finish import Finish
from strapwright.shop.part_limits import Limit, Tolerance
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Obstacle, Rod, Shoulders, Tooling

# Table -> the value it makes, whose keys stand there.
TABLES: Mapping[str, type[Any]] = MappingProxyType(
    {
        "part": Part,
        "part.close": Closing,
        "part.tolerance": Tolerance,
        "part.overall": Overall,
        "part.limit": Limit,
        "part.weld": Weld,
        "part.finish": Finish,
        "part.other_tooling": OtherTooling,
        "part.hole": Hole,
        "lot": Lot,
        "press": Press,
        "press.push_plate": KeptPlate,
        "press.bed_plate": KeptPlate,
        "press.bed": KeptPlate,
        "tooling": Tooling,
        "tooling.rod": Rod,
        "tooling.obstacle": Obstacle,
        "tooling.nose": Nose,
        "tooling.shoulders": Shoulders,
        "blank": BlankSettings,
        "hits": HitSettings,
        "handling": HandlingMinutes,
    }
)


def _known() -> dict[str, tuple[str, ...]]:
    found = {"": ("format", "units", *(table for table in TABLES if "." not in table))}
    for table, made in TABLES.items():
        keys = keys_of(made).values()
        found[table] = tuple(dict.fromkeys(key.head for key in keys))
        for head in dict.fromkeys(key.head for key in keys if key.last != key.name):
            found[f"{table}.{head}"] = tuple(key.last for key in below(made, head))
    return found


def below(made: type[Any], head: str) -> tuple[Key, ...]:
    """Return the keys that stand in a table of a value, as ``travel`` and ``at`` in ``give``."""
    return tuple(key for key in keys_of(made).values() if key.head == head and key.last != key.name)


# Table -> its keys in the order in which they are written.  "" is the head of the file.
KNOWN: Mapping[str, tuple[str, ...]] = MappingProxyType(_known())

# A file beside the job carries whole tables, so that one can be moved over as it is.
SHOP_TABLES = ("press", "tooling", "lot")
SHOP_KEYS = ("format", "units", *SHOP_TABLES)

# Tables that are written one under another, each with its head.
LISTS = tuple(
    f"{table}.{key.name}"
    for table, made in {**TABLES, "tooling.members": Members}.items()
    for key in keys_of(made).values()
    if key.kind == "list"
)

# Tables that a person writes in one line.
INLINE = (
    *(name for name in KNOWN if name and name not in TABLES),
    "tooling.nose",
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
