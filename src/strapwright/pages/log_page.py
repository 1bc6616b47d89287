"""The log at the press: one screen for one bend, and the next one comes by itself."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import UTC, datetime

from attrs import evolve, frozen

from strapwright.errors import InputError
from strapwright.pages.page_statements import on_page, told
from strapwright.pages.sharing.own_view import AS_EACH_JOB, OwnView, read_view, seen_job
from strapwright.pages.shop_work.line_told import line_told
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.planning.from_the_log.bend_now import BendNow, bend_now
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.made_bend import JamsError
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Gauge, Plan
from strapwright.quantities import Units
from strapwright.service.shop_log.batch import batch_of
from strapwright.service.shop_log.batch_text import batch_sentences
from strapwright.service.shop_log.learned_jobs import learned_from, part_name
from strapwright.service.shop_log.logged_push import (
    JobText,
    Logged,
    Turn,
    log_push,
    turn_at,
    turn_of,
)
from strapwright.service.shop_log.typed_readings import FIELDS, LEGS, TIMED, with_units
from strapwright.shop.job import Job
from strapwright.store import LogEntry
from strapwright.wording.reader import Reader
from strapwright.wording.relief_words import push_limits
from strapwright.wording.shop_log.log_words import (
    JAMS_BY_LOG,
    RELEASE,
    assumed_stop_words,
    band_words,
    hits_words,
    onto_words,
)
from strapwright.wording.steps.gauge_words import ease_off_words
from strapwright.wording.steps.step_words import bend_name
from strapwright.wording.telling import tell_all

LONGEST = 200  # characters of one field
TYPED = (*FIELDS, LEGS, TIMED, "note")
_MOST_LINES = 12


@frozen(kw_only=True)
class Big:
    """One big figure: what it is, the figure, and between which values."""

    label: str
    value: str
    between: str


@frozen(kw_only=True)
class LogScreen:
    """What the screen of one bend shows.

    Attributes
    ----------
    part, bend, quantity
        Which piece of how many, and which bend.
    name
        What the bend is called.
    stop
        Where to stop, or how much further to push.
    expected
        What angle and pressure are expected.
    caution
        Beside the push.
    limits
        How far it may be pushed, whatever it measures.
    travel
        What stands in the field of the travel, where it is not the plan's own stop.
    shown
        Travel of the stop that is shown, as the form posts it [mm]; empty where none is.
    hits
        Says that the stop is that of each hit of a series; empty for one push.
    first
        Whether no angle of this bar lot on this tooling is in the log yet, so that measuring it
        twice pays.
    units
        In which a number without one is read.
    lines
        The last lines of the job, newest first.
    batch
        How the batch goes, in sentences.
    """

    part: int
    bend: int
    quantity: int
    name: str
    stop: Big
    expected: tuple[Big, ...]
    caution: str
    limits: str
    travel: str
    shown: str
    hits: str
    first: bool
    units: Units
    lines: tuple[str, ...]
    batch: tuple[str, ...]


@frozen(kw_only=True)
class Asked:
    """A reading that is asked about: the questions, or what is wrong with what was typed."""

    questions: tuple[str, ...] = ()
    wrong: str = ""


def keep(
    shop: Workshop,
    opened: OpenJob,
    typed: Mapping[str, str],
    part: int,
    bend: int,
    view: OwnView = AS_EACH_JOB,
) -> Logged | Asked:
    """Keep what was typed, or ask about it.

    Parameters
    ----------
    shop, opened
        The job.
    typed
        The form.
    part, bend
        Of which it is.
    view
        How the device that typed it is shown figures.
    """
    given = {name: typed.get(name, "")[:LONGEST] for name in TYPED}
    # Read in the units that the form was shown in, whatever was chosen on the device since.
    asked_in = read_view(typed.get("units", ""), "").units
    try:
        if asked_in is not None and asked_in != shop.read(opened.text).units:
            given = with_units(given, asked_in)
        found = log_push(
            shop.store,
            _text(opened),
            given,
            bend=bend,
            at=datetime.now(UTC),
            part=part,
            sure=typed.get("sure") == "yes",
            new_mounting=typed.get("setup") == "new",
            stop=_posted(typed.get("stop", "")),
            ahead=False,
        )
    except InputError as error:
        return Asked(wrong=told(error))
    if found.entry is None:
        reader = on_page(seen_job(found.job, view))
        return Asked(questions=tuple(one.sentence for one in tell_all(found.asked, reader)))
    return found


def view_of(typed: Mapping[str, str] | None, view: OwnView) -> OwnView:
    """Return how a form is shown again: with what was typed, in the units that it was typed in."""
    units = None if typed is None else read_view(typed.get("units", ""), "").units
    return view if units is None else evolve(view, units=units)


def kept_words(found: Logged, view: OwnView) -> str:
    """Say what was kept, and at which stop where nobody typed one."""
    show = on_page(seen_job(found.job, view)).figures
    said = f"part {found.part}, bend {found.bend}"
    if found.assumed:
        said += f", {assumed_stop_words(found.travel, show)}"
    return said


def _posted(text: str) -> float | None:
    """Read the stop that a screen showed [mm]; ``None`` where it posts none."""
    if re.fullmatch(r"\d{1,4}\.\d{1,9}", text, re.ASCII) is None:
        return None
    return float(text)


def turn(shop: Workshop, opened: OpenJob, made: Plan, part: int, bend: int) -> Turn | None:
    """Return the bend that a page asks for, or the one that comes next.

    Parameters
    ----------
    part, bend
        0 where the page asks for none.
    """
    order = [step.bend for step in made.steps]
    if part > 0 and bend in order:
        return turn_at(shop.store, _text(opened), made.job, part, bend)
    return turn_of(shop.store, _text(opened), made.job, order)


def after(made: Plan, now: Turn) -> tuple[int, int]:
    """Return part and bend that follow one, whatever the log says of it."""
    order = [step.bend for step in made.steps]
    place = order.index(now.bend) + 1
    return (now.part, order[place]) if place < len(order) else (now.part + 1, order[0])


def screen(
    shop: Workshop, opened: OpenJob, made: Plan, now: Turn, view: OwnView = AS_EACH_JOB
) -> LogScreen:
    """Fill the screen of one bend."""
    job, reader = made.job, on_page(seen_job(made.job, view))
    lines = shop.store.log.lines(opened.item.id)
    known = learned_from(shop.store, opened.text, job, part=part_name(opened.item.id, now.part))
    ordered = next(one for one in made.steps if one.bend == now.bend)
    # Pressure and limits by what is known now, as the stop is; the order alone is that of before.
    fresh = plan(job, search=False, learned=known if known.says_anything else None)
    step = next((one for one in fresh.steps if one.bend == now.bend), ordered)
    try:
        known_bend = bend_now(job, known, now.bend)
    except JamsError:
        known_bend = None
    travel = None if known_bend is None else _stop_at(known_bend, now)
    return LogScreen(
        part=now.part,
        bend=now.bend,
        quantity=job.part.quantity,
        name=bend_name(made, ordered, reader).title,
        stop=_stop(known_bend, now, reader),
        expected=() if travel is None else _expected(known, job, now.bend, travel, reader),
        caution=RELEASE if step.gauge is None else _first(step.gauge, reader),
        limits=push_limits(step, reader.figures),
        travel=_travel(now, reader),
        shown="" if travel is None else f"{travel:.6f}",
        hits="" if known_bend is None else hits_words(known_bend.hits),
        first=not known.has_bent,
        units=reader.figures.units,
        lines=tuple(_line(one, job, reader) for one in reversed(lines[-_MOST_LINES:])),
        batch=()
        if known_bend is None
        else tuple(batch_sentences(batch_of(shop.store, _text(opened), job, now.bend, known_bend))),
    )


def _stop_at(bend: BendNow, now: Turn) -> float:
    """Travel that the screen shows to stop at [mm]."""
    if now.further is not None and now.pushed is not None:
        return now.pushed + now.further.travel
    return bend.travel


def _stop(bend: BendNow | None, now: Turn, reader: Reader) -> Big:
    show = reader.figures
    if bend is None:
        return Big(label="Stop at", value="-", between=JAMS_BY_LOG)
    if now.further is not None and now.pushed is not None:
        return Big(
            label="Push further",
            value=show.setting(now.further.travel),
            between=onto_words(now.pushed + now.further.travel, show),
        )
    return Big(
        label="Stop at",
        value=show.setting(bend.travel),
        between=band_words(bend.travel_band, show),
    )


def _first(gauge: Gauge, reader: Reader) -> str:
    return f"{RELEASE} {ease_off_words(gauge, reader.figures)}"


def _expected(
    known: LearnedJob, job: Job, bend: int, travel: float, reader: Reader
) -> tuple[Big, ...]:
    show = reader.figures
    found = known.foretold(job, bend, travel)
    if found is None:
        return ()
    figures = [("Angle", found.free, "rad")]
    figures += [] if found.gauge is None else [("Pressure gauge", found.gauge, "MPa")]
    shown = []
    for label, figure, kind in figures:
        one = show.banded(figure.value, figure.band, "rad" if kind == "rad" else "MPa")
        shown.append(Big(label=label, value=one.shown, between=f"{one.low} to {one.high}"))
    return tuple(shown)


def _travel(now: Turn, reader: Reader) -> str:
    if now.further is None or now.pushed is None:
        return ""
    return reader.figures.bare_setting(now.pushed + now.further.travel)


def _line(entry: LogEntry, job: Job, reader: Reader) -> str:
    left = "" if entry.counted else " (not counted)"
    told_now = line_told(entry, job, reader)
    return f"{entry.line}: part {entry.part}, bend {entry.bend}: {told_now}{left}"


def _text(opened: OpenJob) -> JobText:
    return JobText(item=opened.item.id, version=opened.version, text=opened.text)
