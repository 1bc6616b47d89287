"""What a key of a job file is: its name, unit, bounds, help, example and default, stated once.

A value of the shop states its keys beside its attributes, by :func:`key` and :func:`keys`.  Reader,
writer, the file to begin with, the fields of the pages and the tables of the handbook are made from
what stands there.

In a ``help`` ``{options}`` stands for the words to choose from, ``{high}`` for the upper bound of
the kind, and ``{6|150}`` for a figure in an inch and in a metric file.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from functools import cache
from types import MappingProxyType
from typing import Any, Literal, cast, get_args, get_type_hints

from attrs import NOTHING, evolve, field, fields, frozen

KindName = Literal[
    "length",
    "signed length",
    "angle",
    "pressure",
    "strength",
    "force",
    "flow",
    "volume",
    "share",
    "friction",
    "exponent",
    "per minute",
    "minutes",
    "hours",
    "area rate",
    "money",
    "count",
    "flag",
    "choice",
    "text",
    "steel",
    "table",
    "list",
    "own",
]


@frozen(kw_only=True)
class Key:
    """One key of a job file.

    Attributes
    ----------
    kind
        What is written there; a quantity of a kind has its unit and its bounds.  ``table`` and
        ``list`` hold keys of their own, ``own`` has a grammar of its own.
    name
        As in the file, from the table of its value, ``columns.apart`` in a table below; the
        attribute's where empty.
    help
        What it is, in the file to begin with and in the handbook.
    inch, metric
        A sound value, as it would be typed; the same in both systems where ``metric`` is empty.
    options
        To choose from, taken from the attribute's type.
    default
        Of the attribute.
    left_out
        What is meant where it is left out, where the default itself does not say it.
    lacking
        What the plan does not say without it.
    needed
        Whether it must be there.
    zero
        Whether 0 will do as well.
    most
        Largest count.
    ask
        How a text is asked for where it is not one.
    label, hint
        On a page; the name, and the help, where not given.
    words
        Option -> its words on a page, where they differ.
    blank
        On a page, words of the choice of nothing.
    group, place
        Heading it stands under on its page, empty where no page asks for it; those of a group stand
        by their place, and where it is the same in the order of the file.
    later
        Whether a first plan does well without it.
    given
        Whether the file to begin with states it; else it stands there behind a #.
    new
        What the file to begin with shows, as TOML in inches and metric, where not the example.
    note
        Comment in the file to begin with, where help and default do not make it.
    instead_of
        Key that it may be written in place of.
    only_with
        Choice, or a list as TOML, that must stand there for it to have an effect.
    follows
        Whether the comment of the key before it tells of it too.
    late
        Whether it stands at the end of its table in the file to begin with.
    """

    kind: KindName
    name: str = ""
    help: str = ""
    inch: str = ""
    metric: str = ""
    options: tuple[str, ...] = ()
    default: Any = None
    left_out: str = ""
    lacking: str = ""
    needed: bool = False
    zero: bool = False
    most: int = 100  # of bolts, guide rods, pieces; common practice, no source
    ask: str = "write it in quotes"
    label: str = ""
    hint: str | None = None
    words: Mapping[str, str] = MappingProxyType({})
    blank: str = ""
    group: str = ""
    place: int = 0
    later: bool = False
    given: bool = False
    new: tuple[str, ...] = ()
    note: str = ""
    instead_of: str = ""
    only_with: tuple[str, str] | None = None
    follows: bool = False
    late: int = 0

    @property
    def head(self) -> str:
        """The key of the value's own table that it stands under, or its name."""
        return self.name.partition(".")[0]

    @property
    def last(self) -> str:
        """Its name in the table where it stands."""
        return self.name.rpartition(".")[2]

    def example(self, units: str) -> str:
        """Return the sound value in a unit system."""
        return self.inch if units == "inch" else self.metric or self.inch


@frozen(kw_only=True)
class Stated:
    """An attribute of a value and the keys that state it.

    Attributes
    ----------
    attribute
        Its name.
    keys
        In the order of the file.
    written
        The key under which it is written back.
    own
        Whether a reader of its own makes it.
    """

    attribute: str
    keys: tuple[Key, ...]
    written: Key
    own: bool


def key(kind: KindName, *, default: Any = None, **more: Any) -> Any:
    """Return an attribute that one key states; it is read and written by its kind.

    Parameters
    ----------
    kind
        What is written there.
    default
        Where it is left out; there is none where ``needed``.
    **more
        As of :class:`Key`.
    """
    metadata = {"keys": (Key(kind=kind, **more),), "own": kind in ("table", "list", "own")}
    return (
        field(metadata=metadata)
        if more.get("needed")
        else field(default=default, metadata=metadata)
    )


def keys(*stated: Key, default: Any = NOTHING, written: str = "", own: bool = True) -> Any:
    """Return an attribute that several keys state, or one that a reader of its own makes.

    Parameters
    ----------
    *stated
        In the order of the file.
    default
        Where all are left out.
    written
        Name of the key that it is written back under; the last where not given.
    own
        Whether a reader of its own makes it; else it is read under ``written``.
    """
    metadata = {"keys": stated, "own": own, "written": written}
    return field(default=default, metadata=metadata)


def stated_by(made: type[Any]) -> tuple[Stated, ...]:
    """Return what the keys of a value state, in the order of the file."""
    return _stated(cast("Hashable", made))


@cache
def _stated(made: Hashable) -> tuple[Stated, ...]:
    hints = get_type_hints(made)
    found = []
    for one in fields(cast("Any", made)):
        if "keys" not in one.metadata:
            continue
        default = None if one.default is NOTHING else one.default
        filled = tuple(
            evolve(
                each,
                name=each.name or one.name,
                default=default if each.default is None else each.default,
                options=each.options
                or (_options(hints[one.name]) if each.kind == "choice" else ()),
            )
            for each in one.metadata["keys"]
        )
        wanted = one.metadata.get("written") or filled[-1].name
        found.append(
            Stated(
                attribute=one.name,
                keys=filled,
                written=next(each for each in filled if each.name == wanted),
                own=one.metadata["own"],
            )
        )
    return tuple(found)


def keys_of(made: type[Any]) -> Mapping[str, Key]:
    """Return the keys of a value by their names, in the order of the file."""
    return _keys(cast("Hashable", made))


@cache
def _keys(made: Hashable) -> Mapping[str, Key]:
    return MappingProxyType({each.name: each for one in _stated(made) for each in one.keys})


def _options(hint: Any) -> tuple[str, ...]:
    """Words of a literal, or of a literal that may be ``None``."""
    found: list[str] = []
    for one in get_args(hint):
        if isinstance(one, str):
            found.append(one)
        elif one is not type(None):
            found += _options(one)
    return tuple(found)
