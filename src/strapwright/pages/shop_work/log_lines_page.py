"""Every line of a job's log, and a form to correct one."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.page_statements import told
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.quantities import Units
from strapwright.service.shop_log.corrected_line import change_line
from strapwright.service.shop_log.logged_push import JobText
from strapwright.service.shop_log.typed_readings import FIELDS, LEGS, TIMED
from strapwright.store import LogEntry, Missing
from strapwright.wording.steps.stop_words import TRAVEL

LONGEST = 200  # characters of one field
_LABELS = {
    "travel": TRAVEL["page"],
    "angle": "Angle after release",
    "gauge": "Pressure gauge at the end",
    "loaded": "Angle under load",
    "radius": "Inside radius",
    "blank": "Blank as cut",
    LEGS: "Finished legs",
    TIMED: "Minutes to lay the part in",
    "note": "Anything else",
}
CORRECTED = (*FIELDS, LEGS, TIMED, "note")


@frozen(kw_only=True)
class LineShown:
    """One line: what it is of, what was typed, whether it is learned from, and why not."""

    number: int
    part: int
    bend: int
    typed: str
    counted: bool
    changed: bool
    why: str


@frozen(kw_only=True)
class LogLines:
    """The lines of a job, newest first, and the one that is corrected.

    Attributes
    ----------
    lines
        All of them.
    chosen
        The line to correct; ``None`` where none is.
    fields
        Name, label and text of each field of the form.
    before
        What was typed in earlier states of it, the newest first.
    units
        In which a number without a unit is read.
    """

    lines: tuple[LineShown, ...]
    chosen: LineShown | None
    fields: tuple[tuple[str, str, str], ...]
    before: tuple[str, ...]
    units: Units


def log_lines(shop: Workshop, opened: OpenJob, number: int, typed: Mapping[str, str]) -> LogLines:
    """Show the lines of a job.

    Parameters
    ----------
    shop, opened
        The job.
    number
        Of the line to correct; 0 for none.
    typed
        What was typed already and could not be read.

    Raises
    ------
    InputError
        If the job cannot be read.
    """
    entries = shop.store.log.lines(opened.item.id)
    chosen = next((one for one in entries if one.line == number), None)
    fields = [
        (name, _LABELS[name], typed.get(name, chosen.typed.get(name, "")))
        for name in CORRECTED
        if chosen is not None
    ]
    states = () if chosen is None else shop.store.log.states(chosen.line)[1:]
    return LogLines(
        lines=tuple(_shown(one) for one in reversed(entries)),
        chosen=None if chosen is None else _shown(chosen),
        fields=tuple(fields),
        before=tuple(_typed(one) for one in states),
        units=shop.read(opened.text).units,
    )


def correct(shop: Workshop, opened: OpenJob, number: int, form: Mapping[str, str]) -> str:
    """Correct a line as typed; return what is wrong with it, empty where it was kept."""
    text = JobText(item=opened.item.id, version=opened.version, text=opened.text)
    try:
        now = shop.store.log.states(number)[0]
        typed = {
            name: form[name][:LONGEST]
            for name in CORRECTED
            if name in form and form[name].strip() != now.typed.get(name, "").strip()
        }
        counted = form.get("counted") == "yes"
        change_line(
            shop.store, text, number, typed,
            counted=None if counted == now.counted else counted,
            why=form.get("why", "")[:LONGEST],
        )  # fmt: skip
    except InputError as error:
        return told(error)
    except Missing:
        return "There is no such line."
    return ""


def _shown(entry: LogEntry) -> LineShown:
    return LineShown(
        number=entry.line,
        part=entry.part,
        bend=entry.bend,
        typed=_typed(entry),
        counted=entry.counted,
        changed=entry.revision > 1,
        why=entry.why,
    )


def _typed(entry: LogEntry) -> str:
    return ", ".join(f"{name} {text}" for name, text in entry.typed.items())
