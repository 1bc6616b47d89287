"""What the store hands out."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from datetime import datetime
from typing import Literal

from attrs import frozen

Kind = Literal["job", "press", "tooling", "lot", "rack", "crib", "rates"]
KINDS: tuple[Kind, ...] = ("job", "press", "tooling", "lot", "rack", "crib", "rates")
State = Literal["running", "done", "stopped", "failed"]


@frozen(kw_only=True)
class Item:
    """One thing the shop keeps, as its current version says.

    Attributes
    ----------
    id
        32 hexadecimal digits; stays for good.
    name
        As the shop calls it.
    file
        Plain name of its file when exported, e.g. ``bracket.toml``; stays through a rename, because
        jobs name their press and tooling by it.
    created, updated
        When it was made, and last saved or renamed.
    current
        Number of the current version, from 1.
    archived
        Put away: kept in full, but not listed.
    sound
        Whether the text could be read when it was saved.
    trouble
        The sentence that says why not, or ``None``.
    material, bar, quantity
        Of a sound job, as typed; ``None`` otherwise.
    """

    id: str
    kind: Kind
    name: str
    file: str
    created: datetime
    updated: datetime
    current: int
    archived: bool
    sound: bool
    trouble: str | None
    material: str | None
    bar: str | None
    quantity: int | None


@frozen(kw_only=True)
class Version:
    """One saved version; its text is asked for apart.

    Attributes
    ----------
    item
        Id of the item.
    number
        From 1, without gaps.
    note
        Why it was saved, may be empty.
    restores
        Number of the version whose text it brought back, ``None`` where it brought none.
    sha256
        Of the text in UTF-8, in hexadecimal digits.
    sound, trouble
        As in :class:`Item`.
    """

    item: str
    number: int
    saved_at: datetime
    note: str
    restores: int | None
    sha256: str
    sound: bool
    trouble: str | None


@frozen(kw_only=True)
class Draft:
    """A half-typed edit.

    Attributes
    ----------
    item
        Id of the item, or the id that a new one will get.
    who
        Which browser typed it.
    kind
        Of the item.
    base
        Version the edit began from, or ``None`` for a new item.
    fields
        Field name -> text as typed.
    """

    item: str
    who: str
    kind: Kind
    base: int | None
    fields: Mapping[str, str]
    updated: datetime


@frozen(kw_only=True)
class Search:
    """Long work on a job, as far as it came.

    Attributes
    ----------
    id
        32 hexadecimal digits.
    item
        Id of the job.
    state
        ``running``; ``done``; ``stopped`` by a person or with the server; ``failed``.
    asked
        Digest of what it was asked from, so that a change since can be told.
    said
        Why it was stopped or failed, one sentence, else empty.
    result
        What it found, as JSON; empty until it is done.
    """

    id: str
    item: str
    state: State
    asked: str
    begun: datetime
    said: str
    result: str


@frozen(kw_only=True)
class LogEntry:
    """One line of the shop log as it is now, or as it once was.

    Attributes
    ----------
    line
        Its number, from 1.
    revision
        From 1; a correction, a line left out and a lot that was merged each add one.
    item, version
        Which job, as which version.
    part, bend
        Which piece, and which bend along the bar, from 1.
    lot, press, tooling
        What it was made with, by name.
    mounting
        Which time the tooling was in the press, from 1.
    typed
        What was read, as typed, by name.
    figures
        The same in mm, MPa and rad.
    counted
        Whether it is learned from.
    why
        Of this state: why it was corrected or left out; of the first, a note.
    kept_at
        When this state was kept.
    """

    line: int
    revision: int
    item: str
    version: int
    part: int
    bend: int
    lot: str
    press: str
    tooling: str
    mounting: int
    typed: Mapping[str, str]
    figures: Mapping[str, float]
    counted: bool
    why: str
    kept_at: datetime


def new_id() -> str:
    """Return an id that no item has."""
    return uuid.uuid4().hex
