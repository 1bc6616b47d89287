"""Every line of a job's log, and a form to correct one."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.log_page import Asked
from strapwright.pages.page_statements import on_page, told
from strapwright.pages.sharing.own_view import AS_EACH_JOB, OwnView, read_view, seen_job
from strapwright.pages.shop_work.line_told import field_text, line_told
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.quantities import Units
from strapwright.service.shop_log.corrected_line import asked_of_change, change_line
from strapwright.service.shop_log.logged_push import JobText
from strapwright.service.shop_log.typed_readings import FIELDS, LEGS, TIMED, with_units
from strapwright.shop.job import Job
from strapwright.store import LogEntry, Missing
from strapwright.wording.reader import Reader
from strapwright.wording.steps.stop_words import TRAVEL
from strapwright.wording.telling import tell_all

LONGEST = 200  # characters of one field
_LABELS = {
    "travel": TRAVEL["page"],
    "angle": "Angle after release",
    "again": "Angle, measured again",
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


def log_lines(
    shop: Workshop,
    opened: OpenJob,
    number: int,
    typed: Mapping[str, str],
    view: OwnView = AS_EACH_JOB,
) -> LogLines:
    """Show the lines of a job.

    Parameters
    ----------
    shop, opened
        The job.
    number
        Of the line to correct; 0 for none.
    typed
        What was typed already and could not be read.
    view
        How the device is shown figures.

    Raises
    ------
    InputError
        If the job cannot be read.
    """
    job = shop.read(opened.text)
    reader = on_page(seen_job(job, view))
    entries = shop.store.log.lines(opened.item.id)
    chosen = next((one for one in entries if one.line == number), None)
    fields = [
        (name, _LABELS[name], typed.get(name, field_text(chosen, name, job, reader)))
        for name in CORRECTED
        if chosen is not None
    ]
    states = () if chosen is None else shop.store.log.states(chosen.line)[1:]
    return LogLines(
        lines=tuple(_shown(one, job, reader) for one in reversed(entries)),
        chosen=None if chosen is None else _shown(chosen, job, reader),
        fields=tuple(fields),
        before=tuple(line_told(one, job, reader) for one in states),
        units=reader.figures.units,
    )


def correct(shop: Workshop, opened: OpenJob, number: int, form: Mapping[str, str]) -> Asked | None:
    """Correct a line as typed, or ask about it as about a new reading; ``None`` where it was kept.

    A number without a unit is read in the units that the form was shown in, whatever was chosen on
    the device since.
    """
    text = JobText(item=opened.item.id, version=opened.version, text=opened.text)
    try:
        now = shop.store.log.states(number)[0]
        job = shop.read(opened.text)
        asked_in = read_view(form.get("units", ""), "")
        reader = on_page(seen_job(job, asked_in))
        typed = {
            name: form[name][:LONGEST]
            for name in CORRECTED
            if name in form and form[name].strip() != field_text(now, name, job, reader).strip()
        }
        if reader.figures.units != job.units:
            typed = with_units(typed, reader.figures.units)
        asked = (
            () if form.get("sure") == "yes" else asked_of_change(shop.store, text, number, typed)
        )
        if asked:
            return Asked(questions=tuple(one.sentence for one in tell_all(asked, reader)))
        counted = form.get("counted") == "yes"
        change_line(
            shop.store, text, number, typed,
            counted=None if counted == now.counted else counted,
            why=form.get("why", "")[:LONGEST],
        )  # fmt: skip
    except InputError as error:
        return Asked(wrong=told(error))
    except Missing:
        return Asked(wrong="There is no such line.")
    return None


def _shown(entry: LogEntry, job: Job, reader: Reader) -> LineShown:
    return LineShown(
        number=entry.line,
        part=entry.part,
        bend=entry.bend,
        typed=line_told(entry, job, reader),
        counted=entry.counted,
        changed=entry.revision > 1,
        why=entry.why,
    )
