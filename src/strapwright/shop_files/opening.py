"""Open a file: text -> checked head and tables, before anything in it is read."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any, get_args

import tomlkit
from tomlkit.exceptions import TOMLKitError

from strapwright.errors import InputError, in_file, table_of
from strapwright.quantities import Units
from strapwright.shop_files.key_lines import index_lines
from strapwright.shop_files.known_keys import SHOP_KEYS, SHOP_TABLES, one_of
from strapwright.shop_files.text_limits import refuse_beyond_limits
from strapwright.shop_files.toml_table import Table, shown

if TYPE_CHECKING:
    from tomlkit import TOMLDocument

# What the parser says of a file that is cut off.
_ENDS = ("unexpected end of file", "unexpected character: '\\x00'")
FORMAT = 1
BEGIN = f"write {table_of('part')} with name, bar, material and shape"


def parse(text: str, file: str = "") -> TOMLDocument:
    """Parse a file, keeping comments and layout.

    Parameters
    ----------
    text
        The file.
    file
        Its name where it is not the job itself, for the message.

    Raises
    ------
    InputError
        Where it is empty, beyond the limits or not TOML, with the line where it is known.
    """
    where = file or "job file"
    _refuse_unread(text, where)
    try:
        # Some editors put a byte-order mark in front, which is no part of what was typed.
        document = tomlkit.parse(text.removeprefix("\ufeff"))
        # A key twice in a table that is written in several places is found by this alone.
        document.unwrap()
    except (TOMLKitError, ValueError) as error:
        # The parser's own words end in "at line 3 col 4"; the place is told once, ours.
        said = _uncapped(str(error).partition(" at line ")[0].rstrip("."))
        if said in _ENDS and "\0" not in text:
            said = "it ends in the middle of a line or a list"
        raise InputError(
            where,
            f"this is not a TOML file: {said[:120]}",
            in_file('write each line as key = "value", tables as [press], and no key twice'),
            line=getattr(error, "line", None),
        ) from None
    return document


def read_values(text: str, file: str = "") -> dict[str, Any]:
    """Return the plain values of a file, without its comments and layout: much sooner than parsed.

    Parameters
    ----------
    text, file
        As for :func:`parse`.

    Raises
    ------
    InputError
        As :func:`parse` does.
    """
    _refuse_unread(text, file or "job file")
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except ValueError:  # what is wrong, and where, the other parser says
        return parse(text, file).unwrap()


def _refuse_unread(text: str, where: str) -> None:
    """Refuse what no parser is given: an empty file, and one beyond the limits."""
    if not text.strip("\ufeff \t\r\n"):
        raise InputError(
            where, "the file is empty", in_file(f"write format = {FORMAT}, then {BEGIN}")
        )
    refuse_beyond_limits(text, where)


def _uncapped(said: str) -> str:
    """Begin in lower case, but for a word of capitals such as TOML."""
    return said if said[1:2].isupper() else said[:1].lower() + said[1:]


def open_job(text: str) -> Table:
    """Open a job file and check its head.

    Parameters
    ----------
    text
        The file.

    Raises
    ------
    InputError
        Where it is no job file of a format known here.
    """
    head = _open(text)
    head.refuse_unknown()
    return head


def open_table(head: Table, key: str, beside: Mapping[str, str]) -> Table | None:
    """Return a table of a job, from the job or from the shop file it names.

    Parameters
    ----------
    head
        From :func:`open_job`.
    key
        ``press``, ``tooling`` or ``lot``.
    beside
        File name -> text of the shop files beside the job.

    Returns
    -------
    Table or None
        ``None`` where the job says nothing of it.

    Raises
    ------
    InputError
        Where the file is not there, is no shop file, or lacks the table.
    """
    name = shop_file(head, key)
    if name is None:
        return head.child(key)
    if name not in beside:
        raise head.refuse(
            key,
            "there is no such file beside the job",
            in_file(f"put it there, or write [{key}] into the job itself"),
            value=name,
        )
    shop = _open(beside[name], name)
    shop.refuse_unknown(SHOP_KEYS)
    table = shop.child(key)
    if table is None:
        raise shop.refuse(
            "",
            f"the table [{key}] is missing, though the job takes its {key} from this file",
            in_file(f"write [{key}] and beneath it its keys"),
        )
    return table


def open_shop_file(text: str, file: str, known: tuple[str, ...]) -> Table:
    """Open a file of its own, as a rack or a crib, and check its head.

    Parameters
    ----------
    text
        The file.
    file
        Its name, for messages.
    known
        Keys beside ``format`` and ``units``.

    Raises
    ------
    InputError
        Where it is no such file of a format known here.
    """
    head = _open(text, file)
    head.refuse_unknown(("format", "units", *known))
    return head


def files_named(text: str) -> tuple[str, ...]:
    """Return the names of the shop files a job is read with, each once.

    Parameters
    ----------
    text
        The job file.

    Raises
    ------
    InputError
        Where it is no job file, or a name is not one of a file beside it.
    """
    head = open_job(text)
    names = (shop_file(head, key) for key in SHOP_TABLES)
    return tuple(dict.fromkeys(name for name in names if name is not None))


def shop_file(head: Table, key: str) -> str | None:
    """Return the file that a job takes a table from, or ``None`` where it names none."""
    name = head.data.get(key)
    if not isinstance(name, str):
        return None
    # A job may come from anywhere: it must not reach into other folders.
    plain = name.removesuffix(".toml").replace("-", "").replace("_", "").replace(" ", "")
    if not name.endswith(".toml") or len(name) > 100 or not plain.replace(".", "").isalnum():
        raise head.refuse(
            key,
            "this is not the plain name of a TOML file beside the job",
            in_file(f'write for example {key} = "{key}.toml", without a folder'),
            value=name,
        )
    return name


@lru_cache(maxsize=32)
def _open(text: str, file: str = "") -> Table:
    """Open a file; remembered, since a page reads one text ten times, and nothing alters it."""
    data: dict[str, object] = read_values(text, file)
    head = Table(data=data, path="", units=None, lines=index_lines(text), file=file)
    form = head.need("format", in_file(f"write format = {FORMAT} on the first line"))
    if isinstance(form, bool) or form != FORMAT or not isinstance(form, int):
        raise head.refuse(
            "format",
            "this format is not known here",
            in_file(f"write format = {FORMAT}, or use the version that wrote the file"),
            value=form,
        )
    units = head.data.get("units")
    for system in get_args(Units):
        if units in (None, system):
            return Table(
                data=data,
                path="",
                units=None if units is None else system,
                lines=head.lines,
                file=file,
            )
    raise head.refuse(
        "units",
        "this is not a unit system known here",
        in_file(
            f"write units = {one_of(get_args(Units))}, or leave it out and give every figure its "
            "unit"
        ),
        value=shown(units),
    )
