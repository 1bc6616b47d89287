"""A page's form: what stands in its fields, what each becomes in the job file, what is wrong."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import Any

from attrs import frozen

from strapwright.errors import InputError, joined
from strapwright.pages.fields import part_fields as parts
from strapwright.pages.fields.closed_shape_fields import (
    CLOSE,
    closed_shape_changes,
    closed_shape_fields,
)
from strapwright.pages.fields.form_fields import Field, Page, other_unit, stored, typed
from strapwright.pages.fields.member_fields import member_fields
from strapwright.pages.fields.other_tooling_fields import (
    OTHER,
    bends_typed,
    other_tooling_fields,
    other_tooling_values,
    others_of,
)
from strapwright.pages.fields.shop_fields import CAUTIONS, bar_fields, press_fields
from strapwright.pages.fields.tooling_fields import tooling_fields
from strapwright.pages.fields.way_fields import (
    FINISH,
    LIMIT,
    finish_fields,
    limit_fields,
    way_changes,
    way_values,
)
from strapwright.quantities import Units, read_length, read_ratio
from strapwright.quantities.inside_units import GALLON_MM3
from strapwright.shop.part_finish import MAIN_TOOLING
from strapwright.shop_files.opening import read_values
from strapwright.shop_files.reading_bar import split_bar
from strapwright.shop_files.updating import update_job
from strapwright.shop_files.ways.reading_overall import is_open

_BY = re.compile("\\s+x\\s+|\\s*\N{MULTIPLICATION SIGN}\\s*", re.IGNORECASE)
_MOST_HOLES = 60
_WRITTEN_APART = ("part.shape", "part.hole", f"{FINISH}.", f"{LIMIT}.", "bar.", "timed.")
Raw = Mapping[str, Any]


@frozen(kw_only=True)
class Form:
    """The form of one page.

    Attributes
    ----------
    page
        Which.
    units
        Unit system of bare numbers, ``None`` where the job states none.
    fields
        In their order.
    values
        Name -> text as typed.
    shape
        Entries of the shape, with what was typed.
    holes
        How many holes the form has.
    places
        Key path of an entry of a list -> field that it stands in, where the two differ.
    """

    page: Page
    units: Units | None
    fields: tuple[Field, ...]
    values: Mapping[str, str]
    shape: tuple[str, ...]
    holes: int
    places: Mapping[str, str]

    @property
    def cautions(self) -> Mapping[str, str]:
        """Group -> what is to be minded before its fields are measured."""
        return CAUTIONS

    @property
    def others(self) -> tuple[str, ...]:
        """Headings of the other tooling that some bends are made on."""
        named = (one.group for one in self.fields if one.name.startswith(OTHER))
        return tuple(dict.fromkeys(named))

    @property
    def limits(self) -> tuple[str, ...]:
        """Names of the fields of what single legs and bends may be off by."""
        return tuple(one.name for one in self.fields if one.name.startswith(f"{LIMIT}."))


def raw_job(text: str) -> dict[str, Any]:
    """Return a job file's plain values, readable or not as a job.

    Raises
    ------
    InputError
        Where it is not TOML.
    """
    return read_values(text)


def open_form(text: str, page: Page, draft: Mapping[str, str] | None = None) -> Form:
    """Open the form of a page.

    Parameters
    ----------
    text
        The job file.
    page
        Which.
    draft
        What was typed and not saved yet; it stands over what the file says.

    Raises
    ------
    InputError
        Where the file is not TOML.
    """
    raw = raw_job(text)
    draft = draft or {}
    shape = parts.shape_of(raw)
    holes = _holes(raw)
    if page == "part":
        count = _count(draft, "shape.count", len(shape))
        if count != len(shape):  # typed on top of another shape: it cannot be laid over this one
            draft = {}
        own = parts.part_fields()
        fields = [*own, *parts.shape_fields(shape)]
        values = {field.name: _at(raw, field.name) for field in own} | parts.shape_values(shape)
        bends = parts.bends_of(shape)
        at_hand = [typed(one.get("name")) for one in others_of(raw) if one.get("name")]
        for bend in range(1, bends + 1):
            fields += finish_fields(bend, [*at_hand, MAIN_TOOLING])
        fields += limit_fields(bends + 1, bends)
        closing = closed_shape_fields(bends + 1)
        fields += closing
        apart = ("part.tolerance.takes", *(field.name for field in closing))
        values.update(way_values(raw, bends + 1, bends))
        values.update({name: _at(raw, name) for name in apart})
        for number, hole in enumerate(holes, start=1):
            fields += parts.hole_fields(number, bends + 1, bends)
            values.update(parts.hole_values(number, hole))
    else:
        makers = {
            "bar": bar_fields,
            "press": press_fields,
            "tooling": tooling_fields,
            "strength": member_fields,
        }
        fields = list(makers[page](raw)) if page in makers else []
        if page == "tooling":
            fields += other_tooling_fields(raw)
        values = {field.name: _at(raw, field.name) for field in fields}
        if page == "tooling":
            values.update(other_tooling_values(raw))
        if page == "bar":
            values.update(_bar_values(raw))
    names = {field.name for field in fields}
    values.update({name: text for name, text in draft.items() if name in names})
    units = raw.get("units")
    _, places = _ways(raw, page, fields, values, shape)
    return Form(
        page=page,
        units=units if units in ("inch", "metric") else None,
        fields=tuple(fields),
        values=values,
        shape=tuple(parts.shape_from(values, shape)),
        holes=len(holes),
        places=places,
    )


def _ways(
    raw: Raw, page: Page, fields: Sequence[Field], values: Mapping[str, str], shape: list[str]
) -> tuple[dict[str, object], dict[str, str]]:
    if page != "part":
        return {}, {}
    bends = parts.bends_of(shape)
    return way_changes(raw, {one.name: one for one in fields}, values, bends + 1, bends)


def form_text(text: str, form: Form) -> str:
    """Return the job file with what stands in the form.

    Parameters
    ----------
    text
        The job file that the form was opened on.
    form
        From :func:`open_form`.

    Raises
    ------
    InputError
        Where the file is not TOML, or a table lies in a shop file.
    """
    raw = raw_job(text)
    changes: dict[str, object] = {}
    for field in form.fields:
        if field.name.startswith(_WRITTEN_APART):
            continue
        text_typed = form.values.get(field.name, "")
        changes[field.name] = (
            bends_typed(text_typed)
            if field.name.startswith(OTHER) and field.name.endswith(".bends")
            else _stored(raw, field, text_typed)
        )
    if form.page == "part":
        shape = list(form.shape)
        if shape != list(parts.EMPTY_SHAPE) or _at(raw, "part.shape"):
            changes["part.shape"] = shape
        for number in range(1, form.holes + 1):
            changes.update(parts.hole_changes(number, form.values))
        stated = _find(raw, CLOSE) is not None
        changes = closed_shape_changes(changes, form.values, stated=stated)
        changes.update(_ways(raw, form.page, form.fields, form.values, shape)[0])
    if form.page == "bar":
        changes["part.bar"] = bar_text(form.values)
    if form.page == "press":
        changes.update(_timed(form, raw))
    return update_job(text, _different(raw, changes))


def notes_of(form: Form) -> dict[str, tuple[str, str]]:
    """Return for each field its value in the other unit, and what is wrong with it alone."""
    notes = {}
    for field in form.fields:
        text = form.values.get(field.name, "")
        left_open = field.name.startswith("part.shape[") and is_open(text)
        if left_open or (field.name == "bar.thickness" and _is_whole_bar(form.values)):
            notes[field.name] = ("", "")
            continue
        try:
            notes[field.name] = (other_unit(field, text, form.units), "")
        except InputError as error:
            notes[field.name] = ("", sentence_for(field, error, form.units or ""))
    return notes


def sentence_for(field: Field, error: InputError, units: str) -> str:
    """Return an error about a field as told beneath it, without the words of the file."""
    problem = error.problem[:1].upper() + error.problem[1:]
    example = field.example(units)
    if error.speaks_of_file:
        remedy = f"for example {example}" if example else "correct this"
    else:
        remedy = error.remedy
    return joined(problem, remedy)


def field_at(form: Form, where: str) -> Field | None:
    """Return the field of the form that an error's key path means, or ``None``."""
    if where == "part.bar":
        where = "bar.width" if _width_missing(form) else "bar.thickness"
    if where == "part.shape":
        where = "part.shape[1]"
    where = where.replace(".from_end", ".distance").replace(".from_bend", ".from")
    entry, stop, rest = where.partition("]")
    if entry + stop in form.places:
        where = f"{form.places[entry + stop]}{rest}"
    names = {field.name: field for field in form.fields}
    while where:
        if where in names:
            return names[where]
        where = where.rpartition(".")[0]
    return None


