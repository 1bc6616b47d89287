"""Findings and errors as a page tells them: in the words of its fields, with the place to go."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from attrs import evolve, frozen

from strapwright.errors import InputError, StrapwrightError
from strapwright.findings import BendAt, HoleAt, KeyAt, Place, Severity
from strapwright.pages.fields.form_fields import Field
from strapwright.pages.fields.key_fields import labels_of
from strapwright.pages.fields.member_fields import ROOT, member_labels
from strapwright.pages.fields.other_tooling_fields import OTHER, other_tooling_labels
from strapwright.pages.fields.part_fields import part_fields
from strapwright.pages.fields.rate_fields import rate_fields
from strapwright.pages.fields.shop_fields import bar_fields, press_fields
from strapwright.pages.fields.tooling_fields import TABLES
from strapwright.shop.job import Job
from strapwright.wording.places import where
from strapwright.wording.reader import Reader, at_command
from strapwright.wording.severity_words import severity_label
from strapwright.wording.telling import Told

_TABLES = {
    "part": "the part",
    "lot": "this batch of bar",
    "press": "the press",
    "tooling": "the tooling",
    "blank": "the blank",
    "hits": "the series of hits",
}
_MORE = {
    "part.order": "the order",
    "part.hole": "the hole",
    "part.shape": "the shape",
    "part.bar": "the bar",
    "part.stacked": "bars on each other",
    "part.finish": "the bend finished at the bench",
    "part.limit": "the limit",
    "part.close": "how the ends meet",
    "part.other_tooling": "other tooling",
    "blank.method": "how the blank is worked out",
    "press.pump": "pump delivers",
    "tooling.plate": "the push plate",
}


# Findings that another tooling may do away with.
_ANOTHER_TOOLING = frozenset(
    {
        "no-tooling",
        "no-order",
        "order-cannot-be-made",
        "leg-off-shoulder",
        "too-shallow",
        "too-wide-for-nose",
        "stroke-too-short",
        "halves-collide",
    }
)
_FIND = (("propose", "find tooling from the rack"),)


@frozen(kw_only=True)
class Said:
    """One statement on a page.

    Attributes
    ----------
    kind, word
        ``refusal``, ``warning`` or ``note``, and the word for it.
    place, link
        What it is about, and where that is on the pages of the job, empty where nowhere.
    ways
        Pages that lead on, each with the words of its link.
    """

    kind: str
    word: str
    text: str
    place: str
    link: str
    ways: tuple[tuple[str, str], ...] = ()


@cache
def labels() -> Mapping[str, str]:
    """Return the label of every field by its key path."""
    fields: list[Field] = [*part_fields(), *bar_fields({}), *press_fields({})]
    return {
        **{field.name: field.label for field in fields},
        **labels_of(TABLES),
        **other_tooling_labels(),
        **member_labels(),
        **{_bare(field.name): field.label for field in rate_fields({})},
        "price": "Price of metal",
    }


def on_page(job: Job) -> Reader:
    """Return who reads the plan of a job on a page."""
    return evolve(at_command(job), medium="page", key=key_name, table=table_name)


def said(finding: Told) -> Said:
    """Return a finding as a page tells it."""
    about = finding.about
    single = len(about) == 1
    return Said(
        kind=finding.severity.value,
        word=severity_label(finding.severity),
        text=finding.sentence,
        place=place_name(about[0]) if single else where(about).capitalize(),
        link=place_link(about[0]) if single else "bends",
        ways=_FIND if finding.code in _ANOTHER_TOOLING else (),
    )


def refused(error: InputError) -> Said:
    """Return an error as a page tells it."""
    return Said(
        kind=Severity.REFUSAL.value,
        word=severity_label(Severity.REFUSAL),
        text=told(error),
        place=place_name(error.place),
        link=place_link(error.place),
    )


def failed(error: StrapwrightError) -> Said:
    """Return as a page tells it what went wrong and is no fault of what was typed."""
    return Said(
        kind=Severity.REFUSAL.value,
        word=severity_label(Severity.REFUSAL),
        text=f"{str(error).removesuffix('.')}.",
        place="",
        link="",
    )


def told(error: InputError) -> str:
    """Return what is wrong and what to do, in the words of the pages."""
    return error.told(key_name, table_name, _to_do(error))


def told_of_file(error: InputError) -> str:
    """Return the same about a file that was brought, which is where it has to be mended."""
    return error.told(key_name, table_name)


def _to_do(error: InputError) -> str:
    """What to do on the pages where the remedy tells what to write into a file."""
    path = error.place.path if isinstance(error.place, KeyAt) else ""
    if _bare(path) not in labels() and _bare(path) not in _MORE:
        return "correct it where it is entered"
    return f"{'enter' if error.value is None else 'correct'} {key_name(path)}"


def key_name(path: str) -> str:
    """Name a key of the job file by its field."""
    bare = _bare(path)
    if bare in labels():
        return f"\N{LEFT DOUBLE QUOTATION MARK}{labels()[bare]}\N{RIGHT DOUBLE QUOTATION MARK}"
    return _MORE.get(bare, f"{path} in the job file" if "." in path else path)


def table_name(name: str) -> str:
    """Name a table of the job file as a page does."""
    return _TABLES[name]


def place_name(place: Place) -> str:
    """Name what a statement is about."""
    match place:
        case BendAt(number=number):
            return f"Bend {number}"
        case HoleAt(number=number):
            return f"Hole {number}"
        case KeyAt(path=path):
            return place_of(path)
    raise TypeError(f"no name for {place!r}")


def place_link(place: Place) -> str:
    """Return the page and field that a statement is about, relative to the job."""
    match place:
        case BendAt(number=number):
            return f"bends/{number}"
        case HoleAt(number=number):
            return f"part#part.hole[{number}].distance"
        case KeyAt(path=path):
            return link_to(path)
    raise TypeError(f"no place for {place!r}")


def _bare(path: str) -> str:
    return re.sub(r"\[\d+\]", "", path)


def place_of(where: str) -> str:
    """Name what a statement is about."""
    known = labels()
    bare = re.sub(r"\[\d+\]", "", where)
    number = re.search(r"\[(\d+)\]", where)
    if bare in known:
        return known[bare]
    if bare.startswith("part.hole") and number:
        return f"Hole {number[1]}"
    above = bare
    while above:  # a key within a table stands in the fields of the table
        if above in _MORE:
            return _MORE[above].capitalize()
        above = above.rpartition(".")[0]
    return _TABLES.get(bare.partition(".")[0], where).capitalize()


def link_to(where: str) -> str:  # noqa: PLR0911  one place an answer
    """Return the page and field that a statement is about, relative to the job."""
    if where == "part.order":
        return "bends"
    bare = re.sub(r"\[\d+\]", "", where)
    if bare.startswith(("lot", "part.bar", "part.material", "part.edges", "part.grain")):
        return f"bar#{'bar.thickness' if bare == 'part.bar' else bare}"
    if bare.startswith("part.hole"):
        inside = where if where.count(".") > 1 else f"{where}.distance"
        return f"part#{inside.replace('.from_end', '.distance')}"
    if bare.startswith(ROOT):
        return f"strength#{where}"
    if bare.startswith(OTHER):
        return f"tooling#{where}"
    page = bare.partition(".")[0]
    if page not in ("part", "press", "tooling"):
        return ""
    if bare == "part.shape":
        return f"part#{where if '[' in where else 'part.shape[1]'}"
    return f"{page}#{where}" if bare in labels() else page
