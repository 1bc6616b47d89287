"""Quick answers at the bench: what the commands for one sum say, asked on a page."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Literal, cast

from attrs import evolve, frozen

from strapwright.errors import InputError
from strapwright.making.crib_cutters import cutters_of, drills_of, usual_cutters
from strapwright.pages.fields.form_fields import Field, is_metric
from strapwright.pages.page_statements import told
from strapwright.pages.shelves import crib_of
from strapwright.pages.workshop import Workshop
from strapwright.quantities import Units, read_length
from strapwright.service.bench_sums import drill_answer, fit_answer, tap_answer
from strapwright.service.cylinder_figures import NO_FRICTION, answers, cautions, read_cylinder
from strapwright.service.gauge_files import read_angles
from strapwright.service.metal_list import metals_to_text
from strapwright.service.one_bend import one_bend_to_text, solve_one_bend

Typed = Mapping[str, str]
LONGEST = 60  # characters of one field
_LINES = tuple[str, ...]

_BARE = Field(
    name="units",
    label="A number without a unit is",
    choices=(("", "refused"), ("inch", "inch, psi"), ("metric", "mm, bar")),
)


@frozen(kw_only=True)
class Question:
    """One sum that can be asked.

    Attributes
    ----------
    name
        By which the page knows it; that of the command.
    title
        What it answers.
    hint
        How to ask.
    fields
        What is typed; empty for one that needs nothing.
    """

    name: str
    title: str
    hint: str = ""
    fields: tuple[Field, ...] = ()


QUESTIONS = (
    Question(
        name="force",
        title="Gauge and force",
        hint="Enter the bore, and the gauge or the force. Flow gives the speed.",
        fields=(
            Field(name="bore", label="Bore", kind="length", inch="4 in", metric="100 mm"),
            Field(name="rod", label="Piston rod", kind="length", inch="2 in", metric="50 mm"),
            Field(
                name="pressure", label="Gauge", kind="pressure", inch="2500 psi", metric="170 bar"
            ),
            Field(name="force", label="Force", kind="force", inch="10 tons (US)", metric="90 kN"),
            Field(name="flow", label="Pump delivers", kind="flow", inch="2 gpm", metric="8 l/min"),
            _BARE,
        ),
    ),
    Question(
        name="stroke",
        title="One bend",
        hint="A bar over two shoulders with a nose in the middle. Enter the angle or the travel.",
        fields=(
            Field(name="material", label="Metal", inch="A36 hot rolled"),
            Field(name="bar", label="Bar", inch="flat 1/4 x 2", metric="flat 6 x 50"),
            Field(
                name="nose_radius",
                label="Nose radius",
                kind="length",
                inch="3/4 in",
                metric="20 mm",
            ),
            Field(name="opening", label="Opening", kind="length", inch="3 in", metric="75 mm"),
            Field(
                name="shoulder_radius",
                label="Shoulder radius",
                kind="length",
                inch="1/2 in",
                metric="12 mm",
            ),
            Field(name="angle", label="Angle wanted", kind="angle", inch="90"),
            Field(name="travel", label="Or travel", kind="length", inch="1-1/4 in", metric="30 mm"),
            Field(name="bore", label="Bore", kind="length", inch="4 in", metric="100 mm"),
            _BARE,
        ),
    ),
    Question(
        name="fit",
        title="Fit",
        hint="Enter a size with its classes, or one hole and a shaft as measured.",
        fields=(
            Field(name="size", label="Size", kind="length", inch="1 in", metric="25 mm"),
            Field(name="classes", label="Classes", inch="H7/g6"),
            Field(name="reamer", label="Or reamer", kind="length", inch="1 in", metric="25 mm"),
            Field(name="drill", label="Or drill", inch="63/64"),
            Field(name="hole", label="Or hole as measured", inch="1.000 to 1.001 in"),
            Field(name="shaft", label="Shaft as measured", inch="0.9995 in", metric="24.98 mm"),
            _BARE,
        ),
    ),
    Question(
        name="tap",
        title="Tap drill",
        hint="The drill is one of your crib, if you have entered one.",
        fields=(
            Field(name="thread", label="Thread", inch="3/8-16", metric="M10x1.5"),
            Field(name="percent", label="Thread engagement, %", kind="count", inch="75"),
            Field(name="drill", label="Or what this drill leaves", inch="5/16"),
            _BARE,
        ),
    ),
    Question(
        name="drill",
        title="Nearest drill",
        hint="By name or by size: Q, #7, 21/64 or 8.5 mm.",
        fields=(
            Field(name="size", label="Size or name", inch="0.332 in", metric="8.5 mm"),
            _BARE,
        ),
    ),
    Question(
        name="angles",
        title="Paper gauges for angles",
        hint="How far each bend turns the bar, with blanks between. Print at 100 %.",
        fields=(
            Field(name="angles", label="Angles", inch="90 45 92.6"),
            Field(name="paper", label="Paper", choices=(("letter", "Letter"), ("a4", "A4"))),
        ),
    ),
    Question(name="materials", title="Metals of the catalog"),
)


def quick_answer(shop: Workshop, name: str, typed: Typed, own: Units | None = None) -> _LINES:
    """Answer a question as typed.

    Parameters
    ----------
    shop
        Whose crib is asked.
    name
        Of the question.
    typed
        Field -> text, those left empty not in it.
    own
        Units of the device; ``None`` answers as it is asked.

    Returns
    -------
    tuple of str
        Lines, in one system of units; empty for one that is answered on paper.

    Raises
    ------
    InputError
        If a figure cannot be used, or one is missing.
    """
    answer = _ANSWERS.get(name)
    if answer is None:
        return ()
    return answer(shop, typed, own or asked_in(typed))


def question_of(name: str) -> Question | None:
    """Return a question by its name, ``None`` where there is none."""
    return next((one for one in QUESTIONS if one.name == name), None)


def said_of(question: Question, error: InputError) -> str:
    """Say what is wrong with a figure by the label of its field."""
    key = error.where.removeprefix("--").replace("-", "_").casefold()
    label = next((one.label for one in question.fields if one.name == key), "")
    sentence = told(error)
    return f"{label}: {sentence}" if label else sentence


def gauges_pdf(typed: Typed) -> bytes:
    """Draw the paper gauges of the angles typed.

    Raises
    ------
    InputError
        If one cannot be cut, or there is none.
    """
    words = re.split(r"[\s;]+", typed.get("angles", "").strip())
    if words == [""]:
        raise InputError("angles", "there is no angle", "write for example 90 45 92.6")
    degrees = read_angles(words)
    from strapwright.sheets.template_sheet import angles_pdf  # noqa: PLC0415  loads slowly

    return angles_pdf(degrees, paper=paper_of(typed))


def units_of(typed: Typed) -> Units | None:
    """Return the units of a number without one, ``None`` where such a number is refused."""
    said = typed.get("units", "")
    return cast("Units", said) if said in ("inch", "metric") else None


def asked_in(typed: Typed) -> Units:
    """Return the system that a question is asked in: as chosen, else that of the figures typed."""
    chosen = units_of(typed)
    if chosen is not None:
        return chosen
    figures = [text for name, text in typed.items() if name not in ("material", "units")]
    return "metric" if any(is_metric(text) for text in figures) else "inch"


def paper_of(typed: Typed) -> Literal["letter", "a4"]:
    """Return the paper to print on."""
    return "a4" if typed.get("paper") == "a4" else "letter"


def _force(_shop: Workshop, typed: Typed, shown: Units) -> _LINES:
    given = read_cylinder(
        bore=typed.get("bore"),
        rod=typed.get("rod"),
        pressure=typed.get("pressure"),
        force=typed.get("force"),
        flow=typed.get("flow"),
        efficiency="1",
        units=units_of(typed),
    )
    found = (f"{one.name:<16} {one.text(shown)}" for one in answers(given))
    return (*found, NO_FRICTION, cautions())


def _stroke(_shop: Workshop, typed: Typed, shown: Units) -> _LINES:
    flags: dict[str, str | None] = {"--friction": "0.1", "--efficiency": "0.95"}
    flags |= {f"--{name.replace('_', '-')}": text for name, text in typed.items()}
    flags.pop("--units", None)
    for name in ("bar", "material", "nose_radius", "opening", "shoulder_radius"):
        if name not in typed:
            raise InputError(name, "this is missing", "fill it in as the example shows")
    found = solve_one_bend(flags, units_of(typed))
    return tuple(one_bend_to_text(evolve(found, units=shown)).splitlines())


def _fit(_shop: Workshop, typed: Typed, shown: Units) -> _LINES:
    holes = [name for name in ("reamer", "drill", "hole") if name in typed]
    by_class = "size" in typed and "classes" in typed and not holes and "shaft" not in typed
    by_size = len(holes) == 1 and "shaft" in typed and "size" not in typed
    if not by_class and not by_size:
        raise InputError(
            "fit", "this is neither a size with its classes nor one hole and a shaft",
            "enter 25 mm and H7/g6, or a reamer and a shaft",
        )  # fmt: skip
    if by_class:  # the page says how it takes a number without a unit; 1 is not always 1 mm
        read_length(typed["size"], "SIZE", units_of(typed))
    lines, _ = fit_answer(
        typed.get("size"),
        typed.get("classes"),
        hole=typed.get("hole"),
        shaft=typed.get("shaft"),
        reamer=typed.get("reamer"),
        drill=typed.get("drill"),
        units=units_of(typed),
        shown=shown,
    )
    return tuple(lines)


def _tap(shop: Workshop, typed: Typed, shown: Units) -> _LINES:
    percent, crib = typed.get("percent"), crib_of(shop)
    try:
        share = None if percent is None else float(percent)
    except ValueError:
        raise InputError(
            "percent", "this is not a plain number", "write for example 75", value=percent
        ) from None
    lines, _ = tap_answer(
        typed.get("thread", ""),
        drill=typed.get("drill"),
        percent=share,
        cutters=usual_cutters() if crib is None else cutters_of(crib),
        units=units_of(typed),
        shown=shown,
    )
    return tuple(lines)


def _drill(shop: Workshop, typed: Typed, shown: Units) -> _LINES:
    crib = crib_of(shop)
    lines, _ = drill_answer(
        typed.get("size", ""),
        among=None if crib is None else drills_of(crib),
        series=None,
        units=units_of(typed),
        shown=shown,
    )
    return tuple(lines)


def _materials(_shop: Workshop, _typed: Typed, shown: Units) -> _LINES:
    return tuple(metals_to_text(shown).splitlines())


_ANSWERS: Mapping[str, Callable[[Workshop, Typed, Units], _LINES]] = {
    "force": _force,
    "stroke": _stroke,
    "fit": _fit,
    "tap": _tap,
    "drill": _drill,
    "materials": _materials,
}