def _width_missing(form: Form) -> bool:
    said = {name: form.values.get(f"bar.{name}", "").strip() for name in ("thickness", "width")}
    flat = form.values.get("bar.section", "") in ("", "flat")
    return flat and bool(said["thickness"]) and not said["width"]


def _stored(raw: Raw, field: Field, text: str) -> object:
    """Return a field's value; the first choice is left out where the file left it out."""
    value = stored(field, text)
    if field.choices and not _at(raw, field.name) and text == field.choices[0][0]:
        return None if field.name != "part.material" else value
    return value


def _different(raw: Raw, changes: Mapping[str, object]) -> dict[str, object]:
    return {
        path: value
        for path, value in changes.items()
        if _find(raw, path) != value and not (value is None and _find(raw, path) is None)
    }


def _find(raw: Raw, path: str) -> object:
    found: object = raw
    for step in path.split("."):
        key, _, number = step.partition("[")
        found = found.get(key) if isinstance(found, Mapping) else None
        if number:
            at = int(number.removesuffix("]")) - 1
            found = found[at] if isinstance(found, list) and at < len(found) else None
    return found


def _at(raw: Raw, path: str) -> str:
    value = _find(raw, path)
    return "" if isinstance(value, dict | list) else typed(value)


def _holes(raw: Raw) -> list[Mapping[str, Any]]:
    holes = _find(raw, "part.hole")
    kept = [hole for hole in holes if isinstance(hole, Mapping)] if isinstance(holes, list) else []
    return kept[:_MOST_HOLES]


