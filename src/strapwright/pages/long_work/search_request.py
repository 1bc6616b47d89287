"""What a search for a tooling is asked from, and a digest by which a change since is told."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from attrs import frozen

from strapwright.pages.form import raw_job


@frozen(kw_only=True)
class AskedPart:
    """One part that the tooling is to make.

    Attributes
    ----------
    id
        Of its job in the store.
    text, beside
        The job file, and the shop files that it names.
    """

    id: str
    text: str
    beside: dict[str, str]


@frozen(kw_only=True)
class Asked:
    """What a search is asked from.

    Attributes
    ----------
    parts
        The job that is searched for first.
    rack, crib
        Text of each; ``crib`` is ``None`` where none is kept.
    """

    parts: tuple[AskedPart, ...]
    rack: str
    crib: str | None


def digest_of(asked: Asked) -> str:
    """Return a digest of parts, press, rack and crib; the tooling, which is found, is left out.

    Parameters
    ----------
    asked
        What is searched for.

    Raises
    ------
    InputError
        If a job is no readable file.
    """
    parts = []
    for part in asked.parts:
        raw = raw_job(part.text)
        raw.pop("tooling", None)
        press = raw.get("press")
        parts.append([raw, part.beside.get(press) if isinstance(press, str) else None])
    said = json.dumps([parts, asked.rack, asked.crib], sort_keys=True, default=str)
    return hashlib.sha256(said.encode()).hexdigest()


def asked_to_data(asked: Asked) -> dict[str, Any]:
    """Return what is asked as plain data, as :mod:`strapwright.pages.search_results` takes it.

    Parameters
    ----------
    asked
        What is searched for.
    """
    return {
        "jobs": [{"id": one.id, "text": one.text, "beside": one.beside} for one in asked.parts],
        "rack": asked.rack,
        "crib": asked.crib,
    }
