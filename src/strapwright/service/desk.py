"""One job on the desk: what is saved, what is typed over it, what can be drawn of it."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.errors import InputError, StrapwrightError
from strapwright.planning.values import Plan
from strapwright.service.fields import Field, Page
from strapwright.service.form import (
    Form,
    field_at,
    form_text,
    notes_of,
    open_form,
    sentence_for,
)
from strapwright.service.saying import Said, refused
from strapwright.service.workshop import OpenJob, Workshop


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
    typed_over
        Whether something typed is not saved.
    differences
        Where the job was saved elsewhere since: the fields that differ.
    """

    opened: OpenJob
    form: Form
    base: int
    text: str
    notes: Mapping[str, Note]
    trouble: InputError | None
    typed_over: bool
    differences: tuple[Difference, ...]


def desk_of(
    shop: Workshop, opened: OpenJob, page: Page, typed: Mapping[str, str], base: int
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
    """
    form = open_form(opened.text, page, typed)
    trouble: InputError | None = None
    text = opened.text
    try:
        text = form_text(opened.text, form)
        shop.read(text)
    except InputError as error:
        trouble = error
    saved = open_form(opened.text, page)
    changed = [
        field
        for field in form.fields
        if form.values.get(field.name, "") != saved.values.get(field.name, "")
    ]
    return Desk(
        opened=opened,
        form=form,
        base=base,
        text=text,
        notes=_notes(form, trouble),
        trouble=trouble,
        typed_over=bool(changed),
        differences=_differences(changed, form, saved) if base != opened.version else (),
    )


def _notes(form: Form, trouble: InputError | None) -> dict[str, Note]:
    notes = {
        name: Note(other=other, wrong=wrong) for name, (other, wrong) in notes_of(form).items()
    }
    field = None if trouble is None else field_at(form, trouble.where)
    # A field that is empty from the beginning is not wrong, it is not filled in yet.
    if trouble is not None and field is not None and not notes[field.name].wrong:
        notes[field.name] = Note(other=notes[field.name].other, wrong=sentence_for(field, trouble))
    return notes


def _differences(changed: list[Field], form: Form, saved: Form) -> tuple[Difference, ...]:
    return tuple(
        Difference(
            label=field.label,
            mine=form.values.get(field.name, "") or "nothing",
            saved=saved.values.get(field.name, "") or "nothing",
        )
        for field in changed
    )


def plan_or_said(shop: Workshop, text: str) -> tuple[Plan | None, Said | None]:
    """Plan a job's text, or say what is in the way."""
    try:
        return shop.plan(text), None
    except InputError as error:
        return None, refused(error)
    except StrapwrightError as error:
        return None, Said(
            kind="refusal", word="Cannot be made", text=f"{error}.", place="Solver", link=""
        )


def last_sound(shop: Workshop, opened: OpenJob, most: int = 40) -> str | None:
    """Return the newest saved text that can be read, ``None`` where none of the last can."""
    for version in shop.store.history(opened.item.id)[:most]:
        if version.sound:
            return shop.version(opened.item.id, version.number)
    return None