def _count(draft: Mapping[str, str], name: str, otherwise: int) -> int:
    text = draft.get(name, "")
    return int(text) if text.isdecimal() and len(text) < 4 else otherwise


def _bar_values(raw: Raw) -> dict[str, str]:
    found = split_bar(_at(raw, "part.bar"))
    if found is None:
        return {"bar.section": "flat", "bar.thickness": _at(raw, "part.bar"), "bar.width": ""}
    thickness, *width = _BY.split(found[1].strip(), maxsplit=1)
    return {
        "bar.section": found[0],
        "bar.thickness": thickness,
        "bar.width": width[0] if width else "",
    }


def bar_text(values: Mapping[str, str]) -> str | None:
    """Return the bar of the fields as a job file has it; ``None`` where they are empty."""
    section = values.get("bar.section", "flat")
    thickness = values.get("bar.thickness", "").strip()
    width = values.get("bar.width", "").strip()
    if not thickness and not width:
        return None
    if _is_whole_bar(values):
        return thickness
    return f"{section} {thickness} x {width}" if section == "flat" else f"{section} {thickness}"


def _is_whole_bar(values: Mapping[str, str]) -> bool:
    """Whether the whole bar was typed into its first field."""
    thickness, width = (values.get(f"bar.{name}", "").strip() for name in ("thickness", "width"))
    return not width and split_bar(thickness) is not None


def _timed(form: Form, raw: Raw) -> dict[str, object]:
    """Return the pump's delivery from a timed stroke, where both its fields are filled in."""
    distance = form.values.get("timed.distance", "").strip()
    seconds = form.values.get("timed.seconds", "").strip()
    bore = form.values.get("press.bore", "").strip() or _at(raw, "press.bore")
    if not distance or not seconds or not bore:
        return {}
    moved = float(read_length(distance, "timed.distance", form.units))
    area = math.pi / 4 * float(read_length(bore, "press.bore", form.units)) ** 2
    took = float(read_ratio(seconds, "timed.seconds"))
    if took <= 0 or moved <= 0:
        raise InputError(
            "timed.seconds", "this must be more than 0", "time it again", value=seconds
        )
    litres = area * moved / took * 60e-6
    if form.units == "inch":
        return {"press.pump": f"{litres * 1e6 / GALLON_MM3:.3g} gpm"}
    return {"press.pump": f"{litres:.3g} L/min"}
