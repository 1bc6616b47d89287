"""Press and tooling that a new part takes over from the job last worked on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.form import raw_job
from strapwright.quantities import Units
from strapwright.service.stated_units import with_units
from strapwright.shop_files.updating import update_job
from strapwright.store import Missing, Store

DROP = "drop-taken-over"  # what the button posts
_TAKEN = ("press", "tooling")  # a new part has a bar of its own


@frozen(kw_only=True)
class LatestShop:
    """What the job last worked on says of the shop.

    Attributes
    ----------
    job, name
        Its id and its name.
    tables
        ``press`` and ``tooling``, as far as stated, each figure with its unit.
    """

    job: str
    name: str
    tables: Mapping[str, Any]


@frozen(kw_only=True)
class TakenOver:
    """What still stands in a job as it was taken over.

    Attributes
    ----------
    name
        Of the job that it was taken from, empty where that is gone.
    tables
        Which of ``press`` and ``tooling``.
    """

    name: str
    tables: tuple[str, ...]


def latest_shop(store: Store) -> LatestShop | None:
    """Return press and tooling of the job last worked on, ``None`` where it states neither."""
    for item in store.recent("job", 1):
        try:
            raw = raw_job(store.text_of(item.id))
        except InputError:
            return None
        tables = with_units(_shop(raw), _units(raw))
        return LatestShop(job=item.id, name=item.name, tables=tables) if tables else None
    return None


def remember_source(store: Store, job: str, source: str) -> None:
    """Keep which job another took its press and tooling from."""
    store.set_setting(_key(job), source)


def taken_over(store: Store, job: str, text: str) -> TakenOver | None:
    """Return what a job still has as it took it over, ``None`` where that is nothing.

    Parameters
    ----------
    store
        Where it is kept.
    job
        Its id.
    text
        As it stands now.
    """
    source = store.setting(_key(job))
    if source is None:
        return None
    begun, now = _shop(raw_job(store.text_of(job, 1))), _shop(raw_job(text))
    same = tuple(name for name, table in begun.items() if now.get(name) == table)
    if not same:
        return None
    try:
        name = store.item(source).name
    except Missing:
        name = ""
    return TakenOver(name=name, tables=same)


def without_taken_over(text: str, taken: TakenOver | None) -> str:
    """Return a job file without what was taken over and is not changed since."""
    return text if taken is None else update_job(text, dict.fromkeys(taken.tables))


def _shop(raw: Mapping[str, Any]) -> dict[str, Any]:
    return {name: raw[name] for name in _TAKEN if name in raw}


def _units(raw: Mapping[str, Any]) -> Units | None:
    units = raw.get("units")
    return units if units in ("inch", "metric") else None


def _key(job: str) -> str:
    return f"shop of {job}"
