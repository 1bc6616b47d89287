"""One job on the desk: what is saved, what is typed over it, what can be drawn of it."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.errors import InputError, StrapwrightError
from strapwright.pages.fields.form_fields import Field, Page
from strapwright.pages.form import (
    Form,
    field_at,
    form_text,
    notes_of,
    open_form,
    sentence_for,
)
from strapwright.pages.page_statements import Said, failed, refused
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.planning.plan_values import Plan

COUNT = "shape.count"  # how many entries of the shape the form was made for


@frozen(kw_only=True)
class Note:
    """What stands beneath a field: the other unit, and what is wrong."""

    other: str
    wrong: str


@frozen(kw_only=True)
class Difference:
    """A field that two browsers left different."""

    label: str
    mine: str
    saved: str


@frozen(kw_only=True)
class Desk:
    """What a page shows.

    Attributes
    ----------
    opened
        The job as saved.
    form
        With what was typed.
    base
        Version that what was typed began from.
    text
        Job file with what was typed, or as saved where that cannot be put into it.
    notes
        By field.
    trouble
        What keeps the typed text from being planned, ``None`` where nothing does.
    mine
        What was changed and is not saved, by field.
    differences
        Where the job was saved elsewhere since: the fields that differ.
    """

    opened: OpenJob
    form: Form
    base: int
    text: str
    notes: Mapping[str, Note]
    trouble: InputError | None
    mine: Mapping[str, str]
    differences: tuple[Difference, ...]

    @property
    def own(self) -> frozenset[str]:
        """Names of what this page keeps in a draft."""
        return frozenset(field.name for field in self.form.fields) | {COUNT}


def desk_of(
    shop: Workshop, opened: OpenJob, page: Page, typed: Mapping[str, str], base: int, who: str
) -> Desk:
    """Lay a job on the desk.

    Parameters
    ----------
    shop
        Where it is kept.
    opened
        The job.
    page
        Whose fields are shown.
    typed
        Field name -> text, of this page or of others too.
    base
        Version that it was typed over.
    who
        The browser.  What it saved itself since, in another tab, is no other's: what was typed here
        goes on top.
    """
    saved = open_form(opened.text, page)
    mine = _typed_over(shop, opened, page, typed, base, saved)
    form = open_form(opened.text, page, mine)
    trouble: InputError | None = None
    text = opened.text
    try:
        text = form_text(opened.text, form)
        shop.read(text)
    except InputError as error:
        trouble = error
    if not mine or (
        shop.browsers.saved_all(opened.item.id, base, opened.version, who)
        and mine.get(COUNT) in (None, str(len(saved.shape)))
    ):
        base = opened.version
    return Desk(
        opened=opened,
        form=form,
        base=base,
        text=text,
        notes=_notes(form, trouble),
        trouble=trouble,
        mine=mine,
        differences=_differences(mine, form, saved) if base != opened.version else (),
    )


def _typed_over(
    shop: Workshop, opened: OpenJob, page: Page, typed: Mapping[str, str], base: int, now: Form
) -> dict[str, str]:
    """Return what was changed in the fields, against the version that they were typed over.

    A form posts all its fields; those that nobody touched must not stand against what another
    browser saved, nor those that say what is saved by now, perhaps by this browser itself while
    they were on their way.  ``now`` is the form as saved.
    """
    before = now
    if base != opened.version and 0 < base < opened.version:
        before = open_form(shop.version(opened.item.id, base), page)
    same_shape = len(before.shape) == len(now.shape)  # else a name means another leg by now
    changed = {
        field.name: typed[field.name]
        for field in before.fields
        if field.name in typed
        and not says(before, field, typed[field.name])
        and not (same_shape and says(now, field, typed[field.name]))
    }
    if changed and page == "part":
        changed[COUNT] = str(len(before.shape))
    return changed


def says(form: Form, field: Field, text: str) -> bool:
    """Tell whether a field of a form says this; one that says nothing shows its first choice."""
    there = form.values.get(field.name, "").strip()
    if not there and field.choices:
        there = field.choices[0][0]
    return text.strip() == there


def _notes(form: Form, trouble: InputError | None) -> dict[str, Note]:
    notes = {
        name: Note(other=other, wrong=wrong) for name, (other, wrong) in notes_of(form).items()
    }
    field = None if trouble is None else field_at(form, trouble.where)
    # A field that is empty from the beginning is not wrong, it is not filled in yet.
    if trouble is not None and field is not None and not notes[field.name].wrong:
        wrong = sentence_for(field, trouble, form.units or "")
        notes[field.name] = Note(other=notes[field.name].other, wrong=wrong)
    return notes


def _differences(mine: Mapping[str, str], form: Form, saved: Form) -> tuple[Difference, ...]:
    known = {field.name: field.label for field in form.fields}
    return tuple(
        Difference(
            label=known.get(name, name.partition("[")[0].removeprefix("part.")),
            mine=text or "nothing",
            saved=saved.values.get(name, "") or "nothing",
        )
        for name, text in mine.items()
        if name != COUNT and text != saved.values.get(name, "")
    )


def plan_or_said(
    shop: Workshop, text: str, *, order_alone: bool = False
) -> tuple[Plan | None, Said | None]:
    """Plan a job's text, or say what is in the way; for its order alone by any log there was."""
    try:
        return shop.order_plan(text) if order_alone else shop.plan(text), None
    except InputError as error:
        return None, refused(error)
    except StrapwrightError as error:
        return None, failed(error)


def settled_plan(shop: Workshop, opened: OpenJob) -> tuple[Plan | None, Said | None]:
    """Plan a job for paper, which waits for the search of its order that a first look left."""
    made, refusal = plan_or_said(shop, opened.text)
    if made is None:
        return made, refusal
    shop.settled(opened)
    return plan_or_said(shop, opened.text)


def last_sound(shop: Workshop, opened: OpenJob, most: int = 40) -> str | None:
    """Return the newest saved text that can be read, ``None`` where none of the last can."""
    for version in shop.store.history(opened.item.id)[:most]:
        if version.sound:
            return shop.version(opened.item.id, version.number)
    return None
