"""The history of a job as a person remembers it: a sitting at a time, with what it changed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from functools import lru_cache

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.fields.form_fields import Page
from strapwright.pages.fields.part_picture import part_picture, sketch
from strapwright.pages.form import Form, open_form
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.shop.job import Job
from strapwright.store import Version

_BREAK = timedelta(minutes=30)  # without a saving ends a sitting; common practice, no source
_PAGES: tuple[Page, ...] = ("part", "bar", "press", "tooling", "strength")
_MOST = 6  # changes named of one sitting
_PICTURES = 12  # newest sittings that are drawn


@frozen(kw_only=True)
class Sitting:
    """Versions saved one soon after the other.

    Attributes
    ----------
    versions
        The newest first.
    changes
        What was changed, each as a line; those that are too many only counted.
    picture
        The part as it was left, as SVG; empty where it cannot be drawn.
    """

    versions: tuple[Version, ...]
    changes: tuple[str, ...]
    picture: str

    @property
    def last(self) -> Version:
        """The version that it was left at."""
        return self.versions[0]

    @property
    def first(self) -> Version:
        """The version that it began with."""
        return self.versions[-1]


def sittings(shop: Workshop, opened: OpenJob) -> tuple[Sitting, ...]:
    """Return the sittings of a job, the newest first."""
    groups = _grouped(shop.store.history(opened.item.id))
    texts = [shop.version(opened.item.id, group[0].number) for group in groups]
    found = []
    for at, (group, text) in enumerate(zip(groups, texts, strict=True)):
        before = texts[at + 1] if at + 1 < len(texts) else None
        found.append(
            Sitting(
                versions=group,
                changes=_notes(group) + (() if before is None else _changes(before, text)),
                picture=_picture(shop, text) if at < _PICTURES else "",
            )
        )
    return tuple(found)


def _grouped(versions: Sequence[Version]) -> list[tuple[Version, ...]]:
    groups: list[tuple[Version, ...]] = []
    for version in versions:
        # A clock that was set back between two savings makes a break too.
        if groups and abs(groups[-1][-1].saved_at - version.saved_at) <= _BREAK:
            groups[-1] = (*groups[-1], version)
        else:
            groups.append((version,))
    return groups


def _notes(group: Sequence[Version]) -> tuple[str, ...]:
    """Why they were saved, where that says more than the name of a page."""
    said = [one.note for one in reversed(group)]
    return tuple(why for why in dict.fromkeys(said) if why and why not in _PAGES)


def _changes(before: str, after: str) -> tuple[str, ...]:
    """Return each field that says something else, as ``Leg 1: 5 → 6``."""
    found: dict[str, str] = {}
    for page in _PAGES:
        try:
            old, new = open_form(before, page), open_form(after, page)
        except InputError:
            continue
        labels = {field.name: field.label for field in (*old.fields, *new.fields)}
        for name, label in labels.items():
            was, now = _value(old, name), _value(new, name)
            if was != now:
                found[name] = f"{label}: {was or 'empty'} \N{RIGHTWARDS ARROW} {now or 'empty'}"
    lines = list(found.values())
    more = len(lines) - _MOST
    return tuple(lines[:_MOST]) + ((f"{more} more",) if more > 0 else ())


def _value(form: Form, name: str) -> str:
    return form.values.get(name, "").strip()


def _picture(shop: Workshop, text: str) -> str:
    try:
        return _drawn(shop.read(text))
    except InputError:
        return ""


@lru_cache(maxsize=100)
def _drawn(job: Job) -> str:
    made = sketch(job)
    return "" if made is None else part_picture(made, "phone", {}, hurried=True).svg
